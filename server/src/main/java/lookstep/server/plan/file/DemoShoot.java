package lookstep.server.plan.file;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import lookstep.protocols.fixture.Fixture;
import lookstep.server.plan.ShootPlan;

/** The shoot that is built in: an invented band in an invented place. */
public final class DemoShoot {
    /** What errors call the file. */
    public static final String NAME = "demo.shoot.yaml";

    private static final String FOLDER = "/lookstep/plan/";

    private DemoShoot() {}

    /** The file, to be printed as an example. */
    public static String text() {
        return resource(NAME);
    }

    /** The JSON Schema of plan files, to be printed for editors. */
    public static String schema() {
        return resource("shoot.schema.json");
    }

    /**
     * The plan.
     *
     * @param fixtures must have those that the file names: bi-colour and rgbw
     * @throws IllegalStateException if the file does not fit these fixtures
     */
    public static ShootPlan read(List<Fixture> fixtures) {
        PlanReading reading =
                new PlanReader(fixtures).read(text().getBytes(StandardCharsets.UTF_8));
        if (reading instanceof PlanReading.Bad bad) {
            throw new IllegalStateException(bad.errors().get(0).text(NAME));
        }
        return ((PlanReading.Good) reading).plan();
    }

    static String resource(String name) {
        try (InputStream in = DemoShoot.class.getResourceAsStream(FOLDER + name)) {
            if (in == null) {
                throw new IllegalStateException(name + " is not in the jar");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}

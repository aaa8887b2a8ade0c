package lookstep.server.plan.file;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.protocols.fixture.DimmingCurve;
import lookstep.protocols.fixture.Emitter;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.Mode;
import lookstep.server.plan.file.Node.Mapping;

/**
 * Reads fixture files. Finds everything that is wrong in one go; never throws for what a file has.
 */
public final class FixtureReader implements FixtureSource {
    private static final List<String> KEYS =
            List.of("id", "name", "beam", "watts", "curve", "emitters", "modes");

    // a cosine power has no width from 180 degrees on
    private static final Quantity BEAM = new Quantity("degrees", " degrees", 1, 179, 60);
    private static final Quantity WATTS = new Quantity("watts", " W", 0.1, 20_000, 100);

    @Override
    public FixtureReading read(Path path) {
        Problems problems = new Problems(FileKind.FIXTURE);
        return read(PlanBytes.read(path, problems), problems);
    }

    /** Reads a file's bytes. */
    public FixtureReading read(byte[] bytes) {
        Problems problems = new Problems(FileKind.FIXTURE);
        return read(PlanBytes.decode(bytes, problems), problems);
    }

    private static FixtureReading read(Optional<String> text, Problems problems) {
        List<String> notes = new ArrayList<>();
        Optional<Fixture> fixture =
                text.flatMap(t -> YamlTree.read(t, problems))
                        .flatMap(n -> fixture(n, problems, notes));
        if (fixture.isEmpty() || problems.errorCount() > 0) {
            return new FixtureReading.Bad(problems.errors());
        }
        return new FixtureReading.Good(List.of(fixture.get()), notes);
    }

    private static Optional<Fixture> fixture(Node root, Problems problems, List<String> notes) {
        if (!(root instanceof Mapping m)) {
            return new Value(root, "the file", problems)
                    .wrong("begin with keys: " + String.join(", ", KEYS));
        }
        Fields f = Fields.of(m, "", problems, KEYS);
        // one name of each: the ids of other fixtures are not known here
        String id = new Names("fixture").take(f, "id", "stage-panel");
        String name = new Names("fixture").take(f, "name", "our stage panel");
        double beam = f.number("beam", BEAM);
        double watts = f.number("watts", WATTS);
        DimmingCurve curve =
                f.need("curve", "linear").flatMap(CurveWords::read).orElse(DimmingCurve.LINEAR);
        EmitterReader emitterReader = new EmitterReader(problems);
        List<Emitter> emitters =
                Sections.read(
                        f,
                        "emitters",
                        EmitterReader.EXAMPLE,
                        emitterReader.names(),
                        emitterReader::read);
        ModeReader modeReader = new ModeReader(emitters, emitterReader.names(), problems, notes);
        List<Mode> modes =
                Sections.read(f, "modes", ModeReader.EXAMPLE, modeReader.names(), modeReader::read);
        if (problems.errorCount() > 0) {
            return Optional.empty();
        }
        return Optional.of(new Fixture(id, name, emitters, curve, beam, watts, modes));
    }
}

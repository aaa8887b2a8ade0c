package lookstep.server.plan.file;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;

/** Reads a fixture's file by what its name ends with. */
public final class FixtureFiles implements FixtureSource {
    /** For a program that has nothing to read GDTF (DIN SPEC 15800) with. */
    public static final FixtureSource NO_GDTF =
            path ->
                    bad(
                            "GDTF files are not read here",
                            "write the fixture as a .fixture.yaml file");

    private static final String GDTF = ".gdtf";

    private final FixtureSource gdtf;

    /**
     * @param gdtf reads {@code .gdtf} files
     */
    public FixtureFiles(FixtureSource gdtf) {
        this.gdtf = gdtf;
    }

    /** True if the name says that the file describes a fixture. */
    public static boolean isFixture(Path path) {
        return ends(path, FileKind.FIXTURE.suffix()) || isGdtf(path);
    }

    static boolean isGdtf(Path path) {
        return ends(path, GDTF);
    }

    @Override
    public FixtureReading read(Path path) {
        if (ends(path, FileKind.FIXTURE.suffix())) {
            return new FixtureReader().read(path);
        }
        return isGdtf(path)
                ? gdtf.read(path)
                : bad(
                        "its name does not say that it describes a fixture",
                        "name a file that ends with .fixture.yaml or .gdtf");
    }

    private static boolean ends(Path path, String suffix) {
        return path.toString().toLowerCase(Locale.ROOT).endsWith(suffix);
    }

    private static FixtureReading bad(String what, String mend) {
        return new FixtureReading.Bad(List.of(new PlanError(0, 0, what, mend)));
    }
}

package lookstep.server.plan.file;

/** An invented fixture whose file shows everything that a fixture file can have. */
public final class ExampleFixture {
    /** What errors call the file. */
    public static final String NAME = "example.fixture.yaml";

    private ExampleFixture() {}

    /** The file, to be printed as an example. */
    public static String text() {
        return DemoShoot.resource(NAME);
    }

    /** The JSON Schema of fixture files, to be printed for editors. */
    public static String schema() {
        return DemoShoot.resource("fixture.schema.json");
    }
}

package lookstep.server.plan.file;

/** A plan to begin with: the least that can be photographed, with comments that help on. */
public final class NewPlan {
    /** What errors call the file. */
    public static final String NAME = "new.shoot.yaml";

    private NewPlan() {}

    /** The text, to be written to a file of one's own. */
    public static String text() {
        return DemoShoot.resource(NAME);
    }
}

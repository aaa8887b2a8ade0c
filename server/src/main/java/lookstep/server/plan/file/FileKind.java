package lookstep.server.plan.file;

/** The files that are written by hand, and how errors speak of them. */
enum FileKind {
    PLAN(
            "plan",
            ".shoot.yaml",
            "begin with a line 'title: ' and the name of the shoot",
            "keep one shoot in one file; write another file for another shoot",
            "the demo shoot",
            "look at the demo shoot: a plan is 5 deep"),
    FIXTURE(
            "fixture",
            ".fixture.yaml",
            "begin with a line 'id: ' and how plan files are to call it",
            "keep one fixture in one file; write another file for another fixture",
            "the example fixture",
            "look at the example fixture: it is 7 deep");

    private final String noun;
    private final String suffix;
    private final String beginning;
    private final String one;
    private final String example;
    private final String depth;

    FileKind(
            String noun,
            String suffix,
            String beginning,
            String one,
            String example,
            String depth) {
        this.noun = noun;
        this.suffix = suffix;
        this.beginning = beginning;
        this.one = one;
        this.example = example;
        this.depth = depth;
    }

    /** What it describes. */
    String noun() {
        return noun;
    }

    /** How its name ends. */
    String suffix() {
        return suffix;
    }

    /** What to write into an empty one. */
    String beginning() {
        return beginning;
    }

    /** What to do with a second one in the same file. */
    String one() {
        return one;
    }

    /** What to do where values stand too deep in each other. */
    String depth() {
        return depth;
    }

    /** What to compare with. */
    String example() {
        return example;
    }
}

package lookstep.server.order;

/** How hard to look, counted in steps and not by a clock: the same question, the same answer. */
public enum Effort {
    /** For a re-cut in the middle of a shoot. Above 16 shots no bound is computed. */
    QUICK(2_000_000, false),
    /** For a plan: seconds, with a bound. */
    THOROUGH(60_000_000, true);

    private final long steps;
    private final boolean bounded;

    Effort(long steps, boolean bounded) {
        this.steps = steps;
        this.bounded = bounded;
    }

    long steps() {
        return steps;
    }

    boolean bounded() {
        return bounded;
    }
}

package lookstep.server.order;

/** How hard to look, counted in steps and not by a clock: the same question, the same answer. */
public enum Effort {
    /** For a re-cut in the middle of a shoot. Some 20 ms; above 16 shots no bound is computed. */
    QUICK(2_000_000, 16, false),
    /** For a plan: seconds, with a bound. */
    THOROUGH(60_000_000, 18, true);

    private final long steps;
    private final int provenUnits;
    private final boolean bounded;

    Effort(long steps, int provenUnits, boolean bounded) {
        this.steps = steps;
        this.provenUnits = provenUnits;
        this.bounded = bounded;
    }

    long steps() {
        return steps;
    }

    /** Shots and whole groups; up to that all sets are looked at. */
    int provenUnits() {
        return provenUnits;
    }

    boolean bounded() {
        return bounded;
    }
}

package lookstep.server.order;

/** How hard to look, counted in steps and not by a clock: the same question, the same answer. */
public enum Effort {
    /** For a re-cut in the middle of a shoot. Above 16 shots no bound is computed. */
    QUICK(120, false),
    /** For a plan: seconds, with a bound. */
    THOROUGH(1500, true);

    private final int rounds;
    private final boolean bounded;

    Effort(int rounds, boolean bounded) {
        this.rounds = rounds;
        this.bounded = bounded;
    }

    int rounds() {
        return rounds;
    }

    boolean bounded() {
        return bounded;
    }
}

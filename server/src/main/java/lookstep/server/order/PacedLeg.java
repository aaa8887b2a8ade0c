package lookstep.server.order;

/**
 * How long a shot and the change before it took, against the plan. Pauses are not in it.
 *
 * @param planned the change as the plan has it, not at a pace learned before
 * @param plannedShootSeconds the shot as the plan has it
 * @param realChangeSeconds 0 or more; as much of the whole as planned if only the sum is known
 * @param realShootSeconds 0 or more
 * @param apart whether change and shot were timed each by itself
 */
public record PacedLeg(
        Change planned,
        double plannedShootSeconds,
        double realChangeSeconds,
        double realShootSeconds,
        boolean apart) {
    private static final double SHORTEST_SECONDS = 0.1;

    /** Both were timed. */
    public static PacedLeg timed(
            Change planned,
            double plannedShootSeconds,
            double realChangeSeconds,
            double realShootSeconds) {
        return new PacedLeg(
                planned, plannedShootSeconds, realChangeSeconds, realShootSeconds, true);
    }

    /** Only the time from the shot before to this one is known. */
    public static PacedLeg sum(Change planned, double plannedShootSeconds, double realSeconds) {
        double share = planned.seconds() / (planned.seconds() + plannedShootSeconds);
        return new PacedLeg(
                planned,
                plannedShootSeconds,
                realSeconds * share,
                realSeconds * (1 - share),
                false);
    }

    /**
     * @throws IllegalArgumentException if a time is negative or nothing was planned
     */
    public PacedLeg {
        if (!(plannedShootSeconds > 0) || !(realChangeSeconds >= 0) || !(realShootSeconds >= 0)) {
            throw new IllegalArgumentException(
                    "a leg was planned with more than 0 s and took 0 s or more, not "
                            + plannedShootSeconds
                            + ", "
                            + realChangeSeconds
                            + " and "
                            + realShootSeconds);
        }
    }

    /** How much of what was timed is the shot, 0..1; 1 if it was timed by itself. */
    double shootShare() {
        return apart ? 1 : plannedShootSeconds / (plannedShootSeconds + planned.seconds());
    }

    double changeShare() {
        return apart ? 1 : 1 - shootShare();
    }

    double logShoot() {
        return log(realShootSeconds, plannedShootSeconds);
    }

    double logChange() {
        return log(realChangeSeconds, planned.seconds());
    }

    private static double log(double real, double planned) {
        return Math.log(Math.max(real, SHORTEST_SECONDS) / planned);
    }
}

package lookstep.server.live;

/**
 * Plates that are whole: every step has its frame.
 *
 * @param run how they were taken
 * @param doneEpochMillis when the last one was there
 * @param goodEpochMillis when somebody said last that nothing had moved; when they were taken
 *     before that
 * @param stale why they no longer hold, in words; empty as long as they do
 */
public record PlateSet(PlateRun run, long doneEpochMillis, long goodEpochMillis, String stale) {
    /** Tells it from others. */
    public String id() {
        return run.id();
    }

    PlateSet good(long atEpochMillis) {
        return new PlateSet(run, doneEpochMillis, atEpochMillis, "");
    }

    PlateSet renamed(String from, String to) {
        return new PlateSet(run.renamed(from, to), doneEpochMillis, goodEpochMillis, stale);
    }

    PlateSet stale(String why) {
        return new PlateSet(run, doneEpochMillis, goodEpochMillis, stale.isEmpty() ? why : stale);
    }
}

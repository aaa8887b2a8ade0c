package lookstep.server.live;

/**
 * The clock of the window, by the wall so that it goes on while the program is down.
 *
 * @param runMillis how long it had run when it was last paused or started
 * @param startedEpochMillis when it was last started; 0 before the first start
 * @param running whether it runs
 */
public record Clock(long runMillis, long startedEpochMillis, boolean running) {
    static final Clock NEW = new Clock(0, 0, false);

    /** How long the window has been open. */
    public long elapsedMillis(long nowEpochMillis) {
        return running ? runMillis + Math.max(0, nowEpochMillis - startedEpochMillis) : runMillis;
    }

    /** True before the first start. */
    public boolean fresh() {
        return startedEpochMillis == 0;
    }

    Clock start(long nowEpochMillis) {
        return running ? this : new Clock(runMillis, nowEpochMillis, true);
    }

    Clock pause(long nowEpochMillis) {
        return running ? new Clock(elapsedMillis(nowEpochMillis), startedEpochMillis, false) : this;
    }
}

package lookstep.server.soak;

/** A loop that does nothing on time: what this machine allows, to compare with. */
public final class EmptyLoop {
    private final Beats beats;
    private final long periodNanos;
    private long planned;
    private boolean begun;

    public EmptyLoop(Beats beats, long periodNanos) {
        this.beats = beats;
        this.periodNanos = periodNanos;
    }

    /** On the beat, as the line; a beat that was missed is let go. */
    public long doWork(long nowNanos) {
        beats.beat(nowNanos);
        planned = begun ? planned + periodNanos : nowNanos + periodNanos;
        begun = true;
        if (planned - nowNanos < 0) {
            planned = nowNanos;
        }
        return planned;
    }
}

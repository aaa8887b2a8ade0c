package lookstep.server.output;

import java.util.Arrays;

/**
 * The last 2048 times from break to break on a line, or beat to beat of a network: written by the
 * output's thread, read by any.
 */
public final class Periods {
    private static final int KEPT = 2048;

    private final long[] nanos = new long[KEPT];
    private long counted;
    private long last;
    private boolean running;

    synchronized void broke(long nowNanos) {
        if (running) {
            nanos[(int) (counted++ % KEPT)] = nowNanos - last;
        }
        last = nowNanos;
        running = true;
    }

    /** The time over which the line was away is no period. */
    synchronized void restart() {
        running = false;
    }

    /** Sorted, in nanoseconds; empty before the second packet. */
    public synchronized long[] sorted() {
        long[] kept = Arrays.copyOf(nanos, (int) Math.min(counted, KEPT));
        Arrays.sort(kept);
        return kept;
    }

    /** How many there were in all. */
    public synchronized long counted() {
        return counted;
    }
}

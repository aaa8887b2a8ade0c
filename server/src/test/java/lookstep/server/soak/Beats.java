package lookstep.server.soak;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.LongSupplier;

/**
 * The times from beat to beat of one loop: all of them, exact, so that no rare one gets lost. A
 * beat is a break on a line, or whatever another output does once a period. Written by its thread,
 * read by any.
 */
public final class Beats {
    private final String name;
    private final long limitNanos;
    private final LongSupplier epochMillis;
    private final List<Gap> gaps = new ArrayList<>();
    private long[] nanos;
    private int count;
    private long last;
    private boolean begun;
    private boolean ended;

    /**
     * A time between two beats that was too long.
     *
     * @param endedEpochMillis when it ended, by the wall clock
     * @param nanos how long it was
     */
    public record Gap(long endedEpochMillis, long nanos) {}

    /**
     * All so far, in nanoseconds; zeros before the second beat.
     *
     * @param count how many periods there were
     * @param p1 one in a hundred is shorter
     * @param p50 the median
     * @param p99 one in a hundred is longer
     * @param p999 one in a thousand is longer
     * @param max the longest
     */
    public record Figures(int count, long p1, long p50, long p99, long p999, long max) {
        /** Between the ninety-nine in a hundred and the one in a hundred. */
        public long spread() {
            return p99 - p1;
        }
    }

    /**
     * @param name what beats, for the table
     * @param expected about how many there will be; more are kept as well
     * @param limitNanos a longer time between two beats is a gap
     * @param epochMillis the wall clock
     */
    public Beats(String name, int expected, long limitNanos, LongSupplier epochMillis) {
        this.name = name;
        this.limitNanos = limitNanos;
        this.epochMillis = epochMillis;
        nanos = new long[Math.max(16, expected)];
    }

    public String name() {
        return name;
    }

    /** It beats now, on the clock of {@link System#nanoTime}. */
    public synchronized void beat(long nowNanos) {
        if (ended) {
            return;
        }
        if (begun) {
            add(nowNanos - last);
        }
        begun = true;
        last = nowNanos;
    }

    /**
     * Measured up to now: the time since the last beat counts as well, if it is a gap. What beats
     * later is not counted, such as while the soak itself collects garbage to weigh the heap.
     */
    public synchronized void end(long nowNanos) {
        if (nowNanos - last > limitNanos) {
            beat(nowNanos);
        }
        ended = true;
    }

    private void add(long period) {
        if (count == nanos.length) {
            nanos = Arrays.copyOf(nanos, 2 * count);
        }
        nanos[count++] = period;
        if (period > limitNanos) {
            gaps.add(new Gap(epochMillis.getAsLong(), period));
        }
    }

    private synchronized long[] all() {
        return Arrays.copyOf(nanos, count);
    }

    public Figures figures() {
        long[] sorted = all();
        Arrays.sort(sorted);
        return new Figures(
                sorted.length,
                at(sorted, 0.01),
                at(sorted, 0.5),
                at(sorted, 0.99),
                at(sorted, 0.999),
                at(sorted, 1));
    }

    private static long at(long[] sorted, double part) {
        int n = sorted.length;
        return n == 0 ? 0 : sorted[Math.min(n - 1, (int) (n * part))];
    }

    public synchronized List<Gap> gaps() {
        return List.copyOf(gaps);
    }
}

package lookstep.protocols.dmx;

/**
 * When the parts of each packet begin, for one who sends (ANSI E1.11-2008 (R2018), timing tables;
 * figures via the esp_dmx library, which cites it).
 *
 * @param breakNanos how long the line is held in break, 92 us or more
 * @param markAfterBreakNanos from the end of the break to the START code, 12 us to less than 1 s
 * @param periodNanos from break to break, 1.204 ms to 1 s, and longer than break and mark
 */
public record DmxTiming(long breakNanos, long markAfterBreakNanos, long periodNanos) {
    /** Least break a sender may send. */
    public static final long LEAST_BREAK_NANOS = 92_000;

    /** Least mark after break a sender may send. */
    public static final long LEAST_MARK_AFTER_BREAK_NANOS = 12_000;

    /** The mark after break stays below this. */
    public static final long MARK_AFTER_BREAK_LIMIT_NANOS = 1_000_000_000;

    /** Least time from break to break. */
    public static final long LEAST_PERIOD_NANOS = 1_204_000;

    /** Most time from break to break. */
    public static final long MOST_PERIOD_NANOS = 1_000_000_000;

    /** Time on the wire of one slot, or of the START code: 11 bits of 4 us. */
    public static final long SLOT_NANOS = 44_000;

    /**
     * What to use unless there is a reason: a break of 176 us (the standard's typical figure), a
     * mark of 20 us, a packet each 30 ms, which is 33.3 a second. 513 octets take 22.6 ms and a USB
     * adapter spends up to about 1 ms on each of the two break requests, so 30 ms leaves some 5 ms:
     * the period stays steady where a faster one would slip now and then.
     */
    public static final DmxTiming STEADY = new DmxTiming(176_000, 20_000, 30_000_000);

    public DmxTiming {
        if (breakNanos < LEAST_BREAK_NANOS) {
            throw new IllegalArgumentException(
                    "break of " + breakNanos + " ns: must be " + LEAST_BREAK_NANOS + " or more");
        }
        if (markAfterBreakNanos < LEAST_MARK_AFTER_BREAK_NANOS
                || markAfterBreakNanos >= MARK_AFTER_BREAK_LIMIT_NANOS) {
            throw new IllegalArgumentException(
                    "mark after break of %d ns: must be %d or more and below %d"
                            .formatted(
                                    markAfterBreakNanos,
                                    LEAST_MARK_AFTER_BREAK_NANOS,
                                    MARK_AFTER_BREAK_LIMIT_NANOS));
        }
        if (periodNanos < LEAST_PERIOD_NANOS || periodNanos > MOST_PERIOD_NANOS) {
            throw new IllegalArgumentException(
                    "period of %d ns: must be %d to %d"
                            .formatted(periodNanos, LEAST_PERIOD_NANOS, MOST_PERIOD_NANOS));
        }
        // the break has no upper limit of its own; compare without a sum that could overflow
        if (breakNanos >= periodNanos - markAfterBreakNanos) {
            throw new IllegalArgumentException(
                    "break of %d ns and mark of %d ns do not fit in a period of %d ns"
                            .formatted(breakNanos, markAfterBreakNanos, periodNanos));
        }
    }

    /** Time on the wire of the START code and {@code slots} slots (0..512) without gaps. */
    public static long wireNanos(int slots) {
        if (slots < 0 || slots > DmxPacket.SLOTS) {
            throw new IllegalArgumentException(slots + " slots: must be 0 to " + DmxPacket.SLOTS);
        }
        return (slots + 1) * SLOT_NANOS;
    }

    /** Whether break, mark and {@code slots} slots (0..512) are over when the period is. */
    public boolean fits(int slots) {
        return breakNanos + markAfterBreakNanos + wireNanos(slots) <= periodNanos;
    }
}

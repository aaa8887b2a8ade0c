package lookstep.server.patch;

/**
 * Slots in a row, counted from 1. May reach past 512 where a light would.
 *
 * @param first the lowest
 * @param last the highest, not below {@code first}
 */
public record SlotRange(int first, int last) {
    public SlotRange {
        if (last < first) {
            throw new IllegalArgumentException("slots %d to %d".formatted(first, last));
        }
    }

    /** So many slots from this one on. */
    static SlotRange from(int first, int count) {
        return new SlotRange(first, first + count - 1);
    }

    /** How many. */
    public int count() {
        return last - first + 1;
    }

    boolean meets(SlotRange other) {
        return first <= other.last && other.first <= last;
    }

    /** {@code 11-14}, or {@code 11} alone. */
    public String words() {
        return first == last ? String.valueOf(first) : first + "-" + last;
    }
}

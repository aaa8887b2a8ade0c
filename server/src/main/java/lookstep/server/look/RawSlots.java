package lookstep.server.look;

import java.util.Arrays;

/**
 * Slots that are sent as they are, while one of them is looked at.
 *
 * @param universe whose
 * @param slots 512, slot 1 first; a copy is kept
 */
@SuppressWarnings("ArrayRecordComponent") // written once, and compared by what it holds
public record RawSlots(int universe, byte[] slots) {
    public RawSlots {
        if (slots.length != 512) {
            throw new IllegalArgumentException(slots.length + " slots: must be 512");
        }
        slots = slots.clone();
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof RawSlots o
                && universe == o.universe
                && Arrays.equals(slots, o.slots);
    }

    @Override
    public int hashCode() {
        return 31 * universe + Arrays.hashCode(slots);
    }
}

package lookstep.protocols.sacn;

import java.util.Arrays;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.dmx.StartCode;

/** What a data packet carries: a START code and 0 to 512 slots. Immutable. */
public final class SacnSlots {
    private final int startCode;
    private final byte[] slots;

    /**
     * @param startCode 0..255; 0 for levels
     * @param slots 0 to 512 octets, slot 1 first; copied
     */
    public SacnSlots(int startCode, byte[] slots) {
        if (startCode < 0 || startCode > 255) {
            throw new IllegalArgumentException("START code " + startCode + ": must be 0 to 255");
        }
        if (slots.length > DmxPacket.SLOTS) {
            throw new IllegalArgumentException(
                    slots.length + " slots: must be 0 to " + DmxPacket.SLOTS);
        }
        this.startCode = startCode;
        this.slots = slots.clone();
    }

    /** All 512 levels of a packet. */
    public static SacnSlots of(DmxPacket packet) {
        return new SacnSlots(StartCode.NULL, packet.slots());
    }

    /** See {@link StartCode}. */
    public int startCode() {
        return startCode;
    }

    /** Whether the slots are levels to act on. */
    public boolean hasLevels() {
        return startCode == StartCode.NULL;
    }

    /** How many slots there are, 0..512. */
    public int count() {
        return slots.length;
    }

    /** The slots, slot 1 first; a copy. */
    public byte[] octets() {
        return slots.clone();
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof SacnSlots that
                && startCode == that.startCode
                && Arrays.equals(slots, that.slots);
    }

    @Override
    public int hashCode() {
        return 31 * startCode + Arrays.hashCode(slots);
    }

    @Override
    public String toString() {
        return "SacnSlots[START code 0x%02X, %d slots]".formatted(startCode, slots.length);
    }
}

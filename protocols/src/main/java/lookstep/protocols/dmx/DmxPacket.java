package lookstep.protocols.dmx;

import java.util.Arrays;

/**
 * One whole packet of levels: the NULL START code and 512 slots (ANSI E1.11). Immutable; slots are
 * counted from 1, as on the lights.
 */
public final class DmxPacket {
    /** Slots in a packet of full length. */
    public static final int SLOTS = 512;

    /** Octets on the line: START code and slots. */
    public static final int OCTETS = 1 + SLOTS;

    /** Every slot at 0. */
    public static final DmxPacket BLACK = new DmxPacket(new byte[OCTETS]);

    private final byte[] octets;

    private DmxPacket(byte[] octets) {
        this.octets = octets;
    }

    /**
     * A packet from its slots.
     *
     * @param slots 512 octets, slot 1 first; copied
     * @throws IllegalArgumentException if there are not 512
     */
    public static DmxPacket ofSlots(byte[] slots) {
        requireLength(slots, SLOTS, "slots");
        byte[] octets = new byte[OCTETS];
        System.arraycopy(slots, 0, octets, 1, SLOTS);
        return new DmxPacket(octets);
    }

    /**
     * A packet from what goes on the line.
     *
     * @param octets 513 octets, START code first; copied
     * @throws IllegalArgumentException if there are not 513, or the START code is not NULL
     */
    public static DmxPacket ofBytes(byte[] octets) {
        requireLength(octets, OCTETS, "octets");
        if (octets[0] != StartCode.NULL) {
            throw new IllegalArgumentException(
                    "START code 0x%02X: levels have 0x00".formatted(octets[0] & 0xFF));
        }
        return new DmxPacket(octets.clone());
    }

    /** Level of slot {@code n} (1..512), 0..255. */
    public int slot(int n) {
        requireSlot(n);
        return octets[n] & 0xFF;
    }

    /** The same packet but for slot {@code n} (1..512), at {@code level} (0..255). */
    public DmxPacket withSlot(int n, int level) {
        requireSlot(n);
        if (level < 0 || level > 255) {
            throw new IllegalArgumentException("level " + level + ": must be 0 to 255");
        }
        byte[] changed = octets.clone();
        changed[n] = (byte) level;
        return new DmxPacket(changed);
    }

    /**
     * The same packet but for {@code levels}, which go into slot {@code start} and those after it.
     *
     * @param start 1..512
     * @param levels as many octets as there is room for from there, or fewer
     */
    public DmxPacket withSlots(int start, byte[] levels) {
        requireSlot(start);
        if (start + levels.length - 1 > SLOTS) {
            throw new IllegalArgumentException(
                    levels.length + " slots from slot " + start + " go past slot " + SLOTS);
        }
        byte[] changed = octets.clone();
        System.arraycopy(levels, 0, changed, start, levels.length);
        return new DmxPacket(changed);
    }

    /** The 513 octets for the line, START code first; a copy. */
    public byte[] bytes() {
        return octets.clone();
    }

    /** The 512 slots, slot 1 first; a copy. */
    public byte[] slots() {
        return Arrays.copyOfRange(octets, 1, OCTETS);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof DmxPacket packet && Arrays.equals(octets, packet.octets);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(octets);
    }

    /** The slots that are not 0, such as {@code DmxPacket[3=255 4=12]}. */
    @Override
    public String toString() {
        StringBuilder text = new StringBuilder("DmxPacket[");
        String gap = "";
        for (int n = 1; n <= SLOTS; n++) {
            if (octets[n] != 0) {
                text.append(gap).append(n).append('=').append(slot(n));
                gap = " ";
            }
        }
        return text.append(']').toString();
    }

    private static void requireSlot(int n) {
        if (n < 1 || n > SLOTS) {
            throw new IllegalArgumentException("slot " + n + ": must be 1 to " + SLOTS);
        }
    }

    private static void requireLength(byte[] given, int wanted, String what) {
        if (given.length != wanted) {
            throw new IllegalArgumentException(given.length + " " + what + ": must be " + wanted);
        }
    }
}

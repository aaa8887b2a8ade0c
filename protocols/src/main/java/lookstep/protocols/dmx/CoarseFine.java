package lookstep.protocols.dmx;

/**
 * A 16-bit level in two slots, coarse (most significant) first. E1.11 does not define it; the order
 * is that of DIN SPEC 15800 (GDTF, channel offsets).
 */
public final class CoarseFine {
    /** Largest 16-bit level. */
    public static final int FULL = 0xFFFF;

    private CoarseFine() {}

    /** Coarse octet, 0..255, of a level 0..65535. */
    public static int coarse(int level) {
        require(level, FULL, "level");
        return level >> 8;
    }

    /** Fine octet, 0..255, of a level 0..65535. */
    public static int fine(int level) {
        require(level, FULL, "level");
        return level & 0xFF;
    }

    /** Level 0..65535 of a coarse and a fine octet, 0..255 each. */
    public static int join(int coarse, int fine) {
        require(coarse, 255, "coarse");
        require(fine, 255, "fine");
        return coarse * 256 + fine;
    }

    private static void require(int value, int most, String what) {
        if (value < 0 || value > most) {
            throw new IllegalArgumentException(what + " " + value + ": must be 0 to " + most);
        }
    }
}

package lookstep.protocols.dmx;

/** A code fraction 0..1 as the nearest code of a slot, or of two. */
public final class Level {
    private Level() {}

    /** Nearest 8-bit code, 0..255. */
    public static int eightBit(double fraction) {
        return nearest(fraction, 255);
    }

    /** Nearest 16-bit code, 0..65535; see {@link CoarseFine}. */
    public static int sixteenBit(double fraction) {
        return nearest(fraction, CoarseFine.FULL);
    }

    private static int nearest(double fraction, int full) {
        // written so that NaN is refused as well
        if (!(fraction >= 0 && fraction <= 1)) {
            throw new IllegalArgumentException("level " + fraction + ": must be 0 to 1");
        }
        return (int) Math.round(fraction * full);
    }
}

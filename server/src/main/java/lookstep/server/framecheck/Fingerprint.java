package lookstep.server.framecheck;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.awt.image.BufferedImage;
import java.util.Arrays;
import java.util.Base64;
import java.util.OptionalDouble;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.Ciede2000;
import lookstep.simulator.model.colour.Lab;
import lookstep.simulator.model.colour.Srgb;

/**
 * A picture as it looks from across the room: 24 by 16 blurred fields (16 by 24 for an upright
 * one), 8-bit sRGB each. Two of them are compared field by field in CIELAB. Unchanging.
 */
public final class Fingerprint {
    private static final int LONG = 24;
    private static final int SHORT = 16;
    private static final String LEVEL = "level ";
    private static final String UPRIGHT = "upright ";

    private final boolean upright;
    private final byte[] srgb;
    private final Lab[] lab;

    private Fingerprint(boolean upright, byte[] srgb) {
        this.upright = upright;
        this.srgb = srgb;
        lab = new Lab[LONG * SHORT];
        for (int i = 0; i < lab.length; i++) {
            lab[i] =
                    Lab.of(
                            Srgb.toXyz(decode(3 * i), decode(3 * i + 1), decode(3 * i + 2)),
                            Chromaticity.D65);
        }
    }

    private double decode(int at) {
        return Srgb.decode((srgb[at] & 0xff) / 255.0);
    }

    /** Of an upright sRGB picture of any size. */
    public static Fingerprint of(BufferedImage picture) {
        return of(LinearFields.of(picture));
    }

    static Fingerprint of(LinearFields picture) {
        boolean upright = picture.height() > picture.width();
        int w = upright ? SHORT : LONG;
        int h = upright ? LONG : SHORT;
        double[] fields = new double[w * h * 3];
        for (int y = 0; y < h; y++) {
            for (int x = 0; x < w; x++) {
                double[] mean =
                        picture.mean(new Box((double) x / w, (double) y / h, 1.0 / w, 1.0 / h));
                System.arraycopy(mean, 0, fields, (y * w + x) * 3, 3);
            }
        }
        byte[] srgb = new byte[w * h * 3];
        for (int y = 0; y < h; y++) {
            for (int x = 0; x < w; x++) {
                for (int c = 0; c < 3; c++) {
                    srgb[(y * w + x) * 3 + c] = (byte) Srgb.encode8(blurred(fields, w, h, x, y, c));
                }
            }
        }
        return new Fingerprint(upright, srgb);
    }

    /** Binomial, 1 2 1 each way; the rim is repeated. */
    private static double blurred(double[] fields, int w, int h, int x, int y, int channel) {
        double sum = 0;
        for (int j = -1; j <= 1; j++) {
            int yy = Math.min(h - 1, Math.max(0, y + j));
            for (int i = -1; i <= 1; i++) {
                int xx = Math.min(w - 1, Math.max(0, x + i));
                sum += (2 - Math.abs(i)) * (2 - Math.abs(j)) * fields[(yy * w + xx) * 3 + channel];
            }
        }
        return sum / 16;
    }

    /**
     * Back from {@link #toString()}.
     *
     * @throws IllegalArgumentException if it is not such a text
     */
    @JsonCreator
    public static Fingerprint parse(String text) {
        boolean upright = text.startsWith(UPRIGHT);
        if (!upright && !text.startsWith(LEVEL)) {
            throw new IllegalArgumentException(
                    "a fingerprint begins with '" + LEVEL + "' or '" + UPRIGHT + "': " + text);
        }
        byte[] srgb =
                Base64.getDecoder().decode(text.substring((upright ? UPRIGHT : LEVEL).length()));
        if (srgb.length != LONG * SHORT * 3) {
            throw new IllegalArgumentException(
                    "a fingerprint has "
                            + LONG * SHORT * 3
                            + " bytes in base64, not "
                            + srgb.length);
        }
        return new Fingerprint(upright, srgb);
    }

    /** Level or upright, and the fields row by row in base64: about 1.5 kB. */
    @JsonValue
    @Override
    public String toString() {
        return (upright ? UPRIGHT : LEVEL) + Base64.getEncoder().encodeToString(srgb);
    }

    /**
     * How different two pictures look: CIEDE2000, mean over the fields. Empty if one is upright and
     * the other is not.
     */
    public OptionalDouble difference(Fingerprint other) {
        if (upright != other.upright) {
            return OptionalDouble.empty();
        }
        double sum = 0;
        for (int i = 0; i < lab.length; i++) {
            sum += Ciede2000.difference(lab[i], other.lab[i]);
        }
        return OptionalDouble.of(sum / lab.length);
    }

    @Override
    public boolean equals(Object o) {
        return o instanceof Fingerprint f && upright == f.upright && Arrays.equals(srgb, f.srgb);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(srgb) + (upright ? 1 : 0);
    }
}

package lookstep.simulator.model.plates;

import java.util.List;
import lookstep.simulator.model.colour.Srgb;

/** How a camera turns light into codes, for each channel. Immutable. */
public final class Response {
    /** A camera that writes plain sRGB (IEC 61966-2-1). */
    public static final Response SRGB = srgb(List.of());

    static final int CODES = 256;

    /**
     * Steps of the table from light to code: even in the square root, as most curves nearly are.
     */
    static final int STEPS = 1 << 13;

    private final float[][] linear;
    private final byte[][] code;
    private final int[] lowest;
    private final int[] highest;
    private final List<String> doubts;

    private Response(float[][] linear, int[] lowest, int[] highest, List<String> doubts) {
        this.linear = linear;
        this.code = new byte[3][];
        this.lowest = lowest;
        this.highest = highest;
        this.doubts = List.copyOf(doubts);
        for (int c = 0; c < 3; c++) {
            code[c] = inverse(linear[c]);
        }
    }

    /**
     * From light for each code.
     *
     * @param curves for red, green, blue: 256 values that rise from 0 to 1
     * @param lowest the lowest code of each channel that was seen; below it is guessed
     * @param highest the highest code of each channel that was seen
     * @param doubts in words for the page
     * @throws IllegalArgumentException if a curve does not rise from 0 to 1; the message says where
     */
    static Response of(double[][] curves, int[] lowest, int[] highest, List<String> doubts) {
        float[][] linear = new float[3][CODES];
        for (int c = 0; c < 3; c++) {
            if (curves[c].length != CODES || curves[c][0] != 0 || curves[c][CODES - 1] != 1) {
                throw new IllegalArgumentException(
                        "channel %d: give 256 values from 0 to 1".formatted(c));
            }
            for (int z = 0; z < CODES; z++) {
                linear[c][z] = (float) curves[c][z];
                if (z > 0 && !(curves[c][z] > curves[c][z - 1])) {
                    throw new IllegalArgumentException(
                            "channel %d: code %d must stand for more light than code %d"
                                    .formatted(c, z, z - 1));
                }
            }
        }
        return new Response(linear, lowest.clone(), highest.clone(), doubts);
    }

    /** Plain sRGB because nothing better is known. */
    static Response srgb(List<String> doubts) {
        double[] curve = new double[CODES];
        for (int z = 0; z < CODES; z++) {
            curve[z] = Srgb.decode(z / 255.0);
        }
        return of(
                new double[][] {curve, curve, curve},
                new int[3],
                new int[] {255, 255, 255},
                doubts);
    }

    /** Light of a code, 0..1; 1 is that of code 255. */
    public double linear(int channel, int code) {
        return linear[channel][code];
    }

    /** The code for light, 0..255, clipped. */
    public int code(int channel, double light) {
        double clipped = Math.min(1, Math.max(0, light));
        return code[channel][(int) (Math.sqrt(clipped) * (STEPS - 1) + 0.5)] & 0xff;
    }

    /** Light between this code and the next: how finely a code tells light apart. */
    public double step(int channel, int code) {
        int below = Math.max(0, code - 1);
        int above = Math.min(CODES - 1, code + 1);
        return (linear[channel][above] - (double) linear[channel][below]) / (above - below);
    }

    /** False where the curve is not measured but guessed from its surroundings and from sRGB. */
    public boolean seen(int channel, int code) {
        return code >= lowest[channel] && code <= highest[channel];
    }

    /** What cannot be told of it, in words for the page; empty if all is well. */
    public List<String> doubts() {
        return doubts;
    }

    /** Light of each code; not copied. */
    float[] table(int channel) {
        return linear[channel];
    }

    /** Codes at {@link #STEPS} steps of the square root of light; not copied. */
    byte[] codes(int channel) {
        return code[channel];
    }

    /** A camera rounds to the nearest code, so the border lies where the curve is half way. */
    private static byte[] inverse(float[] linear) {
        byte[] table = new byte[STEPS];
        int z = 0;
        for (int i = 0; i < STEPS; i++) {
            double root = i / (double) (STEPS - 1);
            while (z < CODES - 1 && root * root > (linear[z] + (double) linear[z + 1]) / 2) {
                z++;
            }
            table[i] = (byte) z;
        }
        return table;
    }
}

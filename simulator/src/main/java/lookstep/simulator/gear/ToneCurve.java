package lookstep.simulator.gear;

import java.awt.image.BufferedImage;
import lookstep.simulator.model.colour.Srgb;

/**
 * A picture style: what a camera makes of linear light before it writes codes. Real ones deepen
 * shadows and lift the upper mid tones, and differ a little between channels. This one is of our
 * own making: sRGB's signal v becomes {@code u - contrast sin(2 pi u) / 2 pi} with {@code u = v ^
 * gamma}, which rises everywhere and keeps 0 and 1.
 */
public record ToneCurve(Channel red, Channel green, Channel blue) {
    /** Plain sRGB. */
    public static final ToneCurve PLAIN =
            new ToneCurve(Channel.PLAIN, Channel.PLAIN, Channel.PLAIN);

    /** A usual style for people: contrast in the middle, a little warmer in the lights. */
    public static final ToneCurve CONTRASTY =
            new ToneCurve(new Channel(0.42, 1), new Channel(0.38, 1), new Channel(0.30, 1.03));

    private static final int STEPS = 1 << 14;

    /**
     * The curve of one channel.
     *
     * @param contrast 0 none, below 1
     * @param gamma 1 leaves the signal, more darkens; 0.5..2
     */
    public record Channel(double contrast, double gamma) {
        /** Changes nothing. */
        public static final Channel PLAIN = new Channel(0, 1);

        public Channel {
            if (!(contrast >= 0 && contrast < 1)) {
                throw new IllegalArgumentException(
                        "contrast of " + contrast + ": choose 0 or more and below 1");
            }
            if (!(gamma >= 0.5 && gamma <= 2)) {
                throw new IllegalArgumentException("gamma of " + gamma + ": choose 0.5 to 2");
            }
        }

        /** Light 0..1 to signal 0..1. */
        public double signal(double light) {
            double u = Math.pow(Srgb.encode(light), gamma);
            return u - contrast * Math.sin(2 * Math.PI * u) / (2 * Math.PI);
        }
    }

    /** Light 0..1 to signal 0..1; channel 0 is red, 1 green, 2 blue. */
    public double signal(int channel, double light) {
        return switch (channel) {
            case 0 -> red.signal(light);
            case 1 -> green.signal(light);
            case 2 -> blue.signal(light);
            default -> throw new IllegalArgumentException("channel " + channel);
        };
    }

    /** The codes of linear red, green, blue, clipped to 0..1; TYPE_INT_RGB. */
    BufferedImage image(float[] linear, int width, int height) {
        byte[][] tables = {table(0), table(1), table(2)};
        BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        int[] row = new int[width];
        for (int y = 0, i = 0; y < height; y++) {
            for (int x = 0; x < width; x++, i += 3) {
                row[x] =
                        code(tables[0], linear[i]) << 16
                                | code(tables[1], linear[i + 1]) << 8
                                | code(tables[2], linear[i + 2]);
            }
            image.setRGB(0, y, width, 1, row, 0, width);
        }
        return image;
    }

    /** Even in the square root of light. */
    private byte[] table(int channel) {
        byte[] table = new byte[STEPS];
        for (int i = 0; i < STEPS; i++) {
            double root = i / (double) (STEPS - 1);
            table[i] = (byte) Math.round(255 * signal(channel, root * root));
        }
        return table;
    }

    private static int code(byte[] table, float light) {
        double root = Math.sqrt(Math.min(1, Math.max(0, light)));
        return table[(int) (root * (STEPS - 1) + 0.5)] & 0xff;
    }
}

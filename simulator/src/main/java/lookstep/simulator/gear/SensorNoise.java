package lookstep.simulator.gear;

import java.awt.image.BufferedImage;
import java.util.Random;
import java.util.SplittableRandom;
import lookstep.simulator.model.colour.Srgb;

/**
 * The grain of a picture. Light comes in photons, whose number varies by its square root (Poisson);
 * to that comes what reading the sensor adds. A pixel of area A that is white at ISO S has caught
 * {@code 1500 A 100 / S} electrons (A in square micrometres): so four times the ISO doubles the
 * grain, and so does half the pixel pitch. The 1500 and the 3 electrons of reading are the order of
 * size of present full-frame sensors, from memory. That the channels differ, and that white balance
 * amplifies them unequally, is left out.
 */
final class SensorNoise {
    private static final double WHITE_ELECTRONS_PER_SQUARE_MICROMETRE = 1500;
    private static final double READ_ELECTRONS = 3;
    private static final int TABLE = 1 << 14;

    private final float[] gaussian = new float[TABLE];
    private final SplittableRandom random;

    /** The same seed gives the same grain. */
    SensorNoise(long seed) {
        Random source = new Random(seed);
        for (int i = 0; i < TABLE; i++) {
            gaussian[i] = (float) source.nextGaussian();
        }
        random = new SplittableRandom(seed);
    }

    /**
     * Standard deviation of a linear value.
     *
     * @param linear 0..1, 1 is white
     * @param iso exposure index
     * @param pitchMicrometres of a picture's pixel on the sensor
     */
    static double sigma(double linear, double iso, double pitchMicrometres) {
        double white =
                WHITE_ELECTRONS_PER_SQUARE_MICROMETRE
                        * pitchMicrometres
                        * pitchMicrometres
                        * 100
                        / iso;
        return Math.sqrt(linear * white + READ_ELECTRONS * READ_ELECTRONS) / white;
    }

    /** Adds grain in place; TYPE_INT_RGB, sRGB. */
    void addTo(BufferedImage picture, double iso, double pitchMicrometres) {
        float[] linear = new float[256];
        float[] sigma = new float[256];
        for (int code = 0; code < 256; code++) {
            double v = Srgb.decode(code / 255.0);
            linear[code] = (float) v;
            sigma[code] = (float) sigma(v, iso, pitchMicrometres);
        }
        int[] row = new int[picture.getWidth()];
        for (int y = 0; y < picture.getHeight(); y++) {
            picture.getRGB(0, y, row.length, 1, row, 0, row.length);
            for (int x = 0; x < row.length; x++) {
                long dice = random.nextLong();
                int rgb = 0;
                for (int shift = 16; shift >= 0; shift -= 8) {
                    int code = row[x] >> shift & 0xFF;
                    float grain = sigma[code] * gaussian[(int) (dice & (TABLE - 1))];
                    dice >>>= 14;
                    rgb |= encode(linear[code] + grain, code, grain) << shift;
                }
                row[x] = rgb;
            }
            picture.setRGB(0, y, row.length, 1, row, 0, row.length);
        }
    }

    /** Adds grain in place to linear red, green, blue; white is 1. */
    void addTo(float[] linear, double iso, double pitchMicrometres) {
        double white =
                WHITE_ELECTRONS_PER_SQUARE_MICROMETRE
                        * pitchMicrometres
                        * pitchMicrometres
                        * 100
                        / iso;
        double read = READ_ELECTRONS * READ_ELECTRONS;
        for (int i = 0; i < linear.length; i++) {
            double sigma = Math.sqrt(Math.max(0, linear[i]) * white + read) / white;
            int dice = (int) (random.nextLong() & (TABLE - 1));
            linear[i] = (float) (linear[i] + sigma * gaussian[dice]);
        }
    }

    private static int encode(float value, int code, float grain) {
        // Most grain is finer than a code at low ISO: then there is nothing to work out.
        return Math.abs(grain) < 1e-5f ? code : Srgb.encode8(value);
    }
}

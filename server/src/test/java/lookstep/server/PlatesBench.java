package lookstep.server;

import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import lookstep.simulator.model.colour.DisplayRange;
import lookstep.simulator.model.plates.CodedPicture;
import lookstep.simulator.model.plates.PlateStack;
import lookstep.simulator.model.plates.Registration;
import lookstep.simulator.model.plates.Response;

/**
 * How quick a look is summed from frames of 1600 x 1067 pixels, beside the plain loop over pixels
 * that says the same, in the same run; and how quick a moved camera is told.
 */
final class PlatesBench {
    private static final int WIDTH = 1600;
    private static final int HEIGHT = 1067;
    private static final int LIGHTS = 8;
    private static final int WARM = 12;
    private static final int CALLS = 25;
    private static final double SCALE = 0.02;
    private static final double KELVIN = 4000;

    private PlatesBench() {}

    public static void main(String[] args) {
        run();
    }

    static void run() {
        List<CodedPicture> frames = new ArrayList<>();
        List<PlateStack.Taken> taken = new ArrayList<>();
        for (int k = 0; k <= LIGHTS; k++) {
            double[] levels = new double[LIGHTS];
            if (k > 0) {
                levels[k - 1] = 1;
            }
            frames.add(CodedPicture.of(picture(k)));
            taken.add(new PlateStack.Taken(frames.get(k), levels, SCALE));
        }
        PlateStack stack = PlateStack.of(Response.SRGB, KELVIN, taken);
        System.out.printf("%na look from plates, %d x %d%n", WIDTH, HEIGHT);
        for (int lights : new int[] {2, 4, LIGHTS}) {
            double[] levels = new double[LIGHTS];
            Arrays.fill(levels, 0, lights, 1.0 / lights);
            double house = 1;
            double[] summed = new double[CALLS];
            double[] balanced = new double[CALLS];
            double[] plain = new double[CALLS];
            int differ = 0;
            for (int i = 0; i < WARM + CALLS; i++) {
                long began = System.nanoTime();
                BufferedImage one = stack.picture(house, levels, SCALE, KELVIN);
                long between = System.nanoTime();
                BufferedImage other = stack.picture(house, levels, SCALE, 3200);
                long turned = System.nanoTime();
                BufferedImage slow = i % 4 == 0 || i >= WARM ? plain(frames, levels) : one;
                long ended = System.nanoTime();
                if (i >= WARM) {
                    summed[i - WARM] = (between - began) / 1e6;
                    balanced[i - WARM] = (turned - between) / 1e6;
                    plain[i - WARM] = (ended - turned) / 1e6;
                    differ = Math.max(differ, difference(one, slow));
                }
                if (other.getWidth() != WIDTH) {
                    throw new IllegalStateException("another size");
                }
            }
            System.out.printf(
                    Locale.ROOT,
                    "  %d lights and the house: median %.1f ms (other white balance %.1f ms),"
                            + " plain loop %.1f ms, %.1f times as long; codes differ by %d at most%n",
                    lights,
                    median(summed),
                    median(balanced),
                    median(plain),
                    median(plain) / median(summed),
                    differ);
        }
        double[] told = new double[CALLS];
        for (int i = 0; i < WARM + CALLS; i++) {
            long began = System.nanoTime();
            Registration.Shift shift = Registration.between(frames.get(0), frames.get(i % LIGHTS));
            if (i >= WARM) {
                told[i - WARM] = (System.nanoTime() - began) / 1e6;
            }
            if (!(shift.certainty() >= 0)) {
                throw new IllegalStateException("no certainty");
            }
        }
        System.out.printf(Locale.ROOT, "  a moved camera is told in %.1f ms%n", median(told));
    }

    /** What anybody would write first. */
    private static BufferedImage plain(List<CodedPicture> frames, double[] levels) {
        Response response = Response.SRGB;
        double house = 1 - Arrays.stream(levels).sum();
        BufferedImage image = new BufferedImage(WIDTH, HEIGHT, BufferedImage.TYPE_INT_RGB);
        float[] rgb = new float[3];
        for (int y = 0; y < HEIGHT; y++) {
            for (int x = 0; x < WIDTH; x++) {
                for (int c = 0; c < 3; c++) {
                    double sum = house * response.linear(c, frames.get(0).code(x, y, c));
                    for (int k = 0; k < levels.length; k++) {
                        if (levels[k] != 0) {
                            sum += levels[k] * response.linear(c, frames.get(k + 1).code(x, y, c));
                        }
                    }
                    rgb[c] = (float) sum;
                }
                DisplayRange.fit(rgb, 0);
                image.setRGB(
                        x,
                        y,
                        response.code(0, rgb[0]) << 16
                                | response.code(1, rgb[1]) << 8
                                | response.code(2, rgb[2]));
            }
        }
        return image;
    }

    private static int difference(BufferedImage a, BufferedImage b) {
        int most = 0;
        for (int y = 0; y < HEIGHT; y += 7) {
            for (int x = 0; x < WIDTH; x += 3) {
                for (int shift = 0; shift <= 16; shift += 8) {
                    int one = a.getRGB(x, y) >> shift & 255;
                    int other = b.getRGB(x, y) >> shift & 255;
                    most = Math.max(most, Math.abs(one - other));
                }
            }
        }
        return most;
    }

    /** Soft shapes with grain: what lies in the cache must not be kinder than a photograph. */
    private static BufferedImage picture(int seed) {
        Random dice = new Random(seed);
        BufferedImage image = new BufferedImage(WIDTH, HEIGHT, BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < HEIGHT; y++) {
            for (int x = 0; x < WIDTH; x++) {
                double v =
                        70
                                + 60 * Math.sin(x * 0.011 + seed) * Math.cos(y * 0.017 - seed)
                                + 12 * dice.nextDouble();
                int z = Math.max(0, (int) v);
                image.setRGB(x, y, z << 16 | (z * 7 / 8) << 8 | z * 3 / 4);
            }
        }
        return image;
    }

    private static double median(double[] of) {
        double[] sorted = of.clone();
        Arrays.sort(sorted);
        return sorted[sorted.length / 2];
    }
}

package lookstep.server.framecheck;

import java.awt.image.BufferedImage;
import java.util.Arrays;
import java.util.OptionalDouble;

/**
 * How wide the edges of a picture are, as the diameter of the disc that would blur a perfect edge
 * so. At an edge the gradient is compared with that after blurring once more: the ratio tells the
 * width, whatever the contrast (the principle of Zhuo and Sim, Pattern Recognition 44(9), 2011,
 * from memory). Which ratio a disc has is worked out here: out of focus an edge rises as the area
 * of a disc that a line sweeps over, so its slope is a half ellipse. Noise is estimated from the
 * picture itself (the mask of Immerkaer, Computer Vision and Image Understanding 64(2), 1996, but
 * by the median), and its share of both gradients is taken off.
 */
final class EdgeBlur {
    /** Standard deviations of the two blurs, pixels. */
    private static final double FINE = 1;

    private static final double COARSE = 2.5;

    /** A central difference is two pixels wide: a variance of 4 / 12. */
    private static final double DIFFERENCE = 1.0 / 3;

    private static final double FINE2 = FINE * FINE + DIFFERENCE;
    private static final double COARSE2 = COARSE * COARSE + DIFFERENCE;

    /** Edges weaker than this share of the strongest are left out. */
    private static final double LEAST_EDGE = 0.3;

    /** The strongest is taken where one in so many edges is stronger. */
    private static final double STRONGEST = 0.95;

    /** An edge stands out of the noise by so many standard deviations. */
    private static final double OVER_NOISE = 4;

    /** Fewer edges than this say nothing. */
    private static final int LEAST_EDGES = 25;

    /** Wider edges than this look alike, pixels of disc. */
    static final double MOST_DISC = 24;

    private static final int STEPS = 64;

    private EdgeBlur() {}

    /**
     * Diameter of the blur disc in pixels, 0 to {@link #MOST_DISC}.
     *
     * @return empty if there are too few edges that stand out of the noise
     */
    static OptionalDouble discPixels(BufferedImage picture) {
        int w = picture.getWidth();
        int h = picture.getHeight();
        if (w < 24 || h < 24) {
            return OptionalDouble.empty();
        }
        float[] light = codes(picture);
        double noise = noise(light, w, h);
        float[] fine = blurred(light, w, h, FINE);
        float[] coarse = blurred(light, w, h, COARSE);
        double[] strong = new double[w * h];
        int[] at = new int[w * h];
        int n = 0;
        int rim = (int) Math.ceil(2 * COARSE);
        for (int y = rim; y < h - rim; y++) {
            for (int x = rim; x < w - rim; x++) {
                int p = y * w + x;
                double g2 = gradient2(coarse, p, w);
                if (ridge(coarse, p, w, g2)) {
                    strong[n] = g2;
                    at[n++] = p;
                }
            }
        }
        if (n < LEAST_EDGES) {
            return OptionalDouble.empty();
        }
        double[] sorted = Arrays.copyOf(strong, n);
        Arrays.sort(sorted);
        double noiseFine = noiseOfGradient2(noise, FINE);
        double noiseCoarse = noiseOfGradient2(noise, COARSE);
        double least =
                Math.max(
                        LEAST_EDGE * LEAST_EDGE * sorted[(int) (STRONGEST * (n - 1))],
                        OVER_NOISE * OVER_NOISE * noiseCoarse);
        double sumFine = 0;
        double sumCoarse = 0;
        int edges = 0;
        for (int i = 0; i < n; i++) {
            if (strong[i] >= least) {
                sumFine += gradient2(fine, at[i], w) - noiseFine;
                sumCoarse += strong[i] - noiseCoarse;
                edges++;
            }
        }
        if (edges < LEAST_EDGES) {
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(disc(sumFine / sumCoarse));
    }

    /** The disc whose edges have this ratio of squared gradients; the ratio falls as it grows. */
    private static double disc(double ratio2) {
        double small = 0;
        double large = MOST_DISC;
        while (large - small > 0.01) {
            double middle = (small + large) / 2;
            if (ratio2(middle) > ratio2) {
                small = middle;
            } else {
                large = middle;
            }
        }
        return large >= MOST_DISC ? MOST_DISC : small;
    }

    private static double ratio2(double disc) {
        double ratio = steepest(disc, FINE2) / steepest(disc, COARSE2);
        return ratio * ratio;
    }

    /** Slope in the middle of an edge that a disc and then a Gaussian blurred. */
    private static double steepest(double disc, double variance) {
        double sum = 0;
        double weights = 0;
        for (int i = 0; i < STEPS; i++) {
            double t = -1 + (i + 0.5) * 2 / STEPS;
            double slope = Math.sqrt(1 - t * t);
            double away = t * disc / 2;
            sum += slope * Math.exp(-away * away / (2 * variance));
            weights += slope;
        }
        return sum / weights / Math.sqrt(variance);
    }

    /** Mean square of a gradient that noise of this standard deviation makes after a blur. */
    private static double noiseOfGradient2(double noise, double blur) {
        double s2 = blur * blur + DIFFERENCE / 2;
        return noise * noise / (4 * Math.PI * s2 * s2);
    }

    private static float[] codes(BufferedImage picture) {
        int w = picture.getWidth();
        int h = picture.getHeight();
        float[] out = new float[w * h];
        int[] row = new int[w];
        for (int y = 0; y < h; y++) {
            picture.getRGB(0, y, w, 1, row, 0, w);
            for (int x = 0; x < w; x++) {
                int c = row[x];
                out[y * w + x] =
                        0.2126f * (c >> 16 & 0xff)
                                + 0.7152f * (c >> 8 & 0xff)
                                + 0.0722f * (c & 0xff);
            }
        }
        return out;
    }

    private static double noise(float[] v, int w, int h) {
        float[] away = new float[(w - 2) * (h - 2)];
        int n = 0;
        for (int y = 1; y < h - 1; y++) {
            for (int x = 1; x < w - 1; x++) {
                int p = y * w + x;
                away[n++] =
                        Math.abs(
                                v[p - w - 1]
                                        + v[p - w + 1]
                                        + v[p + w - 1]
                                        + v[p + w + 1]
                                        - 2 * (v[p - w] + v[p + w] + v[p - 1] + v[p + 1])
                                        + 4 * v[p]);
            }
        }
        Arrays.sort(away);
        // The mask's coefficients have a sum of squares of 36; a median is 0.6745 deviations.
        return away[n / 2] / 0.6745 / 6;
    }

    private static double gradient2(float[] v, int p, int w) {
        double dx = (v[p + 1] - v[p - 1]) / 2;
        double dy = (v[p + w] - v[p - w]) / 2;
        return dx * dx + dy * dy;
    }

    /** True if the gradient is not less than that before and behind, across the edge. */
    private static boolean ridge(float[] v, int p, int w, double g2) {
        double dx = v[p + 1] - v[p - 1];
        double dy = v[p + w] - v[p - w];
        int step;
        if (Math.abs(dx) > 2.4142 * Math.abs(dy)) {
            step = 1;
        } else if (Math.abs(dy) > 2.4142 * Math.abs(dx)) {
            step = w;
        } else {
            step = dx * dy > 0 ? w + 1 : w - 1;
        }
        return g2 > 0 && g2 >= gradient2(v, p + step, w) && g2 >= gradient2(v, p - step, w);
    }

    private static float[] blurred(float[] v, int w, int h, double sigma) {
        int reach = (int) Math.ceil(3 * sigma);
        float[] kernel = new float[2 * reach + 1];
        float sum = 0;
        for (int i = -reach; i <= reach; i++) {
            kernel[i + reach] = (float) Math.exp(-i * i / (2 * sigma * sigma));
            sum += kernel[i + reach];
        }
        for (int i = 0; i < kernel.length; i++) {
            kernel[i] /= sum;
        }
        float[] across = new float[v.length];
        for (int y = 0; y < h; y++) {
            for (int x = 0; x < w; x++) {
                float s = 0;
                for (int i = -reach; i <= reach; i++) {
                    s += kernel[i + reach] * v[y * w + Math.min(w - 1, Math.max(0, x + i))];
                }
                across[y * w + x] = s;
            }
        }
        float[] out = new float[v.length];
        for (int y = 0; y < h; y++) {
            for (int i = -reach; i <= reach; i++) {
                int line = Math.min(h - 1, Math.max(0, y + i)) * w;
                float k = kernel[i + reach];
                for (int x = 0; x < w; x++) {
                    out[y * w + x] += k * across[line + x];
                }
            }
        }
        return out;
    }
}

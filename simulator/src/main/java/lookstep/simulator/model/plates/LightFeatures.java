package lookstep.simulator.model.plates;

import java.util.Arrays;
import lookstep.simulator.model.colour.Srgb;

/**
 * What tells one surface from another: how much of each light it throws back, as logarithms, and
 * its colour in all lights together. A person stands nearer to some lights than what is behind, so
 * even black on black differs in the shares. Turned to their principal axes and cut to the
 * foremost, each in units of its own noise.
 */
final class LightFeatures {
    private static final int AXES = 6;

    /** Light, as a share of white, that is lost in noise. */
    private static final double NOISE = 0.0015;

    final int width;
    final int height;
    final int axes;

    /** For each pixel its axes one after another. */
    final float[] values;

    private LightFeatures(int width, int height, int axes, float[] values) {
        this.width = width;
        this.height = height;
        this.axes = axes;
        this.values = values;
    }

    static LightFeatures of(LinearPlates plates) {
        int w = plates.width();
        int h = plates.height();
        int planes = plates.emitters() + 1;
        int wide = planes + 2;
        double[][] raw = new double[wide][w * h];
        for (int p = 0; p < w * h; p++) {
            double r = 0;
            double g = 0;
            double b = 0;
            for (int s = 0; s < planes; s++) {
                float[] plane = plates.plane(s);
                double light = Srgb.luminance(plane[p * 3], plane[p * 3 + 1], plane[p * 3 + 2]);
                raw[s][p] = log2(Math.max(0, light) + NOISE);
                r += plane[p * 3];
                g += plane[p * 3 + 1];
                b += plane[p * 3 + 2];
            }
            raw[planes][p] = log2(Math.max(0, r) + 3 * NOISE) - log2(Math.max(0, g) + 3 * NOISE);
            raw[planes + 1][p] =
                    log2(Math.max(0, b) + 3 * NOISE) - log2(Math.max(0, g) + 3 * NOISE);
        }
        return turned(raw, w, h);
    }

    private static LightFeatures turned(double[][] raw, int w, int h) {
        int wide = raw.length;
        double[][] spread = new double[wide][wide];
        for (double[] feature : raw) {
            double mean = 0;
            for (double v : feature) {
                mean += v / feature.length;
            }
            for (int p = 0; p < feature.length; p++) {
                feature[p] -= mean;
            }
        }
        for (int i = 0; i < wide; i++) {
            for (int j = 0; j <= i; j++) {
                double sum = 0;
                for (int p = 0; p < w * h; p++) {
                    sum += raw[i][p] * raw[j][p];
                }
                spread[i][j] = sum / (w * h);
                spread[j][i] = spread[i][j];
            }
        }
        double[][] axis = PrincipalAxes.of(spread, Math.min(AXES, wide));
        float[] values = new float[w * h * axis.length];
        for (int k = 0; k < axis.length; k++) {
            double[] along = new double[w * h];
            for (int p = 0; p < along.length; p++) {
                for (int i = 0; i < wide; i++) {
                    along[p] += axis[k][i] * raw[i][p];
                }
            }
            double unit = 2 * noise(along, w) + 0.15;
            for (int p = 0; p < along.length; p++) {
                values[p * axis.length + k] = (float) (along[p] / unit);
            }
        }
        return new LightFeatures(w, h, axis.length, values);
    }

    /** Median of what neighbours differ by. */
    private static double noise(double[] of, int w) {
        double[] steps = new double[of.length - w];
        for (int p = 0; p < steps.length; p++) {
            steps[p] = Math.abs(of[p + w] - of[p]);
        }
        Arrays.sort(steps);
        return steps[steps.length / 2];
    }

    /** Distance of two pixels, squared. */
    double square(int p, int q) {
        double sum = 0;
        for (int k = 0; k < axes; k++) {
            double d = values[p * axes + k] - (double) values[q * axes + k];
            sum += d * d;
        }
        return sum;
    }

    private static double log2(double v) {
        return Math.log(v) / Math.log(2);
    }
}

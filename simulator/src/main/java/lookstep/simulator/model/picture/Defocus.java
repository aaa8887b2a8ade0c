package lookstep.simulator.model.picture;

import java.util.Arrays;

/**
 * The picture as a lens draws it: every sample becomes its disc. Samples are sorted into layers by
 * the size of their discs; a layer covers those behind it by as much of it as there is, so that a
 * blurred background does not run into a sharp edge, while a blurred foreground does run over what
 * is behind. Light is neither made nor lost, save at the rim of the picture and behind people,
 * where what is hidden is taken to be like what is seen beside it.
 */
final class Defocus {
    /** Within one layer nothing covers anything: discs differ by this many pixels at most. */
    private static final double LAYER_PIXELS = 0.75;

    private static final int MOST_LAYERS = 16;
    private static final int CHANNELS = 4;

    /** Less is what is left of sums, and no light. */
    private static final double LEAST_COVERED = 1e-4;

    private final int width;
    private final int height;
    private final int[] extra;
    private final float[] depth;
    private final Focus focus;
    private final double most;

    Defocus(int width, int height, int[] extra, float[] depth, Focus focus) {
        this.width = width;
        this.height = height;
        this.extra = extra;
        this.depth = depth;
        this.focus = focus;
        this.most = Math.max(width, height) / 10.0;
    }

    /**
     * The picture as the lens makes it.
     *
     * @param rgb three for each sample
     * @return three for each pixel
     */
    float[] of(float[] rgb) {
        float[] disc = new float[depth.length];
        double largest = 0;
        double least = 0;
        for (int i = 0; i < disc.length; i++) {
            double d = Math.max(-most, Math.min(most, focus.disc(depth[i])));
            disc[i] = (float) d;
            largest = Math.max(largest, d);
            least = Math.min(least, d);
        }
        double thick = Math.max(LAYER_PIXELS, (largest - least) / MOST_LAYERS);
        byte[] layer = new byte[disc.length];
        int back = (int) Math.rint(largest / thick);
        int front = (int) Math.rint(least / thick);
        boolean[] there = new boolean[back - front + 1];
        for (int i = 0; i < disc.length; i++) {
            layer[i] = (byte) ((int) Math.rint(disc[i] / thick) - front);
            there[layer[i]] = true;
        }
        float[] sum = new float[width * height * CHANNELS];
        float[] behind = new float[sum.length];
        Laying laying = new Laying(width, height);
        boolean first = true;
        for (int l = there.length - 1; l >= 0; l--) {
            if (!there[l]) {
                continue;
            }
            lay(laying, rgb, disc, layer, l);
            boolean sharp = l + front == 0;
            if (!first && !sharp) {
                System.arraycopy(sum, 0, behind, 0, sum.length);
                HoleFill.fill(behind, width, height);
            }
            laying.over(sum, first || sharp ? sum : behind);
            first = false;
        }
        float[] out = new float[width * height * 3];
        for (int p = 0; p < width * height; p++) {
            float covered = sum[p * CHANNELS + 3];
            for (int c = 0; c < 3 && covered > 0; c++) {
                out[p * 3 + c] = sum[p * CHANNELS + c] / covered;
            }
        }
        return out;
    }

    private void lay(Laying laying, float[] rgb, float[] disc, byte[] layer, int wanted) {
        for (int p = 0; p < extra.length; p++) {
            if (extra[p] == 0) {
                if (layer[p] == wanted) {
                    laying.add(p, rgb, p, disc[p], 1);
                }
                continue;
            }
            for (int k = 0; k < Plates.EDGE_SAMPLES; k++) {
                int s = k == 0 ? p : extra[p] + k - 1;
                if (layer[s] == wanted) {
                    laying.add(p, rgb, s, disc[s], 1.0 / Plates.EDGE_SAMPLES);
                }
            }
        }
    }

    /** One layer being laid down: steps along each row, summed up at the end. */
    private static final class Laying {
        private final int width;
        private final int height;
        private final int stride;
        private final double[] steps;
        private int top = Integer.MAX_VALUE;
        private int bottom = -1;

        Laying(int width, int height) {
            this.width = width;
            this.height = height;
            this.stride = (width + 1) * CHANNELS;
            this.steps = new double[stride * height];
        }

        void add(int pixel, float[] rgb, int sample, double disc, double weight) {
            Disc d = Disc.of(Math.abs(disc));
            int x = pixel % width;
            int y = Math.floorDiv(pixel, width);
            double r = rgb[sample * 3] * weight;
            double g = rgb[sample * 3 + 1] * weight;
            double b = rgb[sample * 3 + 2] * weight;
            top = Math.min(top, Math.max(0, y - d.reach));
            bottom = Math.max(bottom, Math.min(height - 1, y + d.reach));
            for (int i = 0; i < d.row.length; i++) {
                int line = y + d.row[i];
                if (line < 0 || line >= height) {
                    continue;
                }
                for (int k = d.first[i]; k < d.first[i + 1]; k++) {
                    int at = x + d.at[k];
                    at = at < 0 ? 0 : at > width ? width : at;
                    int j = line * stride + at * CHANNELS;
                    double step = d.step[k];
                    steps[j] += step * r;
                    steps[j + 1] += step * g;
                    steps[j + 2] += step * b;
                    steps[j + 3] += step * weight;
                }
            }
        }

        /**
         * Lays the layer over what is behind, and is empty again.
         *
         * @param back what is there so far, with what is hidden filled in
         */
        void over(float[] sum, float[] back) {
            for (int y = top; y <= bottom; y++) {
                double r = 0;
                double g = 0;
                double b = 0;
                double a = 0;
                int j = y * stride;
                int o = y * width * CHANNELS;
                for (int x = 0; x < width; x++, j += CHANNELS, o += CHANNELS) {
                    r += steps[j];
                    g += steps[j + 1];
                    b += steps[j + 2];
                    a += steps[j + 3];
                    if (a < LEAST_COVERED) {
                        continue;
                    }
                    // Discs of several sizes may overlap: no more than all of a pixel is covered.
                    double share = a > 1 ? 1 / a : 1;
                    double behind = a > 1 ? 0 : 1 - a;
                    sum[o] = (float) (r * share + behind * back[o]);
                    sum[o + 1] = (float) (g * share + behind * back[o + 1]);
                    sum[o + 2] = (float) (b * share + behind * back[o + 2]);
                    sum[o + 3] = (float) (a * share + behind * back[o + 3]);
                }
            }
            if (bottom >= 0) {
                Arrays.fill(steps, top * stride, (bottom + 1) * stride, 0);
            }
            top = Integer.MAX_VALUE;
            bottom = -1;
        }
    }
}

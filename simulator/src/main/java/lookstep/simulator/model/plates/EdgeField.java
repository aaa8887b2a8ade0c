package lookstep.simulator.model.plates;

/**
 * Which way edges run in a small version of a picture, whatever the light: a complex number for
 * each pixel, its angle twice that of the gradient (an edge that is bright on the other side is the
 * same edge), its length 1 at a clear edge and near 0 where there is only noise. Slow changes of
 * brightness are taken out first, for those are the lamps', not the set's.
 */
final class EdgeField {
    static final int WIDTH = 256;

    /** A gradient, in codes for each pixel, that counts half. */
    private static final double HALF_CLEAR = 1.2;

    private static final int BLUR = 6;

    final int width;
    final int height;
    final double[] re;
    final double[] im;

    /** Sum of squared lengths. */
    final double energy;

    private EdgeField(int width, int height, double[] re, double[] im) {
        this.width = width;
        this.height = height;
        this.re = re;
        this.im = im;
        double sum = 0;
        for (int i = 0; i < re.length; i++) {
            sum += re[i] * re[i] + im[i] * im[i];
        }
        this.energy = sum;
    }

    static EdgeField of(CodedPicture picture) {
        int w = picture.width() >= picture.height() ? WIDTH : narrow(picture);
        w = Math.min(w, picture.width());
        int h = Math.max(1, (int) Math.round(picture.height() * (double) w / picture.width()));
        double[] grey = reduced(picture, w, h);
        double[] slow = blur(blur(grey, w, h), w, h);
        for (int i = 0; i < grey.length; i++) {
            grey[i] -= slow[i];
        }
        double[] re = new double[w * h];
        double[] im = new double[w * h];
        double meanRe = 0;
        double meanIm = 0;
        for (int y = 1; y < h - 1; y++) {
            for (int x = 1; x < w - 1; x++) {
                int p = y * w + x;
                double gx = (grey[p + 1] - grey[p - 1]) / 2;
                double gy = (grey[p + w] - grey[p - w]) / 2;
                double square = gx * gx + gy * gy;
                double clear = 1 / (square + HALF_CLEAR * HALF_CLEAR);
                re[p] = (gx * gx - gy * gy) * clear;
                im[p] = 2 * gx * gy * clear;
                meanRe += re[p];
                meanIm += im[p];
            }
        }
        int n = (w - 2) * (h - 2);
        for (int y = 1; y < h - 1; y++) {
            for (int x = 1; x < w - 1; x++) {
                re[y * w + x] -= meanRe / n;
                im[y * w + x] -= meanIm / n;
            }
        }
        return new EdgeField(w, h, re, im);
    }

    /** Without what a mask leaves out; of the same proportions, rows from the top. */
    EdgeField within(boolean[] allowed, int maskWidth, int maskHeight) {
        double[] keptRe = re.clone();
        double[] keptIm = im.clone();
        for (int y = 0; y < height; y++) {
            for (int x = 0; x < width; x++) {
                if (!allowed[y * maskHeight / height * maskWidth + x * maskWidth / width]) {
                    keptRe[y * width + x] = 0;
                    keptIm[y * width + x] = 0;
                }
            }
        }
        return new EdgeField(width, height, keptRe, keptIm);
    }

    private static int narrow(CodedPicture picture) {
        return Math.max(8, (int) Math.round(WIDTH * (double) picture.width() / picture.height()));
    }

    private static double[] reduced(CodedPicture picture, int w, int h) {
        double[] sum = new double[w * h];
        int[] count = new int[w * h];
        for (int y = 0; y < picture.height(); y++) {
            int row = (int) ((long) y * h / picture.height()) * w;
            for (int x = 0; x < picture.width(); x++) {
                int p = row + (int) ((long) x * w / picture.width());
                sum[p] +=
                        (picture.code(x, y, 0)
                                        + 2.0 * picture.code(x, y, 1)
                                        + picture.code(x, y, 2))
                                / 4;
                count[p]++;
            }
        }
        for (int p = 0; p < sum.length; p++) {
            sum[p] /= Math.max(1, count[p]);
        }
        return sum;
    }

    /** Mean of a square around each pixel, cut off at the border. */
    private static double[] blur(double[] of, int w, int h) {
        double[] sums = new double[(w + 1) * (h + 1)];
        for (int y = 0; y < h; y++) {
            double row = 0;
            for (int x = 0; x < w; x++) {
                row += of[y * w + x];
                sums[(y + 1) * (w + 1) + x + 1] = sums[y * (w + 1) + x + 1] + row;
            }
        }
        double[] out = new double[w * h];
        for (int y = 0; y < h; y++) {
            int top = Math.max(0, y - BLUR);
            int end = Math.min(h, y + BLUR + 1);
            for (int x = 0; x < w; x++) {
                int left = Math.max(0, x - BLUR);
                int right = Math.min(w, x + BLUR + 1);
                double sum =
                        sums[end * (w + 1) + right]
                                - sums[top * (w + 1) + right]
                                - sums[end * (w + 1) + left]
                                + sums[top * (w + 1) + left];
                out[y * w + x] = sum / ((end - top) * (right - left));
            }
        }
        return out;
    }
}

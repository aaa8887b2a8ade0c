package lookstep.server.framecheck;

import java.util.Arrays;
import java.util.List;

/**
 * Which parts of a picture may be skin, by their colour alone: as skin is under white light, or as
 * the predicted faces are under this look, or clipped. Wood and brick have such colours too.
 */
final class SkinMap {
    /**
     * Shares of linear red and green in skin, the middle of light to deep ones (the plan's words
     * for skin: 0.47 to 0.55 and 0.27 to 0.30).
     */
    private static final double[] WHITE_LIT = {0.51, 0.285};

    private static final double[] WHITE_LIT_REACH = {0.10, 0.04};

    /** Around the colour of a predicted face: lights and camera are never quite as planned. */
    private static final double PREDICTED_REACH = 0.05;

    /** So much darker than the brightest of such colours is shadow, not a face. */
    private static final double LEAST_OF_BRIGHTEST = 0.04;

    private static final double BRIGHTEST_SHARE = 0.995;
    private static final double LEAST_LUMINANCE = 0.002;

    private final int width;
    private final int height;
    private final int[] sums;

    private SkinMap(int width, int height, int[] sums) {
        this.width = width;
        this.height = height;
        this.sums = sums;
    }

    /**
     * @param predictedFaces linear red, green, blue of the faces as predicted; may be empty
     */
    static SkinMap of(LinearFields picture, List<double[]> predictedFaces) {
        int n = picture.width() * picture.height();
        boolean[] maybe = new boolean[n];
        double[] bright = new double[n];
        int found = 0;
        for (int at = 0; at < n; at++) {
            maybe[at] = skinColoured(picture, at, predictedFaces);
            if (maybe[at]) {
                bright[found++] = picture.luminance(at);
            }
        }
        double least = LEAST_LUMINANCE;
        if (found > 0) {
            double[] sorted = Arrays.copyOf(bright, found);
            Arrays.sort(sorted);
            least =
                    Math.max(
                            least,
                            LEAST_OF_BRIGHTEST * sorted[(int) (BRIGHTEST_SHARE * (found - 1))]);
        }
        int w = picture.width() + 1;
        int[] sums = new int[w * (picture.height() + 1)];
        for (int y = 0; y < picture.height(); y++) {
            int line = 0;
            for (int x = 0; x < picture.width(); x++) {
                int at = y * picture.width() + x;
                line += maybe[at] && picture.luminance(at) >= least ? 1 : 0;
                sums[(y + 1) * w + x + 1] = sums[y * w + x + 1] + line;
            }
        }
        return new SkinMap(picture.width(), picture.height(), sums);
    }

    private static boolean skinColoured(LinearFields picture, int at, List<double[]> predicted) {
        if (picture.clipped(at) > 0.5) {
            return true;
        }
        double r = picture.channel(at, 0);
        double g = picture.channel(at, 1);
        double sum = r + g + picture.channel(at, 2);
        if (!(sum > 0)) {
            return false;
        }
        double dr = (r / sum - WHITE_LIT[0]) / WHITE_LIT_REACH[0];
        double dg = (g / sum - WHITE_LIT[1]) / WHITE_LIT_REACH[1];
        if (dr * dr + dg * dg < 1) {
            return true;
        }
        for (double[] face : predicted) {
            double faceSum = face[0] + face[1] + face[2];
            if (Math.hypot(r / sum - face[0] / faceSum, g / sum - face[1] / faceSum)
                    < PREDICTED_REACH) {
                return true;
            }
        }
        return false;
    }

    /** Share of a part that may be skin; what lies outside the picture is not. */
    double share(Box box) {
        int left = (int) Math.round(box.x() * width);
        int top = (int) Math.round(box.y() * height);
        int right = Math.max(left + 1, (int) Math.round((box.x() + box.width()) * width));
        int bottom = Math.max(top + 1, (int) Math.round((box.y() + box.height()) * height));
        return (double) count(left, top, right, bottom) / ((right - left) * (bottom - top));
    }

    private int count(int left, int top, int right, int bottom) {
        int w = width + 1;
        int l = within(left, width);
        int r = within(right, width);
        int t = within(top, height) * w;
        int b = within(bottom, height) * w;
        return sums[b + r] - sums[b + l] - sums[t + r] + sums[t + l];
    }

    private static int within(int v, int most) {
        return Math.min(most, Math.max(0, v));
    }
}

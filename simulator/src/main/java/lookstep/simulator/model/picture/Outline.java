package lookstep.simulator.model.picture;

import java.util.Arrays;
import java.util.function.IntPredicate;
import java.util.function.IntToDoubleFunction;

/** The edge of a person in a picture, and how it stands out. Pixels are counted rows first. */
public final class Outline {
    /** Ten stops under white: below this the camera's own noise hides all difference. */
    private static final double BLACK = 1.0 / 1024;

    private Outline() {}

    /** True for the pixels that show a person and have something else beside them. */
    public static boolean[] mask(int width, int height, IntPredicate shows) {
        boolean[] mask = new boolean[width * height];
        for (int y = 1; y < height - 1; y++) {
            for (int x = 1; x < width - 1; x++) {
                int p = y * width + x;
                mask[p] =
                        shows.test(p)
                                && !(shows.test(p - 1)
                                        && shows.test(p + 1)
                                        && shows.test(p - width)
                                        && shows.test(p + width));
            }
        }
        return mask;
    }

    /**
     * Separation: how many stops the edge of a person differs from what is behind, median over the
     * outline. For each edge pixel the brightest luminance up to four pixels inside is compared
     * with that two to four pixels outside; what is more than ten stops under white counts as ten.
     *
     * @param shows whether a pixel shows the person
     * @param luminance of a pixel, linear, white is 1
     * @return stops, positive where the edge is brighter; NaN if no edge is in the picture
     */
    public static double separationStops(
            int width, int height, IntPredicate shows, IntToDoubleFunction luminance) {
        return median(stops(width, height, shows, luminance));
    }

    /**
     * The same whichever way: an edge that is brighter on one side and darker on the other stands
     * off on both.
     *
     * @return stops, 0 or more; NaN if no edge is in the picture
     */
    public static double sizeStops(
            int width, int height, IntPredicate shows, IntToDoubleFunction luminance) {
        return median(
                Arrays.stream(stops(width, height, shows, luminance)).map(Math::abs).toArray());
    }

    private static double median(double[] of) {
        double[] sorted = of.clone();
        Arrays.sort(sorted);
        return sorted.length == 0 ? Double.NaN : sorted[sorted.length / 2];
    }

    private static double[] stops(
            int width, int height, IntPredicate shows, IntToDoubleFunction luminance) {
        boolean[] edge = mask(width, height, shows);
        double[] found = new double[edge.length];
        int n = 0;
        int[] steps = {-1, 1, -width, width};
        for (int y = 5; y < height - 5; y++) {
            for (int x = 5; x < width - 5; x++) {
                int p = y * width + x;
                if (!edge[p]) {
                    continue;
                }
                for (int step : steps) {
                    if (!shows.test(p + step) && !shows.test(p + 2 * step)) {
                        double inside = 0;
                        double outside = 0;
                        for (int k = 0; k <= 3; k++) {
                            if (shows.test(p - k * step)) {
                                inside = Math.max(inside, luminance.applyAsDouble(p - k * step));
                            }
                        }
                        for (int k = 2; k <= 4; k++) {
                            outside += luminance.applyAsDouble(p + k * step) / 3;
                        }
                        found[n++] =
                                Math.log(Math.max(inside, BLACK) / Math.max(outside, BLACK))
                                        / Math.log(2);
                        break;
                    }
                }
            }
        }
        return Arrays.copyOf(found, n);
    }
}

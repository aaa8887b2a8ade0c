package lookstep.server.suggest;

import java.util.Arrays;
import java.util.List;
import lookstep.server.plan.Surface;
import lookstep.simulator.model.colour.Srgb;

/**
 * How light each face comes out: the median of its skin, which a bright edge from behind does not
 * lift, against what that skin would be if it were lit right.
 */
final class Faces {
    private final SamplePoints points;
    private final List<Surface> skin;
    private final int[] from;
    private final double[] aim;

    /**
     * @param skin of each person, linear red, green, blue
     */
    Faces(SamplePoints points, List<Surface> skin) {
        this.points = points;
        this.skin = skin;
        from = new int[points.people() + 1];
        for (int s = 0; s < points.skins(); s++) {
            from[points.skinOf(s) + 1]++;
        }
        for (int p = 0; p < points.people(); p++) {
            from[p + 1] += from[p];
        }
        aim = new double[points.people()];
        for (int p = 0; p < aim.length; p++) {
            aim[p] = luminous(skin.get(p)) * Passes.FACE_SHARE;
        }
    }

    static double luminous(Surface s) {
        return Srgb.luminance(s.red(), s.green(), s.blue());
    }

    /** Luminance of every sample of skin. */
    double[] luminances(float[] rgb) {
        double[] out = new double[points.skins()];
        for (int s = 0; s < out.length; s++) {
            out[s] = Passes.luminance(rgb, points.skinAt() + s);
        }
        return out;
    }

    /** Whether any skin is to be seen. */
    boolean any() {
        return points.skins() > 0;
    }

    /**
     * Mean of all faces, in stops over what they should be.
     *
     * @param house luminance of the skin by the house
     * @param lux by each lux of the lights
     */
    double meanStops(double[] house, double[] lux, double times) {
        double[] sorted = new double[points.skins()];
        for (int s = 0; s < sorted.length; s++) {
            sorted[s] = house[s] + times * lux[s];
        }
        double sum = 0;
        int faces = 0;
        for (int p = 0; p < aim.length; p++) {
            if (from[p + 1] > from[p]) {
                sum += median(sorted, p);
                faces++;
            }
        }
        return sum / faces;
    }

    /** Each face that is seen, in stops over what it should be. */
    double[] stops(float[] rgb) {
        double[] sorted = luminances(rgb);
        double[] all = new double[aim.length];
        int faces = 0;
        for (int p = 0; p < aim.length; p++) {
            if (from[p + 1] > from[p]) {
                all[faces++] = median(sorted, p);
            }
        }
        return Arrays.copyOf(all, faces);
    }

    /**
     * How strong a colour lies on the faces, mean of all: as a share of the limit that it comes
     * nearest to or is farthest over; NaN if no skin is seen.
     *
     * @param blueRed limit in stops between blue and red
     * @param green limit in stops of green against the two
     */
    double colour(float[] rgb, double blueRed, double green) {
        double sum = 0;
        int faces = 0;
        for (int p = 0; p < aim.length; p++) {
            if (from[p + 1] > from[p]) {
                double r = channel(rgb, p, 0, skin.get(p).red());
                double g = channel(rgb, p, 1, skin.get(p).green());
                double b = channel(rgb, p, 2, skin.get(p).blue());
                sum += Math.max(Math.abs(b - r) / blueRed, Math.abs(g - (r + b) / 2) / green);
                faces++;
            }
        }
        return sum / faces;
    }

    private double channel(float[] rgb, int person, int channel, double skinReflects) {
        double[] seen = new double[from[person + 1] - from[person]];
        for (int s = 0; s < seen.length; s++) {
            seen[s] = rgb[(points.skinAt() + from[person] + s) * 3 + channel];
        }
        Arrays.sort(seen);
        return stops(seen[seen.length / 2], skinReflects);
    }

    /**
     * @param of every sample of skin; those of the person are sorted
     */
    private double median(double[] of, int person) {
        Arrays.sort(of, from[person], from[person + 1]);
        return stops(of[(from[person] + from[person + 1]) / 2], aim[person]);
    }

    private static double stops(double value, double against) {
        return Math.log(Math.max(value, Passes.BLACK) / against) / Math.log(2);
    }
}

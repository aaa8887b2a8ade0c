package lookstep.server.suggest;

import lookstep.server.suggest.SamplePoints.Mean;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.Ciede2000;
import lookstep.simulator.model.colour.Lab;
import lookstep.simulator.model.colour.OkLab;
import lookstep.simulator.model.colour.Srgb;
import lookstep.simulator.model.colour.Xyz;

/**
 * How different two looks are: the root mean square distance of their thumbnails in OKLab, its a
 * and b doubled, people weighted more than what is behind, and how differently the light falls on
 * each person: left against right, above against below, edge against face, in stops. Every look
 * becomes one point in a space of many dimensions, and the difference is the straight distance
 * there. So it is a metric, which the search for looks that are mutually far apart builds upon.
 *
 * <p>0.02 in OKLab is about what is just seen (figure from memory); black to white is 1.
 */
final class Difference {
    /** A sample that shows only people weighs so many times one that shows none. */
    static final double PEOPLE_WEIGHT = 3;

    /** A stop of difference in the direction of light weighs as much as this in OKLab. */
    static final double STOP = 0.06;

    /**
     * A step of colour in OKLab looks larger than one of lightness of the same length. By so much
     * the differences between looks rank as the mean CIEDE2000 ranks them (rank correlation 0.93,
     * against 0.73 with 1).
     */
    static final double COLOUR = 2;

    /** More contrast than this on one person is no more different. */
    private static final double MOST_STOPS = 4;

    private static final int PER_PERSON = 3;
    private static final int THUMBS = SamplePoints.WIDE * SamplePoints.HIGH;
    private static final int ROUGH_STEP = 4;
    private static final int ROUGH = THUMBS / ROUGH_STEP / ROUGH_STEP;

    private final SamplePoints points;
    private final double directionWeight;
    private final double[] weight = new double[THUMBS];

    Difference(SamplePoints points, double directionWeight) {
        this.points = points;
        this.directionWeight = directionWeight;
        double sum = 0;
        for (int t = 0; t < THUMBS; t++) {
            weight[t] = 1 + (PEOPLE_WEIGHT - 1) * points.peopleShare(t);
            sum += weight[t];
        }
        for (int t = 0; t < THUMBS; t++) {
            weight[t] /= sum;
        }
    }

    /** The point that a picture becomes. */
    float[] point(float[] rgb) {
        float[] out = new float[THUMBS * 3 + points.people() * PER_PERSON];
        double[] lab = new double[3];
        for (int t = 0; t < THUMBS; t++) {
            int i = (points.thumbnailAt() + t) * 3;
            OkLab.ofLinearSrgb(shown(rgb[i]), shown(rgb[i + 1]), shown(rgb[i + 2]), lab);
            put(lab, Math.sqrt(weight[t]), out, t * 3);
        }
        directions(rgb, out, THUMBS * 3);
        return out;
    }

    /**
     * The same from a sixteenth of the samples: quick, for a first choice. Not to be compared with
     * a {@link #point}.
     */
    float[] rough(float[] rgb) {
        float[] out = new float[ROUGH * 3 + points.people() * PER_PERSON];
        double[] lab = new double[3];
        int wide = SamplePoints.WIDE / ROUGH_STEP;
        for (int r = 0; r < ROUGH; r++) {
            double red = 0;
            double green = 0;
            double blue = 0;
            double sum = 0;
            for (int k = 0; k < ROUGH_STEP * ROUGH_STEP; k++) {
                int y = Math.floorDiv(r, wide) * ROUGH_STEP + Math.floorDiv(k, ROUGH_STEP);
                int t = y * SamplePoints.WIDE + r % wide * ROUGH_STEP + k % ROUGH_STEP;
                int i = (points.thumbnailAt() + t) * 3;
                red += weight[t] * shown(rgb[i]);
                green += weight[t] * shown(rgb[i + 1]);
                blue += weight[t] * shown(rgb[i + 2]);
                sum += weight[t];
            }
            OkLab.ofLinearSrgb(red / sum, green / sum, blue / sum, lab);
            put(lab, Math.sqrt(sum), out, r * 3);
        }
        directions(rgb, out, ROUGH * 3);
        return out;
    }

    private static void put(double[] lab, double weight, float[] out, int at) {
        out[at] = (float) (weight * lab[0]);
        out[at + 1] = (float) (weight * COLOUR * lab[1]);
        out[at + 2] = (float) (weight * COLOUR * lab[2]);
    }

    private void directions(float[] rgb, float[] out, int from) {
        double w = directionWeight * STOP / Math.sqrt(Math.max(1, points.people()));
        for (int p = 0; p < points.people(); p++) {
            int at = from + p * PER_PERSON;
            out[at] = (float) (w * stops(rgb, p, Mean.LEFT, Mean.RIGHT));
            out[at + 1] = (float) (w * stops(rgb, p, Mean.UPPER, Mean.LOWER));
            out[at + 2] = (float) (w * stops(rgb, p, Mean.EDGE, Mean.SKIN));
        }
    }

    /** What a picture can show. */
    private static double shown(double linear) {
        return Math.max(0, Math.min(1, linear));
    }

    private double stops(float[] rgb, int person, Mean over, Mean under) {
        if (!points.shows(person, over) || !points.shows(person, under)) {
            return 0;
        }
        double one = Math.max(Passes.BLACK, Passes.luminance(rgb, points.of(person, over)));
        double other = Math.max(Passes.BLACK, Passes.luminance(rgb, points.of(person, under)));
        double stops = Math.log(one / other) / Math.log(2);
        return Math.max(-MOST_STOPS, Math.min(MOST_STOPS, stops));
    }

    static double between(float[] one, float[] other) {
        double sum = 0;
        for (int i = 0; i < one.length; i++) {
            double d = one[i] - other[i];
            sum += d * d;
        }
        return Math.sqrt(sum);
    }

    /** Mean CIEDE2000 over the thumbnails, weighted alike, to be reported beside. */
    double ciede2000(float[] rgb, float[] other) {
        double sum = 0;
        for (int t = 0; t < THUMBS; t++) {
            int i = (points.thumbnailAt() + t) * 3;
            sum += weight[t] * Ciede2000.difference(lab(rgb, i), lab(other, i));
        }
        return sum;
    }

    private static Lab lab(float[] rgb, int i) {
        Xyz c = Srgb.toXyz(shown(rgb[i]), shown(rgb[i + 1]), shown(rgb[i + 2]));
        return Lab.of(c, Chromaticity.D65);
    }
}

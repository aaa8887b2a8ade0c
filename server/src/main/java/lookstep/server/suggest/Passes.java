package lookstep.server.suggest;

import java.util.Arrays;
import java.util.Optional;
import lookstep.simulator.model.colour.Srgb;

/**
 * Whether a look can be photographed as it is: faces lit, everybody apart from what is behind,
 * nothing burnt, not black.
 *
 * @param faceStops mean of the faces' medians against {@link #FACE_SHARE} of what their skin would
 *     be turned straight to a light that is metered right; NaN if no skin is seen
 * @param darkestFaceStops the darkest of them
 * @param faceColour how strong a colour lies on the faces, mean of all: 1 is the most that a white,
 *     warm or cold, or a pale colour does; NaN if no skin is seen
 * @param separationStops of the person who stands off least: median over the outline, whichever way
 *     ({@link lookstep.simulator.model.picture.LinearPicture#separationStops} has it with its
 *     sign); NaN if no outline is seen
 * @param burntShare share of the skin that is more than a third of a stop over white in a channel,
 *     0..1
 * @param litShare share of the picture that is lighter than four stops under white, 0..1
 */
public record Passes(
        double faceStops,
        double darkestFaceStops,
        double faceColour,
        double separationStops,
        double burntShare,
        double litShare) {
    /**
     * A head is round: where a face is lit straight from the front, half of what is seen of it is
     * lighter than so much of its front (Lambert's cosine over the disc of a sphere has the median
     * root of a half).
     */
    public static final double FACE_SHARE = Math.sqrt(0.5);

    /** Half a stop under keeps the mood, a stop and a half loses the face (common practice). */
    static final double FACES_FROM_STOPS = -1.2;

    static final double FACES_TO_STOPS = 0.8;

    /** Of a row nobody falls so far into the dark (figure of our own). */
    static final double DARKEST_FACE_STOPS = -2.5;

    /**
     * Light of 2700 K in a camera set to 5600 K lies 2.2 stops towards red, and 0.4 towards green:
     * so much is warm, more is a colour. Faces keep their colour, and colour goes to the edges and
     * the background (common practice).
     */
    static final double BLUE_RED_STOPS = 2.6;

    static final double GREEN_STOPS = 0.6;

    /** Zone I and darker: no face is made out (common practice). */
    static final double SILHOUETTE_STOPS = -4;

    /** Half a stop is seen, less is lost in print (figure of our own; a full stop is wanted). */
    static final double SEPARATION_STOPS = 0.5;

    /** An edge lit from behind may burn: that is how it stands off (figure of our own). */
    static final double BURNT_SHARE = 0.04;

    /** A third of a stop over comes back from a raw file (common practice). */
    private static final double WHITE = Math.cbrt(2);

    static final double LIT_SHARE = 0.02;

    private static final double LIT = 1 / 16.0;

    /** Ten stops under white: below this the camera's own noise hides all difference. */
    static final double BLACK = 1.0 / 1024;

    /** What else may be. */
    record Allowed(boolean silhouettes, boolean colouredFaces) {
        static Allowed of(Options options) {
            return new Allowed(options.silhouettes(), options.colouredFaces());
        }
    }

    /** Why a look is left out. */
    public enum Refusal {
        FACES_DARK("faces too dark"),
        FACES_BRIGHT("faces too bright"),
        FACES_COLOURED("faces in a strong colour"),
        FACE_LEFT_DARK("somebody's face left in the dark"),
        NOT_APART("somebody not apart from what is behind"),
        BURNT("skin burnt out"),
        BLACK("almost nothing to be seen");

        private final String words;

        Refusal(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }
    }

    /**
     * Of samples in the look's exposure.
     *
     * @param rgb red, green, blue of each sample, linear, 1 is white
     */
    static Passes of(SamplePoints points, Faces faces, float[] rgb) {
        double[] stops = faces.stops(rgb);
        return new Passes(
                Arrays.stream(stops).average().orElse(Double.NaN),
                Arrays.stream(stops).min().orElse(Double.NaN),
                faces.colour(rgb, BLUE_RED_STOPS, GREEN_STOPS),
                separation(points, rgb),
                burnt(points, rgb),
                lit(points, rgb));
    }

    static double luminance(float[] rgb, int sample) {
        int i = sample * 3;
        return Srgb.luminance(rgb[i], rgb[i + 1], rgb[i + 2]);
    }

    private static double separation(SamplePoints points, float[] rgb) {
        double least = Double.NaN;
        int each = points.insides() + 1;
        double[] ratios = new double[points.outlines()];
        int n = 0;
        for (int o = 0; o < points.outlines(); o++) {
            double inside = BLACK;
            int at = points.outlineAt() + o * each;
            for (int k = 0; k < points.insides(); k++) {
                inside = Math.max(inside, luminance(rgb, at + k));
            }
            double outside = Math.max(BLACK, luminance(rgb, at + points.insides()));
            ratios[n++] = Math.max(inside, outside) / Math.min(inside, outside);
            if (o + 1 == points.outlines() || points.outlineOf(o + 1) != points.outlineOf(o)) {
                Arrays.sort(ratios, 0, n);
                double stops = Math.log(ratios[n / 2]) / Math.log(2);
                least = Double.isNaN(least) ? stops : Math.min(least, stops);
                n = 0;
            }
        }
        return least;
    }

    private static double burnt(SamplePoints points, float[] rgb) {
        int over = 0;
        for (int s = 0; s < points.skins(); s++) {
            int i = (points.skinAt() + s) * 3;
            over += Math.max(rgb[i], Math.max(rgb[i + 1], rgb[i + 2])) > WHITE ? 1 : 0;
        }
        return (double) over / Math.max(1, points.skins());
    }

    private static double lit(SamplePoints points, float[] rgb) {
        int lit = 0;
        int thumbs = SamplePoints.WIDE * SamplePoints.HIGH;
        for (int t = 0; t < thumbs; t++) {
            lit += luminance(rgb, points.thumbnailAt() + t) > LIT ? 1 : 0;
        }
        return (double) lit / thumbs;
    }

    /** Why it is no picture; empty if it is one. NaN is nothing to be held against it. */
    Optional<Refusal> refusal(Allowed allowed) {
        boolean dark = allowed.silhouettes() && faceStops < SILHOUETTE_STOPS;
        if (!dark && faceStops < FACES_FROM_STOPS) {
            return Optional.of(Refusal.FACES_DARK);
        } else if (litShare < LIT_SHARE) {
            return Optional.of(Refusal.BLACK);
        } else if (faceStops > FACES_TO_STOPS) {
            return Optional.of(Refusal.FACES_BRIGHT);
        } else if (!dark && darkestFaceStops < DARKEST_FACE_STOPS) {
            return Optional.of(Refusal.FACE_LEFT_DARK);
        } else if (!dark && !allowed.colouredFaces() && faceColour > 1) {
            return Optional.of(Refusal.FACES_COLOURED);
        } else if (burntShare > BURNT_SHARE) {
            return Optional.of(Refusal.BURNT);
        } else if (separationStops < SEPARATION_STOPS) {
            return Optional.of(Refusal.NOT_APART);
        }
        return Optional.empty();
    }
}

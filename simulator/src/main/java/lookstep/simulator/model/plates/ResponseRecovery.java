package lookstep.simulator.model.plates;

import java.util.ArrayList;
import java.util.List;

/**
 * Finds how a camera turns light into codes from frames whose light is known.
 *
 * <p>Debevec and Malik (Recovering High Dynamic Range Radiance Maps from Photographs, SIGGRAPH
 * 1997) take frames whose exposure is multiplied: the logarithm turns that into a sum, and the
 * curve into a linear unknown. Here a light is multiplied but the house stays, so the light of a
 * place is {@code H + s A}, of which no logarithm is a sum. In linear light it is one: {@code g(Z)
 * = (H + s A) e}, with the curve g, the house's light H and the ramp's A of each place all unknown
 * and all linear, the share s and the exposure e known. Robertson, Borman and Stevenson (1999) too
 * stay in linear light, but go to and fro between curve and places, which takes long to settle; as
 * all is linear, H and A of each place are eliminated exactly (variable projection, Golub and
 * Pereyra 1973) and what is left is one small system for g.
 *
 * <p>Noise lies in the codes. Carried into light it is multiplied by the curve's slope, so each
 * square is weighted with one over the slope's square, with the slope of the turn before. What the
 * ramp does not say comes from sRGB (IEC 61966-2-1): the distance to it, in codes, bends little.
 * The ramp leaves two things open, as light that is multiplied or has something added fits as well:
 * code 0 is 0 and code 255 is 1. Frames of several exposures settle the first.
 */
public final class ResponseRecovery {
    private static final int LEAST_PATCHES = 30;

    /** From here on the ramp does not fit, codes. */
    private static final double MISFIT_CODES = 1.5;

    /** So far from the ends a curve may be guessed without a word, codes. */
    private static final int LOW = 24;

    private static final int HIGH = 232;
    private static final double FALLS = 0.004;
    private static final String[] CHANNELS = {"red", "green", "blue"};

    private ResponseRecovery() {}

    /**
     * A frame of the ramp.
     *
     * @param share of the ramp's light, 0..1 of its full light; 0 is the house alone
     * @param scale exposure scale of the frame
     */
    public record Step(CodedPicture picture, double share, double scale) {
        public Step {
            if (!(share >= 0 && share <= 1)) {
                throw new IllegalArgumentException("a share of " + share + ": choose 0..1");
            }
            if (!(scale > 0)) {
                throw new IllegalArgumentException("an exposure scale of " + scale);
            }
        }
    }

    /**
     * From frames in which one light alone changes, the house alone among them.
     *
     * @return sRGB, with its doubt, if there are fewer than three different steps, or too few even
     *     places
     * @throws IllegalArgumentException if the frames differ in size
     */
    public static Response of(List<Step> ramp) {
        long different = ramp.stream().map(s -> List.of(s.share(), s.scale())).distinct().count();
        if (different < 3) {
            return Response.srgb(
                    List.of(
                            "no ramp: the camera's curve is taken to be plain sRGB, and mixed light"
                                    + " may come out too light or too dark"));
        }
        CodedPicture first = ramp.get(0).picture();
        for (Step step : ramp) {
            if (step.picture().width() != first.width()
                    || step.picture().height() != first.height()) {
                throw new IllegalArgumentException(
                        "a ramp of frames of %d x %d and %d x %d pixels: take all alike"
                                .formatted(
                                        first.width(),
                                        first.height(),
                                        step.picture().width(),
                                        step.picture().height()));
            }
        }
        List<RampPatches.Patch> patches = RampPatches.of(ramp.stream().map(Step::picture).toList());
        double[] share = ramp.stream().mapToDouble(Step::share).toArray();
        double brightest = ramp.stream().mapToDouble(Step::scale).max().orElse(1);
        double[] exposure = ramp.stream().mapToDouble(s -> s.scale() / brightest).toArray();
        double[][] curves = new double[3][];
        int[] lowest = new int[3];
        int[] highest = new int[3];
        List<CurveFit> fits = new ArrayList<>();
        for (int c = 0; c < 3; c++) {
            List<RampPatches.Patch> chosen = RampPatches.spread(patches, c);
            if (chosen.size() < LEAST_PATCHES) {
                return Response.srgb(
                        List.of(
                                "the ramp shows too few even places that are neither burnt nor"
                                        + " black: the camera's curve is taken to be plain sRGB"));
            }
            CurveFit fit = new CurveFit(share, exposure, chosen, c);
            fits.add(fit);
            curves[c] = fit.curve();
            lowest[c] = fit.lowest() <= 2 ? 0 : fit.lowest();
            highest[c] = fit.highest() >= 252 ? 255 : fit.highest();
        }
        return Response.of(curves, lowest, highest, doubts(fits));
    }

    private static List<String> doubts(List<CurveFit> fits) {
        List<String> doubts = new ArrayList<>();
        StringBuilder dark = new StringBuilder();
        StringBuilder bright = new StringBuilder();
        for (int c = 0; c < 3; c++) {
            CurveFit fit = fits.get(c);
            if (fit.highest() <= fit.lowest()) {
                doubts.add(
                        "the ramp hardly changes %s: its curve is taken to be plain sRGB"
                                .formatted(CHANNELS[c]));
                continue;
            }
            if (fit.lowest() > LOW) {
                dark.append(dark.length() > 0 ? ", " : "")
                        .append("%s under %d".formatted(CHANNELS[c], fit.lowest()));
            }
            if (fit.highest() < HIGH) {
                bright.append(bright.length() > 0 ? ", " : "")
                        .append("%s over %d".formatted(CHANNELS[c], fit.highest()));
            }
        }
        if (dark.length() > 0) {
            doubts.add("the ramp shows no codes of " + dark + ": shadows are guessed from sRGB");
        }
        if (bright.length() > 0) {
            doubts.add(
                    "the ramp shows no codes of "
                            + bright
                            + ": what is brighter is guessed from sRGB");
        }
        CurveFit worst = fits.get(0);
        for (CurveFit fit : fits) {
            worst = fit.missCodes() > worst.missCodes() ? fit : worst;
        }
        if (worst.missCodes() > MISFIT_CODES) {
            doubts.add(
                    ("the ramp does not fit, by %.1f codes, its frame %d worst: was the light still"
                                    + " fading, or the exposure automatic?")
                            .formatted(worst.missCodes(), worst.worstStep() + 1));
        }
        if (fits.stream().anyMatch(f -> f.fallsBy() > FALLS)) {
            doubts.add(
                    "some brighter codes stand for less light: the ramp's shares may be wrong, or"
                            + " the camera lifts shadows by the picture's content");
        }
        return doubts;
    }
}

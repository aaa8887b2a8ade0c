package lookstep.server.suggest;

import java.util.List;
import lookstep.simulator.model.optics.Scales;
import lookstep.simulator.model.optics.Scales.Mark;

/**
 * How bright a recipe is made: all its lights up or down together until the faces come out as
 * metered. Where a light cannot give more the ISO goes up, by at most two stops on the dial;
 * f-number and time stay, for sharpness hangs on them.
 */
final class Exposing {
    /** Two stops of noise are what a page still takes (figure of our own). */
    private static final int MOST_CLICKS = 6;

    /** Half a click: nearer than this is not to be had. */
    private static final double NEAR_STOPS = 1 / 6.0;

    /** Each comes nearer by as much as the lights outshine the house. */
    private static final int STEPS = 4;

    /** How light the lightest part comes out where faces stay dark. */
    private static final double LIGHTEST = 0.8;

    private final List<Mark> isos;

    /**
     * What came out.
     *
     * @param keyLux what the strongest light of the recipe gives at the subject
     * @param iso as on the dial
     * @param times exposure against the base's
     */
    record Exposed(double keyLux, double iso, double times) {}

    /**
     * @param iso of the base look, nominal or exact
     */
    Exposing(double iso) {
        int at = Scales.isos().indexOf(Scales.nearestIso(iso));
        isos = Scales.isos().subList(at, Math.min(Scales.isos().size(), at + MOST_CLICKS + 1));
    }

    /**
     * For lit faces.
     *
     * @param house luminance of the skin by the house alone, in the base's exposure
     * @param lux the same by each lux of the strongest light
     * @param mostLux as far as all lights of the recipe go
     */
    Exposed faces(Faces faces, double[] house, double[] lux, double mostLux) {
        double missing = -faces.meanStops(house, lux, mostLux);
        int clicks = 0;
        while (clicks + 1 < isos.size() && stops(clicks) < missing - NEAR_STOPS) {
            clicks++;
        }
        double keyLux = mostLux;
        for (int i = 0; i < STEPS; i++) {
            double over = faces.meanStops(house, lux, keyLux) + stops(clicks);
            keyLux = Math.min(mostLux, keyLux * Math.pow(2, -over));
        }
        return new Exposed(keyLux, isos.get(clicks).nominal(), Math.pow(2, stops(clicks)));
    }

    private double stops(int clicks) {
        return Math.log(isos.get(clicks).exact() / isos.get(0).exact()) / Math.log(2);
    }

    /**
     * For faces that stay dark.
     *
     * @param lux luminance of the lightest part of the picture for each lux of the strongest light,
     *     in the base's exposure
     */
    Exposed lightest(double lux, double mostLux) {
        double wanted = LIGHTEST / Math.max(1e-12, lux);
        for (int i = 0; i < isos.size(); i++) {
            double times = isos.get(i).exact() / isos.get(0).exact();
            if (i + 1 == isos.size() || mostLux * times >= wanted) {
                return new Exposed(Math.min(mostLux, wanted / times), isos.get(i).nominal(), times);
            }
        }
        throw new IllegalStateException("a dial without marks");
    }
}

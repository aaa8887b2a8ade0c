package lookstep.server.suggest;

import java.util.List;
import lookstep.simulator.model.optics.Scales;
import lookstep.simulator.model.optics.Scales.Mark;

/**
 * How bright a recipe is made: all its lights up or down together until the faces come out as
 * metered. Where a light cannot give more the ISO goes up, by at most two stops on the dial; f-number
 * and time stay, for sharpness hangs on them.
 */
final class Exposing {
    /** Two stops of noise are what a page still takes (figure of our own). */
    private static final int MOST_CLICKS = 6;

    /** Half a click: nearer than this is not to be had. */
    private static final double NEAR_STOPS = 1 / 6.0;

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
        isos =
                Scales.isos()
                        .subList(at, Math.min(Scales.isos().size(), at + MOST_CLICKS + 1));
    }

    /**
     * For lit faces.
     *
     * @param house luminance of each face by the house alone in the base's exposure, over what it
     *     should be
     * @param lux the same for each lux of the strongest light
     * @param mostLux as far as all lights of the recipe go
     */
    Exposed faces(double[] house, double[] lux, double mostLux) {
        for (int i = 0; i < isos.size(); i++) {
            double times = isos.get(i).exact() / isos.get(0).exact();
            if (i + 1 == isos.size() || stops(house, lux, mostLux, times) >= -NEAR_STOPS) {
                return new Exposed(
                        keyLux(house, lux, mostLux, times), isos.get(i).nominal(), times);
            }
        }
        throw new IllegalStateException("a dial without marks");
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

    private static double keyLux(double[] house, double[] lux, double mostLux, double times) {
        if (stops(house, lux, mostLux, times) <= 0) {
            return mostLux;
        }
        double low = 0;
        double high = mostLux;
        for (int i = 0; i < 14; i++) {
            double middle = (low + high) / 2;
            if (stops(house, lux, middle, times) > 0) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return high;
    }

    /** Mean of the faces, in stops over what they should be. */
    private static double stops(double[] house, double[] lux, double keyLux, double times) {
        double product = 1;
        for (int p = 0; p < house.length; p++) {
            product *= Math.max(Passes.BLACK, times * (house[p] + keyLux * lux[p]));
        }
        return house.length == 0 ? 0 : Math.log(product) / Math.log(2) / house.length;
    }
}

package lookstep.server.plates;

import java.util.List;
import lookstep.server.plan.CameraSettings;
import lookstep.simulator.model.optics.Scales;
import lookstep.simulator.model.optics.Scales.Mark;

/**
 * The camera's settings for plates: those of the look, but longer exposed where each light alone
 * would leave most of the camera's codes unused. Nobody moves, so first the time, then the ISO; a
 * camera that is set by hand is not touched for less than a stop.
 */
final class PlateCamera {
    /** A stand-in stands so long without blur (common practice: 1/30 s for people who pose). */
    private static final double LONGEST_SECONDS = 1 / 30.0;

    private static final double MOST_ISO_STOPS = 2;
    private static final double WORTH_STOPS = 1;

    private PlateCamera() {}

    /**
     * Longer exposed by about so much.
     *
     * @param stops that the brightest plate lies under what it may reach; 0 or less is enough light
     */
    static CameraSettings longer(CameraSettings look, double stops) {
        if (stops < WORTH_STOPS) {
            return look;
        }
        double time = stops(look.seconds(), Math.max(look.seconds(), LONGEST_SECONDS));
        Mark seconds = nearestUnder(Scales.times(), look.seconds() * factor(Math.min(stops, time)));
        double left = Math.min(MOST_ISO_STOPS, stops - stops(look.seconds(), seconds.exact()));
        Mark iso = nearestUnder(Scales.isos(), look.iso() * factor(Math.max(0, left)));
        return new CameraSettings(
                look.fNumber(),
                seconds.exact() > Scales.exactSeconds(look.seconds())
                        ? seconds.nominal()
                        : look.seconds(),
                Math.max(look.iso(), iso.nominal()),
                look.kelvin());
    }

    private static Mark nearestUnder(List<Mark> marks, double value) {
        Mark best = marks.get(0);
        for (Mark mark : marks) {
            boolean under = mark.exact() <= value * 1.01;
            boolean nearer = best.exact() > value * 1.01 || mark.exact() > best.exact();
            best = under && nearer ? mark : best;
        }
        return best;
    }

    private static double stops(double from, double to) {
        return Math.log(to / from) / Math.log(2);
    }

    private static double factor(double stops) {
        return Math.pow(2, stops);
    }
}

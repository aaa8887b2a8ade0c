package lookstep.server.checks;

import java.util.Optional;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.optics.Scales;
import lookstep.simulator.model.optics.Scales.Mark;

/** The ISO that pays for another f-number or time, where the dial has it. */
final class PayingIso {
    /** Half a click of the dial. */
    private static final double NEAR_ENOUGH = 1.13;

    private PayingIso() {}

    /** What is wanted, on the dial or not. */
    static double wanted(Camera camera, double costStops) {
        return camera.iso() * Math.pow(2, costStops);
    }

    /**
     * The mark that exposes as before; empty if the dial ends before it.
     *
     * @param costStops light that is lost, below 0 for light that is won
     */
    static Optional<Mark> of(Camera camera, double costStops) {
        double iso = wanted(camera, costStops);
        Mark mark = Scales.nearestIso(iso);
        boolean pays = iso <= mark.exact() * NEAR_ENOUGH && iso >= mark.exact() / NEAR_ENOUGH;
        return pays ? Optional.of(mark) : Optional.empty();
    }
}

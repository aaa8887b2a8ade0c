package lookstep.server.web;

import java.util.List;
import lookstep.server.live.LiveState;
import lookstep.server.order.Recut;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.window.WindowView;

/**
 * The running order against the time that is left.
 *
 * @param says the newest re-cut in words; empty if there was none
 * @param canTakeBack whether it can be taken back
 * @param endsInSeconds what is left of the order takes this long
 * @param fits whether that is within the window
 * @param fitSays the same in words
 * @param oneShot the shot to make if there is no time for the next, or null
 * @param oneShotSays the same in words; empty if there is time
 * @param presets seconds that a press may ask for
 * @param pace how this shoot's pace differs from the plan; empty if it does not
 * @param better what another order would bring; empty if nothing
 */
public record CutPart(
        String says,
        boolean canTakeBack,
        double endsInSeconds,
        boolean fits,
        String fitSays,
        String oneShot,
        String oneShotSays,
        List<Integer> presets,
        String pace,
        String better) {
    static CutPart of(ShootPlan plan, LiveState state, WindowView view) {
        boolean fits = view.fallsOff() == 0 && view.spareSeconds() >= 0;
        return new CutPart(
                state.course().says(),
                state.course().cut(),
                tenths(view.endsInSeconds()),
                fits,
                fits
                        ? "fits with " + PlanWords.length(view.spareSeconds()) + " to spare"
                        : view.fallsOff() > 0
                                ? falls(view.fallsOff())
                                : "over by " + PlanWords.length(-view.spareSeconds()),
                view.oneShot().orElse(null),
                view.oneShot()
                        .flatMap(plan::shot)
                        .map(Shot::name)
                        .map(name -> "Time for one: " + name)
                        .orElse(""),
                Recut.USUAL_SECONDS,
                view.paceSays(),
                better(view.better()));
    }

    private static String falls(int shots) {
        return shots == 1 ? "the last shot does not fit" : "the last " + shots + " do not fit";
    }

    private static String better(int shots) {
        return switch (shots) {
            case 0 -> "";
            case 1 -> "a better order fits 1 more shot";
            default -> "a better order fits " + shots + " more shots";
        };
    }

    static double tenths(double seconds) {
        return Math.round(seconds * 10) / 10.0;
    }
}

package lookstep.server;

import java.util.LinkedHashSet;
import java.util.Locale;
import java.util.Set;
import lookstep.server.look.LookLevels;
import lookstep.server.look.LookText;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.prediction.ShotNumbers;
import lookstep.simulator.model.optics.Scales;

/** What light and lens will do in each shot, in words for {@code check}. */
final class NumbersText {
    /** A third of a stop is the step of the dials: less is not worth a word. */
    private static final double THIRD = 1 / 3.0;

    /** Zone I and darker: no face is made out (common practice). */
    private static final double DARK_STOPS = 4;

    private NumbersText() {}

    static String of(ShootPlan plan) {
        StringBuilder text =
                new StringBuilder("Light and sharpness (computed; a meter on the set decides)\n");
        Set<String> notes = new LinkedHashSet<>();
        for (Shot shot : plan.shots()) {
            ShotNumbers numbers = ShotNumbers.of(plan, shot);
            text.append(line(plan, numbers));
            notes.addAll(numbers.notes());
        }
        text.append(
                """
                  Sharpness: focus on the nearest face, circle of confusion 0.020 mm, a face 0.15 m deep.
                  Light: on an upright face turned to the camera, house light included (ISO 2720, C = 250).
                """);
        text.append(
                "\nThe lights of each look (at face height in the middle of the nearest row)\n");
        for (Look look : plan.looks()) {
            LookLevels worked = LookLevels.of(plan, look);
            text.append(LookText.of(look, worked));
            notes.addAll(worked.notes());
        }
        text.append(
                """
                  Each light alone, the meter turned to it, after the rounding of its slots.
                  ΔE00: between grey cards in its light and in the light asked for; 1 is just seen.
                """);
        if (!notes.isEmpty()) {
            text.append("\nWhat the lights cannot do\n");
            notes.forEach(n -> text.append("  ").append(n).append('\n'));
        }
        return text.toString();
    }

    private static String line(ShootPlan plan, ShotNumbers n) {
        CameraSettings camera = plan.look(n.shot().look()).camera();
        double least = n.faceLux().stream().mapToDouble(Double::doubleValue).min().orElse(0);
        double most = n.faceLux().stream().mapToDouble(Double::doubleValue).max().orElse(0);
        return String.format(
                Locale.ROOT,
                "  %-28s faces %s lx, %s; %s%n",
                n.shot().name(),
                Math.round(least) == Math.round(most)
                        ? String.valueOf(Math.round(least))
                        : Math.round(least) + " to " + Math.round(most),
                exposure(n.stopsOver()),
                sharpness(n, camera.fNumber()));
    }

    private static String exposure(double stops) {
        if (Double.isInfinite(stops)) {
            return "no light on the faces";
        }
        if (Math.abs(stops) < THIRD) {
            return "exposed as metered";
        }
        return Scales.formatStops(Math.abs(stops)).substring(1)
                + (Math.abs(stops) < 1.05 && Math.abs(stops) >= 0.95 ? " stop " : " stops ")
                + (stops > 0 ? "over" : "under")
                + (stops < -DARK_STOPS ? ", faces stay dark" : "");
    }

    private static String sharpness(ShotNumbers n, double set) {
        if (n.shot().people().size() == 1) {
            // Of one person the eyes must be sharp; how far behind them it stays so is taste.
            return String.format(
                    Locale.ROOT,
                    "focus on the eyes, %.2f m behind them is sharp at %s",
                    n.sharpBehindMetres(),
                    Scales.formatFNumber(set));
        }
        String depth = String.format(Locale.ROOT, "%.2f m deep", n.depthMetres());
        String needed = String.format(Locale.ROOT, "f/%.1f", n.fNumberNeeded());
        // A nominal f-number is up to a sixth of a stop from the exact one.
        return n.fNumberNeeded() <= set * 1.03
                ? depth + " is sharp at " + Scales.formatFNumber(set) + " (needs " + needed + ")"
                : depth + " is NOT sharp at " + Scales.formatFNumber(set) + ": close to " + needed;
    }
}

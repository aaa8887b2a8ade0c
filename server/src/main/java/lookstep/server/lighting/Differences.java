package lookstep.server.lighting;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import lookstep.server.look.LeftRight;
import lookstep.server.look.LookLevels;
import lookstep.server.look.Photometry;
import lookstep.server.look.RigLevels;
import lookstep.server.plan.Light;
import lookstep.server.plan.ShootPlan;
import lookstep.simulator.model.colour.Ciede2000;
import lookstep.simulator.model.colour.ColourTemperature;
import lookstep.simulator.model.colour.Mired;
import lookstep.simulator.model.colour.WhiteBalance;
import lookstep.simulator.model.colour.Xyz;

/**
 * How the picture of a look differs from the planned one, light by light: the colour of a grey card
 * lit by that light alone, in a camera set as each look wants it (CIEDE2000 at equal luminance),
 * and how much less light there is in all.
 */
final class Differences {
    /** Under this nobody sees it in a picture (about three just noticeable differences). */
    private static final double WORTH_SAYING_DELTA_E = 3;

    private static final double WORTH_SAYING_MIRED = 3;

    private static final double WORTH_SAYING_STOPS = 0.1;
    private static final double LEAST_LUX = 1e-6;

    private Differences() {}

    /**
     * In words.
     *
     * @param planned the look as planned
     * @param whole the look as changed, without what was changed about single lights
     */
    static List<String> words(ShootPlan plan, Shown now, LookLevels planned, LookLevels whole) {
        List<String> words = new ArrayList<>();
        WhiteBalance plannedCamera = new WhiteBalance(now.planned().camera().kelvin());
        WhiteBalance camera = new WhiteBalance(now.look().camera().kelvin());
        Map<String, String> opposite =
                now.adjustment().swapped() ? LeftRight.counterparts(plan.rig()) : Map.of();
        if (now.adjustment().swapped()) {
            words.addAll(staying(plan, now, opposite));
        }
        for (int i = 0; i < plan.rig().size(); i++) {
            Light light = plan.rig().get(i);
            String other = opposite.getOrDefault(light.name(), light.name());
            int from = plan.rig().indexOf(plan.light(other));
            Xyz wanted = sent(plan, planned.levels(), from);
            Xyz got = sent(plan, now.worked().levels(), i);
            if (wanted.y() > 0 && got.y() > 0 && now.adjustment().of(light.name()).mired() == 0) {
                difference(light, plannedCamera, wanted, camera, got).ifPresent(words::add);
            }
        }
        double stops = stops(plan, whole, planned);
        if (stops < -WORTH_SAYING_STOPS) {
            words.add(
                    String.format(
                            Locale.ROOT,
                            "all lights together are %.1f stops under the planned: open the lens, "
                                    + "lengthen the time or raise the ISO by as much",
                            -stops));
        }
        return words;
    }

    private static List<String> staying(ShootPlan plan, Shown now, Map<String, String> opposite) {
        return plan.rig().stream()
                .map(Light::name)
                .filter(name -> now.planned().lights().containsKey(name))
                .filter(name -> !opposite.containsKey(name))
                .map(name -> "‘%s’ has no light opposite and stays as it is".formatted(name))
                .toList();
    }

    private static Optional<String> difference(
            Light light, WhiteBalance plannedCamera, Xyz wanted, WhiteBalance camera, Xyz got) {
        double deltaE =
                Ciede2000.difference(
                        plannedCamera.greyCard(wanted.chromaticity()),
                        camera.greyCard(got.chromaticity()));
        if (!(deltaE >= WORTH_SAYING_DELTA_E)) {
            return Optional.empty();
        }
        double shift = mired(got, camera) - mired(wanted, plannedCamera);
        boolean whites =
                ColourTemperature.of(got.chromaticity()).useful()
                        && ColourTemperature.of(wanted.chromaticity()).useful();
        String how =
                !whites
                        ? "off in colour"
                        : Math.abs(shift) < WORTH_SAYING_MIRED
                                ? "a little off in tint"
                                : "%d mired %s"
                                        .formatted(
                                                Math.round(Math.abs(shift)),
                                                shift > 0 ? "warmer" : "colder");
        return Optional.of(
                String.format(
                        Locale.ROOT,
                        "‘%s’ ends %s in the picture, against the planned one (CIEDE2000 %.1f)",
                        light.name(),
                        how,
                        deltaE));
    }

    /** Against the camera's setting. */
    private static double mired(Xyz light, WhiteBalance camera) {
        return Mired.of(ColourTemperature.of(light.chromaticity()).kelvin())
                - Mired.of(camera.kelvin());
    }

    private static Xyz sent(ShootPlan plan, RigLevels levels, int light) {
        return Photometry.intensity(plan.rig().get(light), levels.of(light));
    }

    private static double stops(ShootPlan plan, LookLevels whole, LookLevels planned) {
        double before = lux(plan, planned.levels());
        double after = lux(plan, whole.levels());
        return before < LEAST_LUX || after < LEAST_LUX ? 0 : Math.log(after / before) / Math.log(2);
    }

    private static double lux(ShootPlan plan, RigLevels levels) {
        double sum = 0;
        for (int i = 0; i < plan.rig().size(); i++) {
            sum += LookLevels.luxAtSubject(plan.rig().get(i), sent(plan, levels, i).y());
        }
        return sum;
    }
}

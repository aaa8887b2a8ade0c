package lookstep.server.look;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.ShootPlan;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.Mix;
import lookstep.simulator.model.colour.Mixing;
import lookstep.simulator.model.colour.Planck;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.light.Illuminance;
import lookstep.simulator.model.space.Vec3;

/**
 * One look on one rig, worked out.
 *
 * @param levels for each light in the rig's order
 * @param notes what the lights cannot do, in plain words; empty if all is as asked
 */
public record LookLevels(RigLevels levels, List<String> notes) {
    /**
     * Where stops are measured: face height in the middle of the nearest row, the meter turned to
     * each light.
     */
    public static final Vec3 SUBJECT = new Vec3(0, 0, 1.5);

    /** Stops short of what was asked that are worth a word: a tenth is not seen. */
    private static final double WORTH_SAYING_STOPS = 0.1;

    /** Works the look out. */
    public static LookLevels of(ShootPlan plan, Look look) {
        List<String> notes = new ArrayList<>();
        double keyLux = 0;
        Setting keySetting = look.lights().get(look.key());
        if (keySetting != null && keySetting.level() instanceof Level.Percent percent) {
            Light key = plan.light(look.key());
            keyLux =
                    luxAtSubject(key, mix(key, keySetting.colour()).total().y())
                            * percent.percent()
                            / 100;
        }
        List<double[]> levels = new ArrayList<>();
        for (Light light : plan.rig()) {
            Setting setting = look.lights().get(light.name());
            levels.add(
                    setting == null
                            ? new double[light.fixture().emitters().size()]
                            : levels(look, light, setting, keyLux, notes));
        }
        return new LookLevels(new RigLevels(levels), List.copyOf(notes));
    }

    /** Illuminance in lux at the subject from one light of this much intensity on its axis. */
    public static double luxAtSubject(Light light, double candela) {
        return Illuminance.lux(Photometry.luminaire(light), candela, SUBJECT, null);
    }

    private static double[] levels(
            Look look, Light light, Setting setting, double keyLux, List<String> notes) {
        Mix mix = mix(light, setting.colour());
        if (!mix.reached()) {
            notes.add(
                    String.format(
                            Locale.ROOT,
                            "look ‘%s’: ‘%s’ cannot make %s; the nearest it can is %.3f away in u'v'",
                            look.name(),
                            light.name(),
                            words(setting.colour()),
                            mix.distanceUv()));
        }
        double share = share(look, light, setting.level(), mix, keyLux, notes);
        double[] levels = mix.levels().clone();
        for (int i = 0; i < levels.length; i++) {
            levels[i] = Math.min(1, Math.max(0, levels[i] * share));
        }
        return levels;
    }

    private static double share(
            Look look, Light light, Level level, Mix mix, double keyLux, List<String> notes) {
        if (level instanceof Level.Percent percent) {
            return percent.percent() / 100;
        }
        if (level instanceof Level.Lux lux) {
            return Math.min(1, lux.lux() / luxAtSubject(light, mix.total().y()));
        }
        double stops = ((Level.StopsFromKey) level).stops();
        double most = luxAtSubject(light, mix.total().y());
        double wanted = keyLux * Math.pow(2, stops);
        if (most <= 0) {
            notes.add(
                    String.format(
                            Locale.ROOT,
                            "look ‘%s’: ‘%s’ does not reach the people: aim it at them",
                            look.name(),
                            light.name()));
            return 0;
        }
        double missing = Math.log(wanted / most) / Math.log(2);
        if (missing > WORTH_SAYING_STOPS) {
            notes.add(
                    String.format(
                            Locale.ROOT,
                            "look ‘%s’: ‘%s’ is to be %+.1f stops from the key, %+.1f is its most:"
                                    + " bring it nearer or take the key down",
                            look.name(),
                            light.name(),
                            stops,
                            stops - missing));
        }
        return Math.min(1, wanted / most);
    }

    private static Mix mix(Light light, Colour colour) {
        List<Xyz> emitters = Photometry.emitters(light);
        return Mixing.maximum(emitters, chromaticity(colour));
    }

    private static Chromaticity chromaticity(Colour colour) {
        if (colour instanceof Colour.Temperature t) {
            return Planck.chromaticity(t.kelvin());
        }
        Colour.Xy xy = (Colour.Xy) colour;
        return new Chromaticity(xy.x(), xy.y());
    }

    private static String words(Colour colour) {
        return colour instanceof Colour.Temperature t
                ? String.format(Locale.ROOT, "%.0f K", t.kelvin())
                : String.format(
                        Locale.ROOT,
                        "xy %.3f, %.3f",
                        ((Colour.Xy) colour).x(),
                        ((Colour.Xy) colour).y());
    }
}

package lookstep.server.tryout;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import lookstep.server.look.LightReport;
import lookstep.server.look.LookLevels;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Blend;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.ShootPlan;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.HueSaturation;
import lookstep.simulator.model.colour.WhiteBalance;

/**
 * What somebody sets light by light: each against the most that it gives in its colour, so that one
 * slider moves one light and no other.
 *
 * @param kelvin the camera's white balance, 1000..25000
 * @param iso the camera's exposure index, above 0
 * @param lights those that are on, by name
 */
public record Mix(double kelvin, double iso, Map<String, Lamp> lights) {
    private static final double LEAST_KELVIN = 1000;
    private static final double MOST_KELVIN = 25_000;
    private static final double MOST_ISO = 10_000_000;
    private static final double MOST_STOPS_UNDER = 20;

    /**
     * One light that is on.
     *
     * @param under its most, stops, 0..20
     * @param colour white of a temperature, or a hue as the camera sees it
     * @param blend which of the mixes that come to it
     */
    public record Lamp(double under, Colour colour, Blend blend) {
        /**
         * Ready to be mixed.
         *
         * @throws IllegalArgumentException if a number lies outside its range
         */
        public Lamp {
            within("stops under full", under, 0, MOST_STOPS_UNDER);
            if (colour instanceof Colour.Temperature t) {
                within("kelvin of a light", t.kelvin(), LEAST_KELVIN, MOST_KELVIN);
            } else if (colour instanceof Colour.HueSaturation hs) {
                within("hue", hs.hueDegrees(), 0, 360);
                within("saturation", hs.saturation(), 0, 1);
            }
        }
    }

    /**
     * Ready to become a look.
     *
     * @throws IllegalArgumentException if a number lies outside its range
     */
    public Mix {
        within("kelvin of the camera", kelvin, LEAST_KELVIN, MOST_KELVIN);
        within("ISO", iso, 1, MOST_ISO);
        lights = Collections.unmodifiableMap(new LinkedHashMap<>(lights));
    }

    private static void within(String what, double value, double least, double most) {
        if (!(value >= least && value <= most)) {
            throw new IllegalArgumentException(
                    "%s is %s to %s, not %s".formatted(what, least, most, value));
        }
    }

    /** What a look of the plan comes to. */
    public static Mix of(ShootPlan plan, Look look) {
        LookLevels worked = LookLevels.of(plan, look);
        Map<String, Lamp> lights = new LinkedHashMap<>();
        for (LightReport report : worked.lights()) {
            Setting setting = look.lights().get(report.light());
            if (report.given().isPresent() && setting != null) {
                lights.put(
                        report.light(),
                        new Lamp(
                                under(setting, report.given().get().amount()),
                                seen(setting.colour(), look.camera().kelvin()),
                                setting.blend()));
            }
        }
        return new Mix(look.camera().kelvin(), look.camera().iso(), lights);
    }

    private static double under(Setting setting, LightReport.Amount amount) {
        double share =
                setting.level() instanceof Level.Percent p
                        ? p.percent() / 100
                        : amount.lux() / amount.mostLux();
        return share > 0
                ? Math.min(MOST_STOPS_UNDER, Math.max(0, -Math.log(share) / Math.log(2)))
                : MOST_STOPS_UNDER;
    }

    /** A chromaticity has no slider: it becomes the hue that the camera sees. */
    private static Colour seen(Colour colour, double kelvin) {
        if (!(colour instanceof Colour.Xy xy)) {
            return colour;
        }
        HueSaturation hs =
                HueSaturation.of(
                        new WhiteBalance(kelvin)
                                .linearSrgb(new Chromaticity(xy.x(), xy.y()).toXyz(1)));
        return new Colour.HueSaturation(hs.hueDegrees(), hs.saturation());
    }

    /**
     * The look that it is.
     *
     * @param base the look that it was begun from: its f-number, its time, its fade; lights that it
     *     moves stay where it has them
     * @throws IllegalArgumentException if a light is not in the rig
     */
    public Look look(ShootPlan plan, Look base, String name) {
        CameraSettings c = base.camera();
        Map<String, Setting> set = new LinkedHashMap<>();
        for (Light light : plan.rig()) {
            Lamp lamp = lights.get(light.name());
            if (lamp != null) {
                double percent = 100 * Math.pow(2, -lamp.under());
                set.put(
                        light.name(),
                        new Setting(
                                new Level.Percent(digits(percent)), lamp.colour(), lamp.blend()));
            }
        }
        Optional<String> unknown =
                lights.keySet().stream().filter(n -> !set.containsKey(n)).findFirst();
        if (unknown.isPresent()) {
            throw new IllegalArgumentException("the rig has no light ‘" + unknown.get() + "’");
        }
        String key =
                set.containsKey(base.key()) || set.isEmpty()
                        ? base.key()
                        : set.keySet().iterator().next();
        return new Look(
                name,
                new CameraSettings(c.fNumber(), c.seconds(), iso, kelvin),
                base.fadeSeconds(),
                key,
                set,
                base.moved());
    }

    /** Three digits, as a file would have it. */
    private static double digits(double percent) {
        double unit = Math.pow(10, 2 - Math.ceil(Math.log10(percent)));
        return Math.min(100, Math.round(percent * unit * 10) / (unit * 10));
    }
}

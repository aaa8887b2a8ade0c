package lookstep.server.look;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Blend;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.ShootPlan;
import lookstep.simulator.model.colour.Mired;
import lookstep.simulator.model.colour.WhiteBalance;
import lookstep.simulator.model.colour.Xyz;

/**
 * A look with what was changed about it on the set is a look again. Every light keeps what it gives
 * at the subject unless it is the one that is changed: the key may go up alone.
 */
public final class Adjusting {
    private static final double FULL = 100;

    private final ShootPlan plan;
    private final Look look;
    private final Map<String, Spot> spots = new LinkedHashMap<>();
    private CameraSettings camera;
    private String key;

    /**
     * What one light is to give.
     *
     * @param lux at the subject; 0 if its light does not reach the people
     * @param percent of its most, for a light that does not reach the people
     */
    private record Spot(double lux, double percent, Colour colour, Blend blend) {
        Spot times(double factor) {
            return new Spot(lux * factor, percent * factor, colour, blend);
        }

        Spot in(Colour other) {
            return new Spot(lux, percent, other, blend);
        }
    }

    private Adjusting(ShootPlan plan, Look look) {
        this.plan = plan.placed(look);
        this.look = look;
        camera = look.camera();
        key = look.key();
        LookLevels worked = LookLevels.of(plan, look);
        for (int i = 0; i < plan.rig().size(); i++) {
            Light light = plan.rig().get(i);
            Setting setting = look.lights().get(light.name());
            Optional<LightReport.Given> given = worked.lights().get(i).given();
            if (setting != null && given.isPresent()) {
                double candela = Photometry.intensity(light, worked.levels().of(i)).y();
                double percent = FULL * candela / most(light, setting.colour(), setting.blend());
                spots.put(
                        light.name(),
                        new Spot(
                                asked(given.get().amount()),
                                percent,
                                setting.colour(),
                                setting.blend()));
            }
        }
    }

    /** As asked, as far as the light goes; not what its slots make of it, which would add up. */
    private static double asked(LightReport.Amount amount) {
        return Math.max(amount.leastLux(), Math.min(amount.mostLux(), amount.wantedLux()));
    }

    /** The look as it is with the adjustment; the same look if that is none. */
    public static Look of(ShootPlan plan, Look look, Adjustment adjustment) {
        if (adjustment.none()) {
            return look;
        }
        Adjusting adjusting = new Adjusting(plan, look);
        if (adjustment.cameraKelvin() > 0) {
            adjusting.keepCameraAt(adjustment.cameraKelvin());
        }
        if (adjustment.swapped()) {
            adjusting.swap();
        }
        adjusting.nudge(adjustment);
        return adjusting.whole();
    }

    /** The same differences in mired against the camera, so as near as can be the same picture. */
    private void keepCameraAt(double kelvin) {
        double planned = look.camera().kelvin();
        spots.replaceAll(
                (name, spot) -> spot.in(SteadyCamera.colour(spot.colour(), planned, kelvin)));
        camera = new CameraSettings(camera.fNumber(), camera.seconds(), camera.iso(), kelvin);
        withinReach();
    }

    private void swap() {
        Map<String, String> opposite = LeftRight.counterparts(plan.rig());
        Map<String, Spot> before = new LinkedHashMap<>(spots);
        opposite.forEach(
                (light, other) -> {
                    if (before.containsKey(other)) {
                        spots.put(light, before.get(other));
                    } else {
                        spots.remove(light);
                    }
                });
        key = opposite.getOrDefault(key, key);
        withinReach();
    }

    /** If one light cannot give its share, all go down together: the ratios make the picture. */
    private void withinReach() {
        double factor = 1;
        for (Map.Entry<String, Spot> entry : spots.entrySet()) {
            Spot spot = entry.getValue();
            if (spot.lux() > 0) {
                double most = mostLux(plan.light(entry.getKey()), spot.colour(), spot.blend());
                factor = Math.min(factor, most / spot.lux());
            }
        }
        double all = factor;
        if (all > 0) {
            spots.replaceAll((name, spot) -> spot.times(all));
        }
    }

    private void nudge(Adjustment adjustment) {
        Spot keySpot = spots.get(key);
        adjustment
                .lights()
                .forEach(
                        (name, nudge) -> {
                            if (nudge.power() == Nudge.Power.OFF) {
                                spots.remove(name);
                                return;
                            }
                            Spot spot = spots.get(name);
                            if (spot == null && nudge.power() == Nudge.Power.ON) {
                                spot = cameIn(name, keySpot);
                            }
                            if (spot != null) {
                                spots.put(name, nudged(spot, nudge));
                            }
                        });
    }

    private static Spot nudged(Spot spot, Nudge nudge) {
        Colour colour = warmer(spot.colour(), nudge.mired()).orElse(spot.colour());
        return spot.times(Math.pow(2, nudge.stops())).in(colour);
    }

    /** A stop under the key as it is without nudges, in the camera's white. */
    private Spot cameIn(String name, Spot keySpot) {
        Optional<Light> known =
                plan.rig().stream().filter(light -> light.name().equals(name)).findFirst();
        if (known.isEmpty()) {
            return null; // the plan was edited since
        }
        Light light = known.get();
        Colour white = new Colour.Temperature(camera.kelvin());
        double most = mostLux(light, white, Blend.BROAD);
        double lux = keySpot == null || keySpot.lux() <= 0 ? most / 2 : keySpot.lux() / 2;
        return new Spot(Math.min(most, lux), FULL / 2, white, Blend.BROAD);
    }

    /** Empty for a colour that is no white. */
    public static Optional<Colour> warmer(Colour colour, double mired) {
        if (mired == 0) {
            return Optional.of(colour);
        }
        if (colour instanceof Colour.Temperature t) {
            double wanted = Mired.of(t.kelvin()) + mired;
            double least = Mired.of(SteadyCamera.COLDEST_KELVIN);
            double most = Mired.of(SteadyCamera.WARMEST_KELVIN);
            return Optional.of(
                    new Colour.Temperature(
                            Math.round(Mired.kelvin(Math.min(most, Math.max(least, wanted)))),
                            t.duv()));
        }
        return Optional.empty();
    }

    private Look whole() {
        Spot keySpot = spots.get(key);
        double keyLux = keySpot == null ? 0 : keyLux(keySpot);
        Map<String, Setting> lights = new LinkedHashMap<>();
        for (Light light : plan.rig()) {
            Spot spot = spots.get(light.name());
            if (spot != null) {
                lights.put(
                        light.name(),
                        new Setting(level(light, spot, keyLux), spot.colour(), spot.blend()));
            }
        }
        return new Look(look.name(), camera, look.fadeSeconds(), key, lights, look.moved());
    }

    /** In another colour it may not give as much; the others are not dragged along. */
    private double keyLux(Spot spot) {
        return Math.min(spot.lux(), mostLux(plan.light(key), spot.colour(), spot.blend()));
    }

    private Level level(Light light, Spot spot, double keyLux) {
        if (spot.lux() <= 0) {
            return new Level.Percent(percent(spot.percent()));
        } else if (light.name().equals(key)) {
            double most = mostLux(light, spot.colour(), spot.blend());
            return new Level.Percent(percent(FULL * spot.lux() / most));
        } else if (keyLux <= 0) {
            return new Level.Lux(hundredths(spot.lux()));
        }
        return new Level.StopsFromKey(hundredths(Math.log(spot.lux() / keyLux) / Math.log(2)));
    }

    private double mostLux(Light light, Colour colour, Blend blend) {
        return LookLevels.luxAtSubject(light, most(light, colour, blend));
    }

    private double most(Light light, Colour colour, Blend blend) {
        return full(camera, light, colour, blend).y();
    }

    /** All that a light gives on its axis in the colour that a look has it in; Y is candela. */
    public static Xyz full(Look look, Light light) {
        Setting setting = look.lights().get(light.name());
        return full(look.camera(), light, setting.colour(), setting.blend());
    }

    /** All that a light gives on its axis in a colour; Y is candela. */
    public static Xyz full(CameraSettings camera, Light light, Colour colour, Blend blend) {
        return ColourMix.of(
                        light, WantedColour.of(colour, new WhiteBalance(camera.kelvin())), blend)
                .full();
    }

    /** Four digits behind the point where two could round a faint light away. */
    private static double percent(double value) {
        return value < 1 ? Math.round(value * 1e4) / 1e4 : hundredths(Math.min(FULL, value));
    }

    private static double hundredths(double value) {
        return Math.round(value * 100) / 100.0;
    }
}

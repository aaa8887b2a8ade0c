package lookstep.server.look;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.ShootPlan;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.ColourTemperature;
import lookstep.simulator.model.colour.Mired;
import lookstep.simulator.model.colour.WhiteBalance;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.light.Illuminance;
import lookstep.simulator.model.optics.Exposure;
import lookstep.simulator.model.optics.Scales;
import lookstep.simulator.model.space.Vec3;

/**
 * One look on one rig, worked out.
 *
 * <p>Percent, lux and stops all come to a share of the most that a light gives at its colour. A
 * light that is asked for more gives its most; one that is asked for less than its slots can set
 * gives its least, for off is no number of stops away, and a light that was asked for is wanted. A
 * note says both.
 *
 * @param levels for each light in the rig's order
 * @param notes what the lights cannot do, in plain words; empty if all is as asked
 * @param lights what each gives, in the rig's order, also those that are off
 */
public record LookLevels(RigLevels levels, List<String> notes, List<LightReport> lights) {
    /**
     * Where stops are measured: face height in the middle of the nearest row, the meter turned to
     * each light.
     */
    public static final Vec3 SUBJECT = new Vec3(0, 0, 1.5);

    public LookLevels {
        notes = List.copyOf(notes);
        lights = List.copyOf(lights);
    }

    /** Works the look out. */
    public static LookLevels of(ShootPlan plan, Look look) {
        WhiteBalance camera = new WhiteBalance(look.camera().kelvin());
        double keyLux = keyLux(plan, look, camera);
        LightNotes notes = new LightNotes(look.name(), camera);
        List<double[]> levels = new ArrayList<>();
        List<Worked> worked = new ArrayList<>();
        double keyGives = 0;
        for (Light light : plan.placed(look).rig()) {
            Worked w = worked(light, look.lights().get(light.name()), camera, keyLux);
            worked.add(w);
            levels.add(w.on() ? w.levels() : new double[light.fixture().emitters().size()]);
            if (light.name().equals(look.key()) && w.on()) {
                keyGives = w.lux();
            }
        }
        double metered = meteredLux(look.camera());
        List<LightReport> reports = new ArrayList<>();
        for (Worked w : worked) {
            LightReport report = report(w, look.key(), camera, keyGives, metered);
            reports.add(report);
            if (w.setting() != null) {
                notes.about(w, report);
            }
        }
        return new LookLevels(new RigLevels(levels), notes.all(), reports);
    }

    /**
     * What one light of the rig gives in a look, and what it could at the same colour; one that is
     * off in it, at the camera's white.
     *
     * @throws java.util.NoSuchElementException if there is no such light
     */
    public static LightRange range(ShootPlan plan, Look look, String light) {
        WhiteBalance camera = new WhiteBalance(look.camera().kelvin());
        Light placed = plan.placed(look).light(light);
        Setting setting =
                look.lights()
                        .getOrDefault(
                                light,
                                new Setting(
                                        new Level.Percent(0),
                                        new Look.Colour.Temperature(look.camera().kelvin())));
        Worked w = worked(placed, setting, camera, keyLux(plan, look, camera));
        return new LightRange(w.on() ? w.lux() : 0, w.leastLux(), w.mostLux());
    }

    /** Illuminance in lux at the subject from one light of this much intensity on its axis. */
    public static double luxAtSubject(Light light, double candela) {
        return Illuminance.lux(Photometry.luminaire(light), candela, SUBJECT, null);
    }

    /**
     * The illuminance in lux that camera settings are right for (ISO 2720, C = 250), with the exact
     * values behind the nominal ones on the dials.
     */
    public static double meteredLux(CameraSettings c) {
        return 1
                / Exposure.scale(
                        Scales.exactFNumber(c.fNumber()),
                        Scales.exactSeconds(c.seconds()),
                        Scales.exactIso(c.iso()));
    }

    /**
     * One light on its way.
     *
     * @param setting null if it is not named in the look
     * @param mix null then
     * @param wantedLux what is asked; of a light that does not reach the people only if asked in
     *     lux or stops
     * @param share of the most that it gives, 0..1; 0 is off
     * @param levels of its emitters, 0..1; null if off
     * @param sent through its slots, on the axis; null if off
     */
    // An array in a record: it is handed on to be copied.
    @SuppressWarnings("ArrayRecordComponent")
    record Worked(
            Light light,
            Setting setting,
            ColourMix mix,
            double wantedLux,
            double leastLux,
            double mostLux,
            double share,
            double[] levels,
            Xyz sent,
            double lux) {
        boolean on() {
            return sent != null && sent.y() > 0;
        }
    }

    private static Worked worked(Light light, Setting setting, WhiteBalance camera, double keyLux) {
        if (setting == null) {
            return new Worked(light, null, null, 0, 0, 0, 0, null, null, 0);
        }
        ColourMix mix =
                ColourMix.of(light, WantedColour.of(setting.colour(), camera), setting.blend());
        double most = luxAtSubject(light, mix.full().y());
        double floor = light.mode().floor(light.fixture().curve());
        Level level = setting.level();
        double wanted =
                level instanceof Level.Percent p
                        ? most * p.percent() / 100
                        : level instanceof Level.Lux l
                                ? l.lux()
                                : keyLux * Math.pow(2, ((Level.StopsFromKey) level).stops());
        double asked =
                level instanceof Level.Percent p ? p.percent() / 100 : most > 0 ? wanted / most : 0;
        double share = asked > 0 ? Math.min(1, Math.max(floor, asked)) : 0;
        double[] levels = share > 0 ? FewCodes.nearest(light, mix.at(share)) : null;
        Xyz sent =
                levels == null
                        ? null
                        : Photometry.intensity(light, ColourMix.throughSlots(light, levels));
        return new Worked(
                light,
                setting,
                mix,
                wanted,
                most * floor,
                most,
                share,
                levels,
                sent,
                sent == null ? 0 : luxAtSubject(light, sent.y()));
    }

    /** What stops are measured against: the key as asked, as far as it goes. */
    private static double keyLux(ShootPlan plan, Look look, WhiteBalance camera) {
        Setting setting = look.lights().get(look.key());
        if (setting == null || setting.level() instanceof Level.StopsFromKey) {
            return 0;
        }
        Worked key = worked(plan.placed(look).light(look.key()), setting, camera, 0);
        return key.share() * key.mostLux();
    }

    private static LightReport report(
            Worked w, String key, WhiteBalance camera, double keyGives, double meteredLux) {
        String name = w.light().name();
        if (!w.on()) {
            return new LightReport(name, name.equals(key), Optional.empty());
        }
        Chromaticity wanted = w.mix().wanted();
        Chromaticity given = w.sent().chromaticity();
        ColourTemperature temperature = ColourTemperature.of(given);
        return new LightReport(
                name,
                name.equals(key),
                Optional.of(
                        new LightReport.Given(
                                new LightReport.Amount(
                                        w.lux(),
                                        w.wantedLux(),
                                        LightRange.stops(keyGives, w.lux()),
                                        LightRange.stops(keyGives, w.wantedLux()),
                                        w.leastLux(),
                                        w.mostLux(),
                                        LightRange.stops(keyGives, w.leastLux()),
                                        LightRange.stops(keyGives, w.mostLux()),
                                        LightRange.stops(meteredLux, w.lux()),
                                        w.light()
                                                .mode()
                                                .stepStops(w.light().fixture().curve(), w.share())),
                                new LightReport.Colour(
                                        wanted,
                                        given,
                                        temperature,
                                        Mired.shift(camera.kelvin(), temperature.kelvin()),
                                        w.mix().reached(),
                                        given.distanceUvPrime(wanted),
                                        camera.difference(wanted, given),
                                        ColourName.of(given, camera)))));
    }
}

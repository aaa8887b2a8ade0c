package lookstep.server.suggest;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import lookstep.server.look.LightReport;
import lookstep.server.look.LookLevels;
import lookstep.server.look.Photometry;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.ShootPlan;
import lookstep.simulator.model.colour.Mired;

/**
 * The colours that one light is tried in: as the camera, the warmest and the coldest white within
 * its reach, and for a light that has them six hues around the camera's gamut, saturated and pale.
 */
final class LightColours {
    /** Whites from candle-like tungsten to overcast sky (common practice), the ends first. */
    private static final List<Double> WARM = List.of(2700.0, 3000.0, 3200.0, 3600.0);

    private static final List<Double> COLD = List.of(7500.0, 6500.0, 5600.0, 5000.0);

    /** Nearer to a colour that is tried already than this is not worth a look of its own. */
    private static final double APART_MIRED = 40;

    private static final int HUES = 6;
    private static final double SATURATED = 0.9;
    private static final double PALE = 0.45;

    /**
     * One of them.
     *
     * @param levels of the light's emitters, 0..1, at the most it gives
     * @param mostLux at the subject then; 0 if its light does not reach the people
     * @param hue 0..5 for a colour, -1 for a white
     */
    // An array in a record: written once, never handed out to be changed.
    @SuppressWarnings("ArrayRecordComponent")
    record Tried(Colour colour, double[] levels, double mostLux, int hue) {}

    private LightColours() {}

    /** At least one. */
    static List<Tried> of(ShootPlan plan, Light light, CameraSettings camera) {
        List<Tried> all = new ArrayList<>();
        List<Double> mireds = new ArrayList<>();
        if (white(plan, light, camera, camera.kelvin(), mireds, all)) {
            first(plan, light, camera, WARM.stream().filter(k -> k < camera.kelvin()), mireds, all);
            first(plan, light, camera, COLD.stream().filter(k -> k > camera.kelvin()), mireds, all);
        } else if (!anyWhite(plan, light, camera, mireds, all)) {
            // Whatever it gives when asked for the camera's white.
            all.add(worked(plan, light, camera, kelvin(camera.kelvin()), -1).tried());
        }
        for (int h = 0; h < HUES; h++) {
            for (double saturation : new double[] {SATURATED, PALE}) {
                Worked w =
                        worked(
                                plan,
                                light,
                                camera,
                                new Colour.HueSaturation(h * 360.0 / HUES, saturation),
                                h);
                if (w.reached()) {
                    all.add(w.tried());
                }
            }
        }
        return all;
    }

    /** The same colour from another place: only what arrives is different. */
    static Tried from(Light placed, Tried t) {
        double candela = Photometry.intensity(placed, t.levels()).y();
        return new Tried(t.colour(), t.levels(), LookLevels.luxAtSubject(placed, candela), t.hue());
    }

    private record Worked(Tried tried, boolean reached) {}

    private static Colour kelvin(double kelvin) {
        return new Colour.Temperature(Math.round(kelvin));
    }

    /** A lamp of one white, or one that does not come as far as the camera is set. */
    private static boolean anyWhite(
            ShootPlan plan,
            Light light,
            CameraSettings camera,
            List<Double> mireds,
            List<Tried> all) {
        boolean warm = first(plan, light, camera, WARM.stream(), mireds, all);
        return first(plan, light, camera, COLD.stream(), mireds, all) || warm;
    }

    /** The first that the light reaches and that is apart from those before. */
    private static boolean first(
            ShootPlan plan,
            Light light,
            CameraSettings camera,
            Stream<Double> kelvins,
            List<Double> mireds,
            List<Tried> all) {
        return kelvins.anyMatch(k -> white(plan, light, camera, k, mireds, all));
    }

    private static boolean white(
            ShootPlan plan,
            Light light,
            CameraSettings camera,
            double kelvin,
            List<Double> mireds,
            List<Tried> all) {
        double mired = Mired.of(kelvin);
        if (mireds.stream().anyMatch(m -> Math.abs(m - mired) < APART_MIRED)) {
            return false;
        }
        Worked w = worked(plan, light, camera, kelvin(kelvin), -1);
        if (w.reached()) {
            mireds.add(mired);
            all.add(w.tried());
        }
        return w.reached();
    }

    private static Worked worked(
            ShootPlan plan, Light light, CameraSettings camera, Colour colour, int hue) {
        Look alone =
                new Look(
                        "alone",
                        camera,
                        0,
                        light.name(),
                        Map.of(light.name(), new Setting(new Level.Percent(100), colour)));
        LookLevels look = LookLevels.of(plan, alone);
        int at = plan.rig().indexOf(light);
        Optional<LightReport.Given> given = look.lights().get(at).given();
        return new Worked(
                new Tried(
                        colour,
                        look.levels().of(at),
                        given.map(g -> g.amount().mostLux()).orElse(0.0),
                        hue),
                given.map(g -> g.colour().reached()).orElse(false));
    }
}

package lookstep.server.suggest;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.ShootPlan;
import lookstep.server.suggest.LightColours.Tried;
import lookstep.simulator.model.colour.Mired;

/**
 * All that recipes are made of: white balances of the camera, and for each of them what every light
 * brings in each of its colours. The camera set warm or cold turns all lights the other way, which
 * is how a warm front gets a blue back (common practice).
 */
final class Palette {
    /** Tungsten, between, daylight (common practice). */
    private static final double[] BALANCES = {3200, 4300, 5600};

    private final List<CameraSettings> cameras;
    private final List<List<List<Tried>>> tried;
    private final List<float[]> house;
    private final float[][][][] brings;

    private Palette(
            List<CameraSettings> cameras,
            List<List<List<Tried>>> tried,
            List<float[]> house,
            float[][][][] brings) {
        this.cameras = cameras;
        this.tried = tried;
        this.house = house;
        this.brings = brings;
    }

    /**
     * Works out what there is.
     *
     * @param base settings of the camera that are kept; its own white balance takes the place of
     *     the nearest usual one
     */
    static Palette of(ShootPlan plan, CameraSettings base, RigSamples samples) {
        List<CameraSettings> cameras = cameras(base);
        List<List<List<Tried>>> tried = new ArrayList<>();
        List<float[]> house = new ArrayList<>();
        float[][][][] brings = new float[cameras.size()][plan.rig().size()][][];
        for (int c = 0; c < cameras.size(); c++) {
            house.add(samples.house(cameras.get(c)));
            tried.add(new ArrayList<>());
            for (int l = 0; l < plan.rig().size(); l++) {
                List<Tried> colours = LightColours.of(plan, plan.rig().get(l), cameras.get(c));
                tried.get(c).add(colours);
                brings[c][l] = brings(samples, l, colours, cameras.get(c));
            }
        }
        return new Palette(cameras, tried, house, brings);
    }

    /** The same with one light elsewhere. */
    Palette moved(ShootPlan placed, int light, RigSamples samples) {
        List<List<List<Tried>>> changed = new ArrayList<>();
        float[][][][] bring = brings.clone();
        for (int c = 0; c < cameras.size(); c++) {
            changed.add(new ArrayList<>(tried.get(c)));
            List<Tried> colours =
                    tried.get(c).get(light).stream()
                            .map(t -> LightColours.from(placed.rig().get(light), t))
                            .toList();
            changed.get(c).set(light, colours);
            bring[c] = brings[c].clone();
            bring[c][light] = brings(samples, light, colours, cameras.get(c));
        }
        return new Palette(cameras, changed, house, bring);
    }

    private static float[][] brings(
            RigSamples samples, int light, List<Tried> colours, CameraSettings camera) {
        return colours.stream()
                .map(t -> samples.light(light, t.levels(), camera))
                .toArray(float[][]::new);
    }

    private static List<CameraSettings> cameras(CameraSettings base) {
        double[] kelvins = BALANCES.clone();
        int nearest = 0;
        for (int i = 1; i < kelvins.length; i++) {
            nearest = away(kelvins[i], base) < away(kelvins[nearest], base) ? i : nearest;
        }
        kelvins[nearest] = base.kelvin();
        return Arrays.stream(kelvins)
                .mapToObj(k -> new CameraSettings(base.fNumber(), base.seconds(), base.iso(), k))
                .toList();
    }

    private static double away(double kelvin, CameraSettings base) {
        return Math.abs(Mired.shift(kelvin, base.kelvin()));
    }

    /** Recipes of what is in it. */
    Recipes recipes() {
        return new Recipes(
                tried.stream()
                        .map(
                                of ->
                                        of.stream()
                                                .map(
                                                        light ->
                                                                light.stream()
                                                                        .mapToInt(Tried::hue)
                                                                        .toArray())
                                                .toArray(int[][]::new))
                        .toArray(int[][][]::new));
    }

    CameraSettings camera(Recipe recipe) {
        return cameras.get(recipe.camera());
    }

    Tried tried(Recipe recipe, int light) {
        return tried.get(recipe.camera()).get(light).get(recipe.colour()[light]);
    }

    float[] brings(Recipe recipe, int light) {
        return brings[recipe.camera()][light][recipe.colour()[light]];
    }

    float[] house(Recipe recipe) {
        return house.get(recipe.camera());
    }
}

package lookstep.server.suggest;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lookstep.server.look.LookLevels;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.Placing;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Surface;
import lookstep.server.suggest.LightColours.Tried;
import lookstep.server.suggest.Passes.Refusal;

/**
 * Recipes exposed, looked at and written as looks. First all of them as sums of what the lights
 * bring; those that are kept once more, as the plan's own arithmetic works them out: with the
 * steps, the least and the most of each light.
 */
final class Candidates {
    /** As far as a light has to reach the people to be measured there. */
    private static final double REACHES_LUX = 1e-3;

    private static final double BEHIND_METRES = 0.2;

    private final ShootPlan plan;
    private final ShootPlan placed;
    private final Map<String, Placing> moved;
    private final RigSamples samples;
    private final Palette palette;
    private final SamplePoints points;
    private final Difference difference;
    private final Faces faces;
    private final Passes.Allowed allowed;
    private final Exposing exposing;
    private final double otherLux;

    /** What all candidates of one shot have in common. */
    record Ground(
            SamplePoints points,
            Difference difference,
            List<Surface> skin,
            Passes.Allowed allowed) {}

    /**
     * A recipe that passed, exposed.
     *
     * @param rough see {@link Difference#rough}
     */
    // An array in a record: written once, handed on.
    @SuppressWarnings("ArrayRecordComponent")
    record Sketch(Recipe recipe, Exposing.Exposed exposed, float[] rough) {}

    /**
     * What passed.
     *
     * @param refused how many did not, by why
     */
    record Sketched(List<Sketch> kept, int looked, Map<Refusal, Integer> refused) {}

    /** A look as it will come out. */
    // Arrays in a record: written once, handed on.
    @SuppressWarnings("ArrayRecordComponent")
    record Worked(Look look, LookLevels levels, Passes passes, float[] rgb, float[] point) {}

    /**
     * @param moved lights that stand elsewhere than the plan's rig has them, which samples and
     *     palette take into account
     */
    Candidates(
            ShootPlan plan,
            Map<String, Placing> moved,
            CameraSettings base,
            RigSamples samples,
            Palette palette,
            Ground ground) {
        this.plan = plan;
        this.moved = moved;
        this.placed = placed(plan, moved);
        this.samples = samples;
        this.palette = palette;
        this.points = ground.points();
        this.difference = ground.difference();
        this.faces = new Faces(points, ground.skin());
        this.allowed = ground.allowed();
        this.exposing = new Exposing(base.iso());
        double[] most =
                placed.rig().stream()
                        .mapToDouble(
                                l -> LookLevels.range(placed, any(base, l), l.name()).mostLux())
                        .filter(lux -> lux > REACHES_LUX)
                        .sorted()
                        .toArray();
        this.otherLux = most.length == 0 ? 1 : most[most.length / 2];
    }

    static ShootPlan placed(ShootPlan plan, Map<String, Placing> moved) {
        return plan.placed(new Look("", new CameraSettings(1, 1, 1, 5000), 0, "", Map.of(), moved));
    }

    private static Look any(CameraSettings camera, Light light) {
        return new Look("any", camera, 0, light.name(), Map.of());
    }

    /** Looks at all of them. */
    Sketched sketched(List<Recipe> recipes) {
        // On all processors; in the order of the list, so that the same comes out each time.
        List<Looked> all =
                recipes.parallelStream()
                        .flatMap(recipe -> exposed(recipe).stream().map(e -> look(recipe, e)))
                        .toList();
        List<Sketch> kept = new ArrayList<>();
        Map<Refusal, Integer> refused = new EnumMap<>(Refusal.class);
        for (Looked one : all) {
            one.kept().ifPresent(kept::add);
            one.refused().ifPresent(why -> refused.merge(why, 1, Integer::sum));
        }
        return new Sketched(kept, all.size(), refused);
    }

    /** One of the two is there. */
    private record Looked(Optional<Sketch> kept, Optional<Refusal> refused) {}

    private Looked look(Recipe recipe, Exposing.Exposed exposed) {
        float[] rgb = rgb(recipe, exposed);
        Optional<Refusal> refusal = Passes.of(points, faces, rgb).refusal(allowed);
        return new Looked(
                refusal.isPresent()
                        ? Optional.empty()
                        : Optional.of(new Sketch(recipe, exposed, difference.rough(rgb))),
                refusal);
    }

    private List<Exposing.Exposed> exposed(Recipe recipe) {
        float[] alone = sum(recipe, 1);
        float[] house = palette.house(recipe);
        double most = mostLux(recipe);
        List<Exposing.Exposed> all = new ArrayList<>();
        if (faces.any()) {
            all.add(exposing.faces(faces, faces.luminances(house), faces.luminances(alone), most));
        }
        if (!faces.any() || (allowed.silhouettes() && fromBehind(recipe))) {
            double lightest = 0;
            for (int t = 0; t < SamplePoints.WIDE * SamplePoints.HIGH; t++) {
                lightest = Math.max(lightest, Passes.luminance(alone, points.thumbnailAt() + t));
            }
            all.add(exposing.lightest(lightest, most));
        }
        return all;
    }

    private boolean fromBehind(Recipe recipe) {
        for (int l = 0; l < placed.rig().size(); l++) {
            if (recipe.on(l) && placed.rig().get(l).position().y() < BEHIND_METRES) {
                return false;
            }
        }
        return true;
    }

    /** What one that does not reach the people gives is measured by what the others give there. */
    private double most(Tried tried) {
        return tried.mostLux() > REACHES_LUX ? tried.mostLux() : otherLux;
    }

    private double mostLux(Recipe recipe) {
        double most = Double.POSITIVE_INFINITY;
        for (int l = 0; l < placed.rig().size(); l++) {
            if (recipe.on(l)) {
                double times = Math.pow(2, recipe.stops()[l]);
                most = Math.min(most, most(palette.tried(recipe, l)) / times);
            }
        }
        return most;
    }

    /** Of the lights alone, the strongest at so many lux, in the base's exposure. */
    private float[] sum(Recipe recipe, double keyLux) {
        float[] sum = new float[palette.house(recipe).length];
        for (int l = 0; l < placed.rig().size(); l++) {
            if (recipe.on(l)) {
                RigSamples.add(sum, palette.brings(recipe, l), share(recipe, l, keyLux));
            }
        }
        return sum;
    }

    private double share(Recipe recipe, int light, double keyLux) {
        return keyLux * Math.pow(2, recipe.stops()[light]) / most(palette.tried(recipe, light));
    }

    private float[] rgb(Recipe recipe, Exposing.Exposed exposed) {
        float[] rgb = sum(recipe, exposed.keyLux());
        RigSamples.add(rgb, palette.house(recipe), 1);
        float times = (float) exposed.times();
        if (times != 1) {
            for (int i = 0; i < rgb.length; i++) {
                rgb[i] *= times;
            }
        }
        return rgb;
    }

    /** As a plan has it, for now without a name. */
    Look look(Recipe recipe, Exposing.Exposed exposed, double fadeSeconds) {
        CameraSettings of = palette.camera(recipe);
        int key = key(recipe);
        Map<String, Setting> lights = new LinkedHashMap<>();
        for (int l = 0; l < placed.rig().size(); l++) {
            if (recipe.on(l)) {
                Tried tried = palette.tried(recipe, l);
                boolean stops = l != key && tried.mostLux() > REACHES_LUX;
                lights.put(
                        placed.rig().get(l).name(),
                        new Setting(
                                stops
                                        ? new Level.StopsFromKey(
                                                recipe.stops()[l] - (double) recipe.stops()[key])
                                        : new Level.Percent(
                                                percent(share(recipe, l, exposed.keyLux()))),
                                tried.colour()));
            }
        }
        return new Look(
                "",
                new CameraSettings(of.fNumber(), of.seconds(), exposed.iso(), of.kelvin()),
                fadeSeconds,
                placed.rig().get(key).name(),
                lights,
                moved);
    }

    /** The strongest that reaches the people, or the first that is on. */
    private int key(Recipe recipe) {
        int key = -1;
        for (int l = 0; l < placed.rig().size(); l++) {
            if (recipe.on(l)
                    && palette.tried(recipe, l).mostLux() > REACHES_LUX
                    && (key < 0 || recipe.stops()[l] > recipe.stops()[key])) {
                key = l;
            }
        }
        for (int l = 0; key < 0; l++) {
            key = recipe.on(l) ? l : -1;
        }
        return key;
    }

    /** Three figures are more than any slot of 8 bits holds. */
    private static double percent(double share) {
        double percent = Math.min(100, share * 100);
        double digits = percent < 1 ? 1e4 : percent < 10 ? 100 : 10;
        return Math.max(1 / digits, Math.round(percent * digits) / digits);
    }

    /** A look of the plan, or of a recipe, as it will come out. */
    Worked worked(Look look) {
        LookLevels levels = LookLevels.of(plan, look);
        float[] rgb = samples.look(levels.levels(), look.camera());
        return new Worked(look, levels, Passes.of(points, faces, rgb), rgb, difference.point(rgb));
    }
}

package lookstep.server.suggest;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Placing;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.suggest.Candidates.Sketch;
import lookstep.server.suggest.Candidates.Worked;

/**
 * What one light stood elsewhere would add, by the model: all places of all lights are rendered at
 * once, each as a light of its own, and looks of the rig with one of them in place of the light are
 * held against the looks that are suggested already.
 */
final class OneMoved {
    private static final int WIDTH = 96;
    private static final int LISTED = 160;

    /** Of each place so many of the best are worked out in full. */
    private static final int WORKED = 6;

    /**
     * One of them.
     *
     * @param adds how far it is from the nearest of the others
     * @param nearest index of that among the looks it was held against
     * @param ciede2000 to the nearest
     */
    record Found(
            String light, OtherPlace place, Worked worked, double adds, int nearest, double ciede2000) {}

    private OneMoved() {}

    /**
     * The best of each light, those that add most first.
     *
     * @param against looks in place, suggested or of the plan
     */
    static List<Found> of(ShootPlan plan, Shot shot, List<Look> against, Options options) {
        List<Light> all = new ArrayList<>(plan.rig());
        List<List<OtherPlace>> places = new ArrayList<>();
        for (Light light : plan.rig()) {
            List<OtherPlace> of = OtherPlace.of(plan, shot, light);
            places.add(of);
            of.forEach(place -> all.add(light.placed(place.placing())));
        }
        ModelledPlates modelled = ModelledPlates.of(plan, shot, all, WIDTH);
        SamplePoints points = new SamplePoints(modelled.cast());
        RigSamples every = RigSamples.of(modelled.plates(), points, all);
        RigSamples rig = every.first(plan.rig().size());
        CameraSettings base = plan.look(shot.look()).camera();
        Palette palette = Palette.of(plan, base, rig);
        Difference difference = new Difference(points, options.directionWeight());
        Candidates.Ground ground =
                new Candidates.Ground(
                        points,
                        difference,
                        Search.skin(plan, shot, points),
                        Passes.Allowed.of(options));
        Candidates still = new Candidates(plan, Map.of(), base, rig, palette, ground);
        List<Worked> known = against.stream().map(still::worked).toList();
        List<Found> found = new ArrayList<>();
        int next = plan.rig().size();
        for (int l = 0; l < plan.rig().size(); l++) {
            Found best = null;
            for (OtherPlace place : places.get(l)) {
                Map<String, Placing> moved = Map.of(plan.rig().get(l).name(), place.placing());
                RigSamples there = rig.with(l, every, next++);
                ShootPlan placed = Candidates.placed(plan, moved);
                Palette colours = palette.moved(placed, l, there);
                Candidates candidates =
                        new Candidates(plan, moved, base, there, colours, ground);
                Found one = best(candidates, colours, l, place, known, difference, options);
                best = one != null && (best == null || one.adds() > best.adds()) ? one : best;
            }
            if (best != null) {
                found.add(best);
            }
        }
        found.sort(Comparator.comparingDouble(Found::adds).reversed());
        return found;
    }

    private static Found best(
            Candidates candidates,
            Palette colours,
            int light,
            OtherPlace place,
            List<Worked> known,
            Difference difference,
            Options options) {
        float[][] points = Search.points(known);
        float[][] rough =
                known.stream().map(k -> difference.rough(k.rgb())).toArray(float[][]::new);
        List<Sketch> kept =
                new ArrayList<>(
                        candidates
                                .sketched(
                                        colours.recipes()
                                                .listed(LISTED, light, options.seed())
                                                .recipes())
                                .kept());
        kept.sort(
                Comparator.comparingDouble((Sketch s) -> nearest(s.rough(), rough).away())
                        .reversed());
        Found best = null;
        for (Sketch s : kept.subList(0, Math.min(WORKED, kept.size()))) {
            Worked w =
                    candidates.worked(
                            candidates.look(s.recipe(), s.exposed(), Search.FADE_SECONDS));
            Near near = nearest(w.point(), points);
            boolean passes = w.passes().refusal(Passes.Allowed.of(options)).isEmpty();
            if (passes && (best == null || near.away() > best.adds())) {
                double deltaE =
                        near.index() < 0
                                ? 0
                                : difference.ciede2000(w.rgb(), known.get(near.index()).rgb());
                best =
                        new Found(
                                w.look().moved().keySet().iterator().next(),
                                place,
                                w,
                                near.away(),
                                near.index(),
                                deltaE);
            }
        }
        return best;
    }

    private record Near(int index, double away) {}

    private static Near nearest(float[] point, float[][] known) {
        int index = -1;
        double away = Double.POSITIVE_INFINITY;
        for (int i = 0; i < known.length; i++) {
            double d = Difference.between(point, known[i]);
            if (d < away) {
                away = d;
                index = i;
            }
        }
        return new Near(index, away);
    }
}

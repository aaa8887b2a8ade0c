package lookstep.server.suggest;

import java.util.ArrayList;
import java.util.Collections;
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
     * @param nearest index of that among the looks it was held against, and after them those found
     *     before
     * @param ciede2000 to the nearest
     */
    record Found(
            String light,
            OtherPlace place,
            Worked worked,
            double adds,
            int nearest,
            double ciede2000) {}

    private OneMoved() {}

    /**
     * As many as are wanted, each with another light moved, one after the other the one that adds
     * most to all before.
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
        List<Tried> found = new ArrayList<>();
        int next = plan.rig().size();
        for (int l = 0; l < plan.rig().size(); l++) {
            for (OtherPlace place : places.get(l)) {
                Map<String, Placing> moved = Map.of(plan.rig().get(l).name(), place.placing());
                RigSamples there = rig.with(l, every, next++);
                ShootPlan placed = Candidates.placed(plan, moved);
                Palette colours = palette.moved(placed, l, there);
                Candidates candidates = new Candidates(plan, moved, base, there, colours, ground);
                for (Worked w : best(candidates, colours, l, known, difference, options)) {
                    found.add(new Tried(plan.rig().get(l).name(), place, w));
                }
            }
        }
        return chosen(found, known, difference, options.moves());
    }

    private record Tried(String light, OtherPlace place, Worked worked) {}

    private static List<Found> chosen(
            List<Tried> tried, List<Worked> known, Difference difference, int most) {
        List<Worked> before = new ArrayList<>(known);
        List<Tried> left = new ArrayList<>(tried);
        List<Found> chosen = new ArrayList<>();
        while (chosen.size() < most && !left.isEmpty()) {
            float[][] points = Search.points(before);
            Tried best =
                    Collections.max(
                            left,
                            Comparator.comparingDouble(
                                    t -> nearest(t.worked().point(), points).away()));
            Near near = nearest(best.worked().point(), points);
            double deltaE =
                    near.index() < 0
                            ? 0
                            : difference.ciede2000(
                                    best.worked().rgb(), before.get(near.index()).rgb());
            chosen.add(
                    new Found(
                            best.light(),
                            best.place(),
                            best.worked(),
                            near.away(),
                            near.index(),
                            deltaE));
            before.add(best.worked());
            left.removeIf(t -> t.light().equals(best.light()));
        }
        return chosen;
    }

    /** Looks with the light on, those that are farthest from what is known. */
    private static List<Worked> best(
            Candidates candidates,
            Palette colours,
            int light,
            List<Worked> known,
            Difference difference,
            Options options) {
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
        return kept.stream()
                .limit(WORKED)
                .map(s -> candidates.look(s.recipe(), s.exposed(), Search.FADE_SECONDS))
                .map(candidates::worked)
                .filter(w -> w.passes().refusal(Passes.Allowed.of(options)).isEmpty())
                .toList();
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

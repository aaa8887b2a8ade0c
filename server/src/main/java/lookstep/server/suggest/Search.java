package lookstep.server.suggest;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import lookstep.server.plan.Look;
import lookstep.server.plan.Person;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.Surface;
import lookstep.server.suggest.Candidates.Sketch;
import lookstep.server.suggest.Candidates.Sketched;
import lookstep.server.suggest.Candidates.Worked;
import lookstep.server.suggest.Passes.Refusal;
import lookstep.simulator.model.plates.Cast;
import lookstep.simulator.model.plates.LinearPlates;

/**
 * From plates to the looks that are compared.
 *
 * @param compared looks that pass, as they will come out
 * @param seeds the plan's own looks, to differ from; may not pass
 * @param distances between those compared, and from them to the seeds
 * @param listed what recipes there were
 * @param looked at so many
 * @param passed so many of them
 * @param refused the others, by why
 */
record Search(
        Candidates candidates,
        Difference difference,
        List<Worked> compared,
        List<Worked> seeds,
        Distances distances,
        Recipes.Listed listed,
        int looked,
        int passed,
        Map<Refusal, Integer> refused) {
    /** With more lights there is more to choose from, and more time is taken. */
    private static final int FEW_LIGHTS = 4;

    private static final int FEW_LISTED = 6000;
    private static final int MANY_LISTED = 20_000;
    private static final int FEW_COMPARED = 900;
    private static final int MANY_COMPARED = 1800;

    /** So many of those compared are as far apart as can be; the others are drawn. */
    private static final int FARTHEST = 300;

    static final double FADE_SECONDS = 0.7;

    static Search of(LinearPlates plates, Cast cast, ShootPlan plan, Shot shot, Options options) {
        SamplePoints points = new SamplePoints(cast);
        RigSamples samples = RigSamples.of(plates, points, plan.rig());
        Difference difference = new Difference(points, options.directionWeight());
        Passes.Allowed allowed = Passes.Allowed.of(options);
        Look base = plan.look(shot.look());
        Palette palette = Palette.of(plan, base.camera(), samples);
        Candidates.Ground ground =
                new Candidates.Ground(points, difference, skin(plan, shot, points), allowed);
        Candidates candidates =
                new Candidates(plan, Map.of(), base.camera(), samples, palette, ground);
        boolean few = plan.rig().size() <= FEW_LIGHTS;
        int most = options.listed() > 0 ? options.listed() : few ? FEW_LISTED : MANY_LISTED;
        Recipes.Listed listed = palette.recipes().listed(most, -1, options.seed());
        Sketched sketched = candidates.sketched(listed.recipes());
        Map<Refusal, Integer> refused = new EnumMap<>(Refusal.class);
        refused.putAll(sketched.refused());
        List<Worked> compared = new ArrayList<>();
        int lost = 0;
        List<Worked> workedOut =
                thinned(sketched.kept(), few ? FEW_COMPARED : MANY_COMPARED, options.seed())
                        .parallelStream()
                        .map(
                                s ->
                                        candidates.worked(
                                                candidates.look(
                                                        s.recipe(), s.exposed(), FADE_SECONDS)))
                        .toList();
        for (Worked w : workedOut) {
            if (w.passes().refusal(allowed).isPresent()) {
                // The steps of a slot can take it past a limit.
                refused.merge(w.passes().refusal(allowed).get(), 1, Integer::sum);
                lost++;
            } else {
                compared.add(w);
            }
        }
        List<Worked> own =
                plan.looks().stream()
                        .filter(l -> l.moved().isEmpty())
                        .map(candidates::worked)
                        .toList();
        if (!options.apartFromPlan()) {
            own.stream().filter(w -> w.passes().refusal(allowed).isEmpty()).forEach(compared::add);
        }
        List<Worked> seeds = options.apartFromPlan() ? own : List.of();
        return new Search(
                candidates,
                difference,
                compared,
                seeds,
                Distances.of(points(compared), points(seeds)),
                listed,
                sketched.looked(),
                sketched.kept().size() - lost,
                Collections.unmodifiableMap(refused));
    }

    static float[][] points(List<Worked> of) {
        return of.stream().map(Worked::point).toArray(float[][]::new);
    }

    /** Everybody's, in the order of the shot. */
    static List<Surface> skin(ShootPlan plan, Shot shot, SamplePoints points) {
        if (points.people() > shot.people().size()) {
            throw new IllegalArgumentException(
                    "plates with %d people for a shot of %d; take plates of this shot"
                            .formatted(points.people(), shot.people().size()));
        }
        return shot.people().stream().map(plan::person).map(Person::skin).toList();
    }

    /** At most so many: some that are far apart, and others by the seed. */
    private static List<Sketch> thinned(List<Sketch> all, int most, long seed) {
        if (all.size() <= most) {
            return all;
        }
        boolean[] taken = new boolean[all.size()];
        double[] near = new double[all.size()];
        java.util.Arrays.fill(near, Double.POSITIVE_INFINITY);
        List<Sketch> kept = new ArrayList<>();
        for (int next = 0; kept.size() < Math.min(most, FARTHEST); ) {
            taken[next] = true;
            kept.add(all.get(next));
            int farthest = 0;
            for (int i = 0; i < near.length; i++) {
                near[i] =
                        Math.min(
                                near[i],
                                Difference.between(all.get(i).rough(), all.get(next).rough()));
                farthest = near[i] > near[farthest] ? i : farthest;
            }
            next = farthest;
        }
        List<Integer> rest = new ArrayList<>();
        for (int i = 0; i < taken.length; i++) {
            if (!taken[i]) {
                rest.add(i);
            }
        }
        Collections.shuffle(rest, new Random(seed));
        rest.subList(0, Math.max(0, Math.min(rest.size(), most - kept.size())))
                .forEach(i -> kept.add(all.get(i)));
        return kept;
    }
}

package lookstep.server.suggest;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.suggest.Candidates.Worked;

/**
 * How quick suggestions for 4 and 8 lights are, beside a plain loop in the same run, how much
 * farther apart they are than sets drawn by chance, and how far from the bound they can be.
 */
public final class SuggestBench {
    private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();
    private static final int COUNT = 6;
    private static final int RUNS = 5;
    private static final int SETS = 1000;

    private SuggestBench() {}

    public static void main(String[] args) {
        run();
    }

    /** Prints it. */
    public static void run() {
        System.out.printf("%n%d looks suggested, and two with a light moved%n", COUNT);
        of("4 lights", Rigs.four());
        of("8 lights", Rigs.eight());
    }

    private static void of(String what, ShootPlan plan) {
        Shot shot = plan.shots().get(0);
        List<Double> wall = new ArrayList<>();
        List<Double> own = new ArrayList<>();
        List<Double> inPlace = new ArrayList<>();
        for (int i = 0; i < RUNS; i++) {
            long began = System.nanoTime();
            long cpu = THREADS.getCurrentThreadCpuTime();
            Suggestions.modelled(plan, shot, Options.usual(COUNT));
            wall.add((System.nanoTime() - began) / 1e9);
            own.add((THREADS.getCurrentThreadCpuTime() - cpu) / 1e9);
            cpu = THREADS.getCurrentThreadCpuTime();
            Suggestions.modelled(plan, shot, Options.usual(COUNT).inPlace());
            inPlace.add((THREADS.getCurrentThreadCpuTime() - cpu) / 1e9);
        }
        System.out.printf(
                Locale.ROOT,
                "  %s: first call %.2f s (%.2f s of a processor); median of %d %.2f s (%.2f s of a"
                        + " processor; without moves %.2f s)%n",
                what,
                wall.get(0),
                own.get(0),
                RUNS,
                median(wall),
                median(own),
                median(inPlace));
        Search search = Rigs.search(plan, Options.usual(COUNT));
        plain(search, plan, shot);
        Spread spread = Spread.of(search.distances(), COUNT, Spread.USUAL_EFFORT);
        chance(search, spread);
    }

    /** Every look worked out as the plan does it, at all samples, no sketches. */
    private static void plain(Search search, ShootPlan plan, Shot shot) {
        ModelledPlates modelled = ModelledPlates.of(plan, shot);
        Options options = Options.usual(COUNT);
        SamplePoints points = new SamplePoints(modelled.cast());
        RigSamples samples = RigSamples.of(modelled.plates(), points, plan.rig());
        Palette palette = Palette.of(plan, plan.look(shot.look()).camera(), samples);
        Candidates candidates =
                new Candidates(
                        plan,
                        java.util.Map.of(),
                        plan.look(shot.look()).camera(),
                        samples,
                        palette,
                        new Candidates.Ground(
                                points,
                                search.difference(),
                                Search.skin(plan, shot, points),
                                Passes.Allowed.of(options)));
        List<Candidates.Sketch> all = candidates.sketched(search.listed().recipes()).kept();
        int some = Math.min(500, all.size());
        long cpu = THREADS.getCurrentThreadCpuTime();
        double sum = 0;
        for (Candidates.Sketch s : all.subList(0, some)) {
            Worked w = candidates.worked(candidates.look(s.recipe(), s.exposed(), 0.7));
            double[] weights = new double[modelled.plates().emitters()];
            int at = 0;
            for (int l = 0; l < plan.rig().size(); l++) {
                for (double level : w.levels().levels().of(l)) {
                    weights[at++] = level;
                }
            }
            float[] picture =
                    modelled.plates()
                            .mix(
                                    1,
                                    weights,
                                    1
                                            / lookstep.server.look.LookLevels.meteredLux(
                                                    w.look().camera()),
                                    w.look().camera().kelvin());
            sum += Difference.between(w.point(), search.difference().point(points.of(picture)));
        }
        double each = (THREADS.getCurrentThreadCpuTime() - cpu) / 1e9 / some;
        System.out.printf(
                Locale.ROOT,
                "    a plain loop, each look mixed whole: %.2f ms a look, so %.1f s of a processor"
                        + " for the %d listed (mean difference to the samples' %.1e)%n",
                each * 1e3,
                each * search.listed().recipes().size(),
                search.listed().recipes().size(),
                sum / some);
    }

    private static void chance(Search search, Spread spread) {
        Random random = new Random(1);
        double[] least = new double[SETS];
        double mean = 0;
        for (int i = 0; i < SETS; i++) {
            List<Integer> set = new ArrayList<>();
            while (set.size() < COUNT) {
                int one = random.nextInt(search.compared().size());
                if (!set.contains(one)) {
                    set.add(one);
                }
            }
            least[i] = Spread.least(search.distances(), set);
            mean += Spread.mean(search.distances(), set) / SETS;
        }
        Arrays.sort(least);
        System.out.printf(
                Locale.ROOT,
                "    least difference %.3f (bound %.3f%s), mean %.3f; %d sets by chance: least %.3f"
                        + " in the median, %.3f the best, mean %.3f; listed %d, passed %d, compared"
                        + " %d%n",
                spread.least(),
                spread.bound(),
                spread.proven() ? ", proven" : "",
                spread.mean(),
                SETS,
                least[SETS / 2],
                least[SETS - 1],
                mean,
                search.listed().recipes().size(),
                search.passed(),
                search.compared().size());
    }

    private static double median(List<Double> values) {
        return values.stream().sorted().toList().get(values.size() / 2);
    }
}

package lookstep.server.suggest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Colour.Temperature;
import lookstep.server.plan.Look.Level.Percent;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.ShootPlan;
import lookstep.server.suggest.Candidates.Worked;
import org.junit.jupiter.api.Test;

class DifferenceTest {
    private static Look leftRight(ShootPlan plan, double left, double right) {
        Map<String, Setting> lights = new LinkedHashMap<>();
        lights.put("left", new Setting(new Percent(left), new Temperature(4300)));
        lights.put("right", new Setting(new Percent(right), new Temperature(4300)));
        return new Look("", plan.looks().get(0).camera(), 0, "left", lights);
    }

    /** Spearman's rank correlation. */
    private static double rankCorrelation(List<Double> one, List<Double> other) {
        double[] a = ranks(one);
        double[] b = ranks(other);
        double n = a.length;
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += (a[i] - b[i]) * (a[i] - b[i]);
        }
        return 1 - 6 * sum / (n * (n * n - 1));
    }

    private static double[] ranks(List<Double> values) {
        double[] ranks = new double[values.size()];
        List<Integer> order =
                IntStream.range(0, values.size())
                        .boxed()
                        .sorted(Comparator.comparing(values::get))
                        .toList();
        for (int r = 0; r < ranks.length; r++) {
            ranks[order.get(r)] = r;
        }
        return ranks;
    }

    @Test
    void withoutDirectionItRanksAsTheMeanCiede2000Does() {
        Search search =
                Rigs.search(Rigs.four(), Options.usual(4).freely().weighing(0).listing(1200, 3));
        List<Double> own = new ArrayList<>();
        List<Double> ciede = new ArrayList<>();
        Random random = new Random(5);
        for (int i = 0; i < 400; i++) {
            Worked a = search.compared().get(random.nextInt(search.compared().size()));
            Worked b = search.compared().get(random.nextInt(search.compared().size()));
            own.add(Difference.between(a.point(), b.point()));
            ciede.add(search.difference().ciede2000(a.rgb(), b.rgb()));
        }
        double correlation = rankCorrelation(own, ciede);
        assertTrue(correlation > 0.88, "rank correlation " + correlation);
    }

    @Test
    void theMirroredLightIsFarOnlyByItsDirection() {
        ShootPlan plan = Rigs.two();
        Search with = Rigs.search(plan, Options.usual(2).listing(60, 1));
        Search without = Rigs.search(plan, Options.usual(2).weighing(0).listing(60, 1));
        Look left = leftRight(plan, 80, 5);
        Look right = leftRight(plan, 5, 80);
        double far =
                Difference.between(
                        with.candidates().worked(left).point(),
                        with.candidates().worked(right).point());
        double near =
                Difference.between(
                        without.candidates().worked(left).point(),
                        without.candidates().worked(right).point());
        assertTrue(far > 1.5 * near, far + " with, " + near + " without");
        assertTrue(far > 0.1, "mirrored light is " + far + " away");
    }

    @Test
    void itIsAMetric() {
        Search search = Rigs.search(Rigs.two(), Options.usual(3).listing(200, 1));
        List<Worked> all = search.compared();
        Random random = new Random(2);
        for (int i = 0; i < 500; i++) {
            float[] a = all.get(random.nextInt(all.size())).point();
            float[] b = all.get(random.nextInt(all.size())).point();
            float[] c = all.get(random.nextInt(all.size())).point();
            double ab = Difference.between(a, b);
            assertEquals(ab, Difference.between(b, a), 0);
            assertEquals(0, Difference.between(a, a), 0);
            assertTrue(ab <= Difference.between(a, c) + Difference.between(c, b) + 1e-9);
        }
    }

    @Test
    void allDistancesAtOnceAreThoseOneByOne() {
        Search search = Rigs.search(Rigs.two(), Options.usual(3).listing(200, 1));
        float[][] points = Search.points(search.compared());
        for (int i = 0; i < points.length; i += 7) {
            for (int j = 0; j < points.length; j += 5) {
                assertEquals(
                        Difference.between(points[i], points[j]),
                        search.distances().between(i, j),
                        1e-5);
            }
        }
        assertTrue(points.length > 60, "compared " + points.length);
    }
}

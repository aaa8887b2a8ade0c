package lookstep.server.suggest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SpreadTest {
    private static float[][] random(int points, int dimensions, long seed) {
        Random random = new Random(seed);
        float[][] all = new float[points][dimensions];
        for (float[] point : all) {
            for (int d = 0; d < dimensions; d++) {
                point[d] = random.nextFloat();
            }
        }
        return all;
    }

    /** Every subset tried. */
    private static double bruteForce(Distances d, int k, int from, List<Integer> chosen) {
        if (chosen.size() == k) {
            return Spread.least(d, chosen);
        }
        double best = 0;
        for (int i = from; i < d.size(); i++) {
            chosen.add(i);
            best = Math.max(best, bruteForce(d, k, i + 1, chosen));
            chosen.remove(chosen.size() - 1);
        }
        return best;
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void theBestOfAllSubsetsIsFoundAndProven(long seed) {
        for (int k = 2; k <= 5; k++) {
            for (int fixed : new int[] {0, 2}) {
                Distances d = Distances.of(random(18, 3, seed), random(fixed, 3, seed + 100));
                Spread spread = Spread.of(d, k, Spread.USUAL_EFFORT);
                double best = bruteForce(d, k, 0, new ArrayList<>());
                assertEquals(best, spread.least(), 0, k + " of 18, " + fixed + " fixed");
                assertTrue(spread.proven());
                assertEquals(best, spread.bound(), 0);
                assertEquals(best, Spread.least(d, spread.chosen()), 0);
            }
        }
    }

    /** Ravi, Rosenkrantz and Tayi 1994: and the bound holds whatever was found. */
    @ParameterizedTest
    @ValueSource(longs = {11, 12, 13, 14})
    void withoutProofItIsAtLeastHalfTheBestAndTheBoundHolds(long seed) {
        Distances d = Distances.of(random(20, 4, seed), new float[0][]);
        double best = bruteForce(d, 5, 0, new ArrayList<>());
        Spread quick = Spread.of(d, 5, 0);
        assertTrue(quick.least() >= best / 2, quick.least() + " of " + best);
        assertTrue(quick.bound() >= best, quick.bound() + " under " + best);
        Spread little = Spread.of(d, 5, 8);
        assertTrue(little.bound() >= best, little.bound() + " under " + best);
        assertTrue(little.least() <= best);
    }

    @Test
    void ofEqualsTheOneWithTheGreaterMeanIsTaken() {
        // Two at the ends of a line, one between, and two places beside it at equal distance.
        float[][] points = {{0, 0}, {10, 0}, {5, 0}, {5, 3}, {5, -3}};
        Distances d = Distances.of(points, new float[0][]);
        Spread three = Spread.of(d, 3, Spread.USUAL_EFFORT);
        assertEquals(Math.hypot(5, 3), three.least(), 1e-5);
        assertEquals((10 + 2 * Math.hypot(5, 3)) / 3, three.mean(), 1e-5);
    }

    @Test
    void fixedPointsAreKeptAwayFrom() {
        float[][] points = {{0}, {1}, {2}, {9}, {10}};
        Distances d = Distances.of(points, new float[][] {{0}});
        Spread two = Spread.of(d, 2, Spread.USUAL_EFFORT);
        assertEquals(2, two.least(), 1e-6);
        assertTrue(two.chosen().contains(2), two.toString());
    }

    @Test
    void fewPointsAreAllTaken() {
        Distances d = Distances.of(random(3, 2, 1), new float[0][]);
        assertEquals(List.of(0, 1, 2), Spread.of(d, 5, 1000).chosen());
        assertEquals(
                0, Spread.of(Distances.of(new float[0][], new float[0][]), 5, 10).chosen().size());
    }

    @Test
    void suggestedLooksAreFartherApartThanAnyDrawnByChance() {
        Search search = Rigs.search(Rigs.four(), Options.usual(5).listing(1500, 1));
        Spread spread = Spread.of(search.distances(), 5, Spread.USUAL_EFFORT);
        Random random = new Random(1);
        double bestLeast = 0;
        double mean = 0;
        for (int i = 0; i < 500; i++) {
            List<Integer> set = new ArrayList<>();
            while (set.size() < 5) {
                int one = random.nextInt(search.compared().size());
                if (!set.contains(one)) {
                    set.add(one);
                }
            }
            bestLeast = Math.max(bestLeast, Spread.least(search.distances(), set));
            mean += Spread.mean(search.distances(), set) / 500;
        }
        assertTrue(spread.least() > 1.2 * bestLeast);
        assertTrue(spread.mean() > 1.2 * mean);
        assertTrue(spread.bound() >= spread.least());
    }
}

package lookstep.server.order;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.stream.IntStream;
import lookstep.server.order.RandomShoots.ItemBuilder;
import org.junit.jupiter.api.Test;

/** Against the proven best of plans that are small enough to know it. */
class UpperBoundTest {
    private static final String[] ROOMS = {"hall", "stairs", "roof"};

    private static Stops stops(long seed, int shots, boolean safeFirst, boolean likenessByChance) {
        List<Item> items = new RandomShoots(seed).plan(shots);
        List<Integer> safe =
                IntStream.range(0, shots).filter(i -> items.get(i).safe()).boxed().toList();
        Variety variety = Variety.of(items);
        if (likenessByChance) {
            Random random = new Random(seed);
            double[][] likeness = new double[shots][shots];
            for (int i = 0; i < shots; i++) {
                for (int j = 0; j < i; j++) {
                    likeness[i][j] = likeness[j][i] = random.nextDouble();
                }
            }
            variety = Variety.given(items.stream().map(Item::id).toList(), likeness);
        }
        return Stops.of(
                Situation.fresh(items),
                IntStream.range(0, shots).boxed().toList(),
                safeFirst ? safe : List.of(),
                "",
                Times.USUAL,
                variety);
    }

    @Test
    void nothingIsWorthMoreThanAnyOfTheBounds() {
        double sum = 0;
        int cases = 48;
        for (int seed = 0; seed < cases; seed++) {
            Stops stops = stops(seed, 9 + seed % 6, seed % 3 > 0, seed % 2 > 0);
            int window = 40_000 + 5_000 * seed;
            int[] best = SubsetSearch.best(stops, window);
            long value = stops.value(best);
            // what was found may be bad: the bound has to hold all the same
            int[] found = seed % 12 == 0 ? new int[] {best.length > 0 ? best[0] : 0} : best;
            if (best.length == 0) {
                continue;
            }
            OptionalDouble bound = UpperBound.of(stops, window, found);
            assertTrue(bound.getAsDouble() >= value, "seed " + seed);
            assertTrue(1000 * TreeBound.of(stops, window, found) >= value - 1e-3, "seed " + seed);
            double[] none = new double[stops.units()];
            Relaxed walk = Relaxed.of(stops, window);
            walk.price(none, new double[stops.left().size()]);
            assertTrue(walk.bound() >= value - 1e-6, "seed " + seed);
            Remembering.Found remembering =
                    new Remembering(stops, window).search(walk, 0, 1_000_000);
            assertTrue(remembering.complete(), "seed " + seed);
            assertTrue(remembering.value() >= value - 1e-6, "seed " + seed);
            sum += seed % 12 == 0 ? 0 : bound.getAsDouble() / value - 1;
        }
        assertTrue(sum / cases < 0.02, "on average " + sum / cases + " above the best");
    }

    /** What is far away costs the way there and back, also if much else is left out. */
    @Test
    void roomsCostTheWayIntoThem() {
        double sum = 0;
        int cases = 24;
        for (int seed = 0; seed < cases; seed++) {
            Random random = new Random(seed);
            List<Item> items =
                    new RandomShoots(seed)
                            .plan(14).stream()
                                    .map(
                                            i ->
                                                    i.group().isEmpty()
                                                            ? ItemBuilder.of(i)
                                                                    .room(ROOMS[random.nextInt(3)])
                                                                    .build()
                                                            : i)
                                    .toList();
            Stops stops =
                    Stops.of(
                            Situation.fresh(items),
                            IntStream.range(0, 14).boxed().toList(),
                            IntStream.range(0, 14)
                                    .filter(i -> items.get(i).safe())
                                    .boxed()
                                    .toList(),
                            "",
                            Times.USUAL,
                            Variety.of(items));
            int window = 100_000 + 10_000 * seed;
            int[] best = SubsetSearch.best(stops, window);
            long value = stops.value(best);
            double bound = 1000 * TreeBound.of(stops, window, best);
            assertTrue(bound >= value - 1e-3, "seed " + seed);
            sum += bound / value - 1;
        }
        assertTrue(sum / cases < 0.02, "on average " + sum / cases + " above the best");
    }
}

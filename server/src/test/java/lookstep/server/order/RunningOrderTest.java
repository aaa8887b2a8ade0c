package lookstep.server.order;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import lookstep.server.order.RandomShoots.ItemBuilder;
import org.junit.jupiter.api.Test;

class RunningOrderTest {
    private static final int CASES = 600;

    private static List<Item> itemsOf(Order order, Situation situation) {
        Map<String, Item> byId =
                situation.left().stream().collect(Collectors.toMap(Item::id, Function.identity()));
        return order.ids().stream().map(byId::get).toList();
    }

    /** Up to 8 shots left, groups, rounds, windows too small, shots in the bag. */
    @Test
    void theBestOfFewShotsIsTheBestOfAllOrders() {
        int cut = 0;
        int tooSmall = 0;
        for (int seed = 0; seed < CASES; seed++) {
            RandomShoots chance = new RandomShoots(seed);
            Situation situation = chance.small(2 + seed % 7);
            double window = chance.window(5, 150);
            Variety variety = varietyOf(situation);
            Order order = RunningOrder.best(situation, window, Times.USUAL, variety, Effort.QUICK);
            EveryOrder every = new EveryOrder(situation, window, Times.USUAL, variety);
            List<Item> made = itemsOf(order, situation);
            assertTrue(order.exact(), "seed " + seed);
            if (!order.fits()) {
                tooSmall++;
                assertEquals(-1, every.bestValue(), "seed " + seed);
                assertTrue(made.size() == 1 && made.get(0).safe(), "seed " + seed);
                continue;
            }
            cut += made.size() < situation.left().size() ? 1 : 0;
            assertTrue(every.allowed(made), "seed " + seed + ": " + order.ids());
            assertEquals(every.bestValue(), order.value(), 1e-6, "seed " + seed);
            assertEquals(every.value(made), order.value(), 1e-6, "seed " + seed);
            assertEquals(every.leastLateness(made), every.lateness(made), 1e-6, "seed " + seed);
            assertTrue(order.seconds() <= window, "seed " + seed);
        }
        assertTrue(cut > CASES / 4, cut + " cases had to leave something out");
        assertTrue(tooSmall > 10, tooSmall + " windows were too small");
    }

    /** Times that are no whole seconds, and likeness by chance. */
    @Test
    void theBestIsTheBestWithAnyTimesAndLikeness() {
        for (int seed = 0; seed < 200; seed++) {
            RandomShoots chance = new RandomShoots(1000 + seed);
            Situation situation = chance.small(6);
            int n = situation.left().size() + situation.made().size();
            double[][] likeness = new double[n][n];
            for (int i = 0; i < n; i++) {
                for (int j = 0; j < i; j++) {
                    likeness[i][j] = likeness[j][i] = chance.random().nextDouble();
                }
            }
            Variety variety = Variety.given(all(situation).map(Item::id).toList(), likeness);
            Times times = new Times(1.37, 2.2, 3.33, 0.7, 5.01, 4.4, 9.99, 31.1, 0.37);
            double window = chance.window(10, 120);
            Order order = RunningOrder.best(situation, window, times, variety, Effort.QUICK);
            EveryOrder every = new EveryOrder(situation, window, times, variety);
            if (order.fits()) {
                assertEquals(every.bestValue(), order.value(), 1e-6, "seed " + seed);
                List<Item> made = itemsOf(order, situation);
                assertEquals(every.leastLateness(made), every.lateness(made), 1e-6, "seed " + seed);
            } else {
                assertEquals(-1, every.bestValue(), "seed " + seed);
            }
        }
    }

    private static Stream<Item> all(Situation situation) {
        return Stream.concat(situation.left().stream(), situation.made().stream());
    }

    private static Variety varietyOf(Situation situation) {
        return Variety.of(all(situation).toList());
    }

    /** But where the safe shot is of a group: as soon as that fits, it has to be made. */
    @Test
    void aLongerWindowIsNeverWorthLess() {
        for (int seed = 0; seed < 60; seed++) {
            List<Item> items = new RandomShoots(seed).plan(12);
            if (items.stream().anyMatch(i -> i.safe() && i.group().equals("spread"))) {
                continue;
            }
            double before = 0;
            for (int window = 10; window <= 300; window += 29) {
                Order order =
                        RunningOrder.best(
                                Situation.fresh(items),
                                window,
                                Times.USUAL,
                                Variety.of(items),
                                Effort.QUICK);
                if (order.fits()) {
                    assertTrue(order.value() >= before, "seed " + seed + ", " + window + " s");
                    before = order.value();
                }
            }
            assertTrue(before > 0, "seed " + seed);
        }
    }

    @Test
    void manyShotsKeepTheRules() {
        for (int seed = 0; seed < 40; seed++) {
            RandomShoots chance = new RandomShoots(seed);
            List<Item> items = chance.plan(17 + chance.random().nextInt(44));
            Situation situation = Situation.fresh(items);
            double window = chance.window(20, 900);
            Variety variety = Variety.of(items);
            Order order = RunningOrder.best(situation, window, Times.USUAL, variety, Effort.QUICK);
            List<Item> made = itemsOf(order, situation);
            EveryOrder rules = new EveryOrder(situation, window, Times.USUAL, variety);
            assertTrue(made.get(0).safe(), "seed " + seed);
            assertEquals(made.size(), new HashSet<>(made).size(), "seed " + seed);
            assertEquals(items.size(), made.size() + order.dropped().size(), "seed " + seed);
            if (order.fits()) {
                assertTrue(rules.allowed(made), "seed " + seed + ": " + order.ids());
                assertTrue(order.seconds() <= window, "seed " + seed);
                assertEquals(rules.value(made), order.value(), 1e-6, "seed " + seed);
            }
            assertEquals(
                    order,
                    RunningOrder.best(situation, window, Times.USUAL, variety, Effort.QUICK),
                    "seed " + seed);
        }
    }

    /** What the search for many finds, on plans small enough to know the best. */
    @Test
    void theSearchForManyComesNearTheBestOfFew() {
        int best = 0;
        for (int seed = 0; seed < 100; seed++) {
            RandomShoots chance = new RandomShoots(seed);
            List<Item> items = chance.plan(13);
            int window = Milliseconds.window(chance.window(60, 250));
            Stops stops =
                    Stops.of(
                            Situation.fresh(items),
                            IntStream.range(0, 13).boxed().toList(),
                            List.of(),
                            "",
                            Times.USUAL,
                            Variety.of(items));
            long exact = stops.value(SubsetSearch.best(stops, window));
            int[] found = InsertionSearch.best(stops, window, Effort.QUICK.steps());
            assertTrue(stops.allowed(found) && stops.milliseconds(found) <= window);
            assertTrue(stops.value(found) <= exact, "seed " + seed);
            assertTrue(stops.value(found) >= 0.95 * exact, "seed " + seed);
            best += stops.value(found) == exact ? 1 : 0;
        }
        assertTrue(best >= 90, "the best of 100 was found " + best + " times");
    }

    /** A re-cut of many, beside a search ten times as long. */
    @Test
    void tenTimesTheStepsFindLittleMore() {
        for (int seed = 0; seed < 6; seed++) {
            List<Item> items = new RandomShoots(seed).plan(40);
            Stops stops =
                    Stops.of(
                            Situation.fresh(items),
                            IntStream.range(0, 40).boxed().toList(),
                            List.of(),
                            "",
                            Times.USUAL,
                            Variety.of(items));
            for (int window : List.of(30_000, 60_000, 120_000, 300_000, 600_000)) {
                long steps = Effort.QUICK.steps();
                long quick = stops.value(InsertionSearch.best(stops, window, steps));
                long longer = stops.value(InsertionSearch.best(stops, window, 10 * steps));
                assertTrue(quick >= 0.98 * longer, "seed " + seed + ", " + window + " ms");
            }
        }
    }

    @Test
    void theSafeShotComesEvenIfTheWindowIsTooShort() {
        List<Item> items =
                List.of(
                        ItemBuilder.plain("quick", 10, 3).build(),
                        ItemBuilder.plain("vital", 1, 20).safe().build());
        Order order =
                RunningOrder.best(
                        Situation.fresh(items), 12, Times.USUAL, Variety.of(items), Effort.QUICK);
        assertEquals(List.of("vital"), order.ids());
        assertFalse(order.fits());
        assertEquals("quick", order.dropped().get(0).id());
    }

    /** Ten shots of one look with people who stay: only words and shooting cost time. */
    @Test
    void startsFollowFromChangesAndShots() {
        List<Item> items =
                List.of(
                        ItemBuilder.plain("first", 5, 10).safe().build(),
                        ItemBuilder.plain("second", 5, 6).build());
        Order order =
                RunningOrder.best(
                        Situation.fresh(items), 60, Times.USUAL, Variety.of(items), Effort.QUICK);
        // the look (2 s, the assistant) beside the words (4 s, the photographer): 4 + 0.2 * 2
        assertEquals(4.4, order.legs().get(0).changeSeconds(), 1e-9);
        assertEquals(14.4, order.legs().get(1).startsAtSeconds(), 1e-9);
        // nothing changes: the same look, people, pose and camera
        assertEquals(List.of(), order.legs().get(1).change().kinds());
        assertEquals(20.4, order.seconds(), 1e-9);
        // the same picture twice: the second adds half of its importance
        assertEquals(10, order.value(), 1e-9);
        assertEquals(10, order.valueOfAll(), 1e-9);
    }
}

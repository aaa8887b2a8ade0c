package lookstep.server.order;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class EarlyMovesTest {
    private static Stops stops(long seed, int shots) {
        List<Item> items = new RandomShoots(seed).plan(shots);
        List<Integer> all = IntStream.range(0, shots).boxed().toList();
        return Stops.of(
                Situation.fresh(items),
                all,
                all.stream().filter(i -> items.get(i).safe()).toList(),
                "",
                Times.USUAL,
                Variety.of(items));
    }

    private static int[] units(Stops stops, int[] row) {
        return Arrays.stream(row).map(stops::unitOf).sorted().toArray();
    }

    @Test
    void whatIsMadeStaysAndIsMadeEarlierWithinTheWindow() {
        double before = 0;
        double after = 0;
        for (int seed = 0; seed < 30; seed++) {
            Stops stops = stops(seed, 30);
            int window = 300_000 + 10_000 * seed;
            int[] found = InsertionSearch.best(stops, window, 300_000);
            // found in the quickest order; with time to spare it may be made in another
            int longer = window + window / 5;
            int[] early = EarlyMoves.of(stops, found, longer);
            assertArrayEquals(units(stops, found), units(stops, early), "seed " + seed);
            assertTrue(stops.allowed(early), "seed " + seed);
            assertTrue(stops.milliseconds(early) <= longer, "seed " + seed);
            assertTrue(stops.lateness(early) <= stops.lateness(found), "seed " + seed);
            before += stops.lateness(found);
            after += stops.lateness(early);
        }
        assertTrue(after < 0.95 * before, "lost " + after / before + " of before");
    }

    /** Few enough that the earliest of all orders is known. */
    @Test
    void movesComeNearTheEarliest() {
        double sum = 0;
        int cases = 30;
        for (int seed = 0; seed < cases; seed++) {
            Stops stops = stops(seed, 30);
            int window = 150_000;
            int[] found = InsertionSearch.best(stops, window, 300_000);
            assertTrue(found.length <= EarlyOrder.MOST_EXACT, "seed " + seed);
            double least = stops.lateness(EarlyOrder.of(stops, found, window));
            double moved = stops.lateness(EarlyMoves.of(stops, found, window));
            assertTrue(moved >= least, "seed " + seed);
            sum += moved / least - 1;
        }
        assertTrue(sum / cases < 0.03, "on average " + sum / cases + " above the least");
    }
}

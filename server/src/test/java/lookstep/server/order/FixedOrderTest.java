package lookstep.server.order;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.Stream;
import lookstep.server.order.RandomShoots.ItemBuilder;
import org.junit.jupiter.api.Test;

class FixedOrderTest {
    @Test
    void whatDoesNotFitFallsOffAtTheEnd() {
        List<Item> items =
                List.of(
                        ItemBuilder.plain("first", 5, 10).safe().build(),
                        ItemBuilder.plain("long", 10, 60).build(),
                        ItemBuilder.plain("short", 3, 5).build());
        FixedOrder written =
                FixedOrder.within(Situation.fresh(items), 30, Times.USUAL, Variety.none(items));
        assertEquals(1, written.fitting());
        // the short one would fit, but not behind the long one
        assertEquals(List.of("long", "short"), written.fallsOff());
        assertEquals(5, written.value(), 1e-9);
        assertEquals(79.4, written.secondsOfAll(), 1e-9);
        assertEquals(74.4, written.legs().get(2).startsAtSeconds(), 1e-9);
    }

    @Test
    void theBestOrderIsWorthNoLessThanTheWrittenOne() {
        for (int seed = 0; seed < 60; seed++) {
            RandomShoots chance = new RandomShoots(seed);
            List<Item> ungrouped =
                    chance.plan(14).stream()
                            .map(i -> ItemBuilder.of(i).group("", false).build())
                            .toList();
            List<Item> items =
                    Stream.concat(
                                    ungrouped.stream().filter(Item::safe),
                                    ungrouped.stream().filter(i -> !i.safe()))
                            .toList();
            Situation situation = Situation.fresh(items);
            double window = chance.window(40, 400);
            Variety variety = Variety.of(items);
            FixedOrder written = FixedOrder.within(situation, window, Times.USUAL, variety);
            Order best = RunningOrder.best(situation, window, Times.USUAL, variety, Effort.QUICK);
            assertTrue(best.value() >= written.value() - 1e-9, "seed " + seed);
            assertEquals(14, written.fitting() + written.fallsOff().size());
        }
    }
}

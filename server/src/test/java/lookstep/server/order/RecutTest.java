package lookstep.server.order;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.server.order.RandomShoots.ItemBuilder;
import org.junit.jupiter.api.Test;

class RecutTest {
    @Test
    void withTooLittleTimeTheSafeShotIsTheOne() {
        List<Item> items =
                List.of(
                        ItemBuilder.plain("quick", 10, 2).build(),
                        ItemBuilder.plain("vital", 1, 30).safe().build());
        Recut recut = Recut.of(Situation.fresh(items), 5, Times.USUAL, Variety.of(items));
        assertEquals(Optional.of("vital"), recut.oneShot());
    }

    /** In the bag it is not asked for again; then it is what adds most for its time. */
    @Test
    void withTheSafeShotInTheBagTheOneIsWhatAddsMostASecond() {
        Item safe = ItemBuilder.plain("vital", 10, 10).safe().build();
        List<Item> left =
                List.of(
                        ItemBuilder.plain("long", 10, 60).build(),
                        ItemBuilder.plain("short", 4, 6).build(),
                        ItemBuilder.plain("pair-1", 10, 6).group("pair", false).build(),
                        ItemBuilder.plain("pair-2", 10, 6).group("pair", false).build());
        List<Item> all = new ArrayList<>(left);
        all.add(safe);
        Situation situation = new Situation(left, List.of(safe), Optional.of(safe));
        Recut recut = Recut.of(situation, 5, Times.USUAL, Variety.of(all));
        assertEquals(List.of(), recut.order().ids());
        assertEquals(Optional.of("short"), recut.oneShot());
        assertEquals(
                Optional.empty(),
                Recut.of(situation, 7, Times.USUAL, Variety.of(all)).oneShot(),
                "the short one fits");
    }

    @Test
    void withNothingLeftThereIsNoShot() {
        Item safe = ItemBuilder.plain("vital", 10, 10).safe().build();
        Situation situation = new Situation(List.of(), List.of(safe), Optional.of(safe));
        Recut recut = Recut.of(situation, 30, Times.USUAL, Variety.of(List.of(safe)));
        assertEquals(Optional.empty(), recut.oneShot());
        assertEquals(List.of(), recut.order().ids());
    }

    @Test
    void aBegunGroupIsFinishedFirst() {
        Item one = ItemBuilder.plain("pair-1", 1, 5).group("pair", false).build();
        List<Item> left =
                List.of(
                        ItemBuilder.plain("great", 10, 5).build(),
                        ItemBuilder.plain("pair-2", 1, 5).group("pair", false).build());
        List<Item> all = List.of(one, left.get(0), left.get(1));
        Situation situation = new Situation(left, List.of(one), Optional.of(one));
        assertEquals(
                List.of("pair-2", "great"),
                Recut.of(situation, 30, Times.USUAL, Variety.of(all)).order().ids());
    }

    @Test
    void aBegunRoundMayBeCutButDoesNotComeBack() {
        Item one = ItemBuilder.plain("solo-1", 1, 5).group("solos", true).build();
        List<Item> left =
                List.of(
                        ItemBuilder.plain("great", 10, 5).build(),
                        ItemBuilder.plain("solo-2", 2, 5).group("solos", true).build(),
                        ItemBuilder.plain("solo-3", 1, 9).group("solos", true).build());
        List<Item> all = new ArrayList<>(left);
        all.add(one);
        Situation situation = new Situation(left, List.of(one), Optional.of(one));
        Variety variety = Variety.none(all);
        assertEquals(List.of("great"), Recut.of(situation, 6, Times.USUAL, variety).order().ids());
        assertEquals(
                List.of("solo-2", "great"),
                Recut.of(situation, 11, Times.USUAL, variety).order().ids());
        assertEquals(
                Optional.of("solo-3"),
                Recut.of(situation, 11, Times.USUAL, variety).order().dropped().stream()
                        .map(Dropped::id)
                        .findFirst());
    }

    /** Shots made one after the other, with the time that is left lost and won at random. */
    @Test
    void shotsInTheBagNeverComeAgain() {
        for (int seed = 0; seed < 25; seed++) {
            RandomShoots chance = new RandomShoots(seed);
            List<Item> items = chance.plan(10 + chance.random().nextInt(25));
            Variety variety = Variety.of(items);
            Situation now = Situation.fresh(items);
            double left = chance.window(60, 600);
            int made = 0;
            while (true) {
                Recut recut = Recut.of(now, left, Times.USUAL, variety);
                List<String> bag = now.made().stream().map(Item::id).toList();
                assertTrue(recut.order().ids().stream().noneMatch(bag::contains), "seed " + seed);
                assertTrue(recut.order().seconds() <= left || !recut.order().fits());
                assertFalse(
                        recut.order().ids().isEmpty()
                                && recut.oneShot().isEmpty()
                                && !now.left().isEmpty());
                if (recut.order().ids().isEmpty() || !recut.order().fits()) {
                    break;
                }
                Leg next = recut.order().legs().get(0);
                Item item =
                        now.left().stream()
                                .filter(i -> i.id().equals(next.id()))
                                .findFirst()
                                .orElseThrow();
                now = now.after(item);
                made++;
                left = Math.max(0, left - next.endsAtSeconds() + chance.window(-15, 5));
            }
            assertTrue(made > 1, "seed " + seed + " made " + made);
        }
    }
}

package lookstep.server.order;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import lookstep.server.order.Change.Part;
import lookstep.server.order.RandomShoots.ItemBuilder;
import org.junit.jupiter.api.Test;

class PaceTest {
    private static final Change WORDS = new Change(List.of(new Part(ChangeKind.WORDS, 4)), 4);
    private static final Change LENS = new Change(List.of(new Part(ChangeKind.LENS, 8)), 8);

    @Test
    void withoutLegsAllGoesAsPlanned() {
        Pace pace = Pace.of(List.of());
        assertEquals(1, pace.shots(), 1e-12);
        assertTrue(pace.changes().values().stream().allMatch(f -> Math.abs(f - 1) < 1e-12));
    }

    /** One leg at twice the time against two that count as planned: 2 to the power of 1/3. */
    @Test
    void oneLegIsPulledTowardsThePlan() {
        Pace pace = Pace.of(List.of(PacedLeg.timed(WORDS, 10, 8, 20)));
        assertEquals(Math.cbrt(2), pace.shots(), 1e-9);
        // all changes: 2^(1/3); words: one leg of 2, two that say 2^(1/3): 2^((1 + 2/3) / 3)
        assertEquals(Math.pow(2, 5.0 / 9), pace.changes().get(ChangeKind.WORDS), 1e-9);
        assertEquals(Math.cbrt(2), pace.changes().get(ChangeKind.LENS), 1e-9);
    }

    @Test
    void oneOddLegCountsNoMoreThanAnyOther() {
        List<PacedLeg> legs = new ArrayList<>();
        for (int i = 0; i < 10; i++) {
            legs.add(PacedLeg.timed(WORDS, 10, 4 * 1.5, 10 * 1.5));
        }
        double before = Pace.of(legs).shots();
        legs.add(PacedLeg.timed(WORDS, 10, 400, 1000));
        double after = Pace.of(legs).shots();
        assertEquals(before, after, 0.02);
        assertEquals(1.5, after, 0.15);
    }

    @Test
    void whatIsSlowIsToldFromWhatIsNot() {
        List<PacedLeg> legs = new ArrayList<>();
        Random random = new Random(5);
        for (int i = 0; i < 30; i++) {
            double noise = Math.exp(0.2 * random.nextGaussian());
            boolean lens = i % 2 == 0;
            legs.add(
                    lens
                            ? PacedLeg.timed(LENS, 10, 8 * 2 * noise, 8 * noise)
                            : PacedLeg.timed(WORDS, 10, 4 * noise, 8 * noise));
        }
        Pace pace = Pace.of(legs);
        assertEquals(2, pace.changes().get(ChangeKind.LENS), 0.25);
        assertEquals(1, pace.changes().get(ChangeKind.WORDS), 0.15);
        assertEquals(0.8, pace.shots(), 0.1);
    }

    @Test
    void theSumAloneSaysTheSameOfBoth() {
        List<PacedLeg> legs = Collections.nCopies(20, PacedLeg.sum(WORDS, 12, 24));
        Pace pace = Pace.of(legs);
        assertEquals(1.45, pace.shots(), 0.05);
        assertTrue(pace.changes().get(ChangeKind.WORDS) > 1.2);
        assertTrue(pace.changes().get(ChangeKind.WORDS) <= 1.5);
    }

    @Test
    void factorsStayWithinReason() {
        Pace slow = Pace.of(Collections.nCopies(200, PacedLeg.timed(WORDS, 1, 400, 400)));
        Pace quick = Pace.of(Collections.nCopies(200, PacedLeg.timed(WORDS, 100, 0, 0)));
        assertEquals(3, slow.shots());
        assertEquals(0.5, quick.shots());
        assertEquals(0.5, quick.changes().get(ChangeKind.WORDS));
    }

    @Test
    void theSequenceOfLegsDoesNotMatter() {
        Random random = new Random(9);
        List<PacedLeg> legs = new ArrayList<>();
        for (int i = 0; i < 15; i++) {
            legs.add(PacedLeg.timed(i % 2 == 0 ? WORDS : LENS, 10, random.nextInt(20), 12));
        }
        Pace one = Pace.of(legs);
        Collections.shuffle(legs, random);
        Pace other = Pace.of(legs);
        assertEquals(one.shots(), other.shots(), 1e-12);
        one.changes().forEach((k, f) -> assertEquals(f, other.changes().get(k), 1e-12));
    }

    @Test
    void aReCutCountsWithThePace() {
        List<Item> items =
                List.of(
                        ItemBuilder.plain("vital", 5, 10).safe().build(),
                        ItemBuilder.plain("other", 5, 10).build());
        Situation situation = Situation.fresh(items);
        Pace pace = Pace.of(Collections.nCopies(50, PacedLeg.timed(WORDS, 10, 8, 20)));
        Recut planned = Recut.of(situation, 30, Times.USUAL, Variety.of(items));
        Recut slow = Recut.of(pace.at(situation), 30, pace.at(Times.USUAL), Variety.of(items));
        assertEquals(2, planned.order().legs().size());
        assertEquals(List.of("vital"), slow.order().ids());
        assertTrue(slow.order().seconds() > 24, "planned 14.4 s, and nearly twice that");
    }

    @Test
    void aLegThatWasNeverPlannedIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> PacedLeg.timed(WORDS, 0, 1, 1));
        assertThrows(IllegalArgumentException.class, () -> PacedLeg.timed(WORDS, 1, -1, 1));
    }
}

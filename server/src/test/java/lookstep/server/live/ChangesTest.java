package lookstep.server.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.Optional;
import lookstep.server.look.Adjustment;
import org.junit.jupiter.api.Test;

class ChangesTest {
    private static final Adjustment SWAPPED = Adjustment.NONE.swap(Map.of());
    private static final Adjustment STEADY = Adjustment.NONE.cameraAt(4300);

    @Test
    void aNudgeHoldsForItsShotAloneAndAKeptOneForTheLook() {
        Changes nudged = Changes.NONE.nudge("a", "look", SWAPPED, "swapped");
        assertEquals(SWAPPED, nudged.of("a", "look"));
        assertEquals(Adjustment.NONE, nudged.of("b", "look"));
        assertTrue(nudged.open("a", "look"));

        Changes kept = nudged.keep("a", "look", "kept");
        assertEquals(SWAPPED, kept.of("a", "look"));
        assertEquals(SWAPPED, kept.of("b", "look"));
        assertEquals(Adjustment.NONE, kept.of("b", "another look"));
        assertFalse(kept.open("a", "look"));
    }

    @Test
    void forgettingGoesBackToTheKeptLookAndThenToThePlan() {
        Changes changes =
                Changes.NONE
                        .nudge("a", "look", SWAPPED, "swapped")
                        .keep("a", "look", "kept")
                        .nudge("a", "look", STEADY, "steady");
        Changes once = changes.forget("a", "look", "forgotten");
        assertEquals(SWAPPED, once.of("a", "look"));
        Changes twice = once.forget("a", "look", "as planned");
        assertEquals(Adjustment.NONE, twice.of("a", "look"));
        assertSame(twice, twice.forget("a", "look", "nothing to forget"));
    }

    @Test
    void everyChangeCanBeTakenBackTheNewestFirst() {
        Changes changes =
                Changes.NONE
                        .nudge("a", "look", SWAPPED, "swapped")
                        .keep("a", "look", "kept")
                        .nudge("b", "look", STEADY, "steady")
                        .forget("b", "look", "forgotten");
        assertEquals(Optional.of("forgotten"), changes.undo().map(Changes.Before::says));
        changes = changes.undone();
        assertEquals(STEADY, changes.of("b", "look"));
        changes = changes.undone();
        assertEquals(SWAPPED, changes.of("b", "look"));
        changes = changes.undone();
        assertEquals(Adjustment.NONE, changes.of("b", "look"));
        assertEquals(SWAPPED, changes.of("a", "look"));
        assertEquals(Changes.NONE, changes.undone());
        assertEquals(Changes.NONE, changes.undone().undone(), "and then there is nothing");
    }

    @Test
    void whatGoesBackToWhereItWasIsNoChangeAndCanStillBeTakenBack() {
        Changes there = Changes.NONE.nudge("a", "look", SWAPPED, "there");
        Changes back = there.nudge("a", "look", Adjustment.NONE, "and back");
        assertFalse(back.open("a", "look"));
        assertTrue(back.undone().open("a", "look"));
        Changes kept = there.keep("a", "look", "kept");
        assertFalse(kept.nudge("a", "look", SWAPPED, "as kept").open("a", "look"));
        assertTrue(kept.nudge("a", "look", Adjustment.NONE, "as planned").open("a", "look"));
    }

    @Test
    void aShotThatTheEditedPlanHasOnAnotherLookIsNotChanged() {
        Changes changes = Changes.NONE.nudge("a", "warm", STEADY, "steady");
        assertEquals(STEADY, changes.of("a", "warm"));
        assertEquals(Adjustment.NONE, changes.of("a", "cold"));
        assertFalse(changes.open("a", "cold"));
    }

    @Test
    void aHundredStepsAreRememberedAndNoMore() {
        Changes changes = Changes.NONE;
        for (int i = 1; i <= 150; i++) {
            changes = changes.nudge("a", "look", Adjustment.NONE.cameraAt(2000 + i), "step " + i);
        }
        for (int i = 150; i > 50; i--) {
            assertEquals(Optional.of("step " + i), changes.undo().map(Changes.Before::says));
            changes = changes.undone();
        }
        assertTrue(changes.undo().isEmpty());
        assertEquals(2050, changes.of("a", "look").cameraKelvin());
    }
}

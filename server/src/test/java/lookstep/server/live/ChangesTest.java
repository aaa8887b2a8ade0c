package lookstep.server.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import lookstep.server.look.Adjustment;
import org.junit.jupiter.api.Test;

class ChangesTest {
    private static final Adjustment SWAPPED = Adjustment.NONE.swap();
    private static final Adjustment STEADY = Adjustment.NONE.cameraAt(4300);

    @Test
    void aNudgeHoldsForItsShotAloneAndAKeptOneForTheLook() {
        Changes nudged = Changes.NONE.nudge("a", SWAPPED, "swapped");
        assertEquals(SWAPPED, nudged.of("a", "look"));
        assertEquals(Adjustment.NONE, nudged.of("b", "look"));
        assertTrue(nudged.open("a"));

        Changes kept = nudged.keep("a", "look", "kept");
        assertEquals(SWAPPED, kept.of("a", "look"));
        assertEquals(SWAPPED, kept.of("b", "look"));
        assertEquals(Adjustment.NONE, kept.of("b", "another look"));
        assertFalse(kept.open("a"));
    }

    @Test
    void forgettingGoesBackToTheKeptLookAndThenToThePlan() {
        Changes changes =
                Changes.NONE
                        .nudge("a", SWAPPED, "swapped")
                        .keep("a", "look", "kept")
                        .nudge("a", STEADY, "steady");
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
                        .nudge("a", SWAPPED, "swapped")
                        .keep("a", "look", "kept")
                        .nudge("b", STEADY, "steady")
                        .forget("b", "look", "forgotten");
        assertEquals(Optional.of("forgotten"), changes.undo());
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
    void keepingAllAsPlannedLeavesNothingInTheLook() {
        Changes changes =
                Changes.NONE
                        .nudge("a", Adjustment.NONE, "back to where it was")
                        .keep("a", "l", "k");
        assertTrue(changes.kept().isEmpty());
        assertFalse(changes.open("a"));
    }

    @Test
    void aHundredStepsAreRememberedAndNoMore() {
        Changes changes = Changes.NONE;
        for (int i = 1; i <= 150; i++) {
            changes = changes.nudge("a", Adjustment.NONE.cameraAt(2000 + i), "step " + i);
        }
        for (int i = 150; i > 50; i--) {
            assertEquals(Optional.of("step " + i), changes.undo());
            changes = changes.undone();
        }
        assertTrue(changes.undo().isEmpty());
        assertEquals(2050, changes.of("a", "l").cameraKelvin());
    }
}

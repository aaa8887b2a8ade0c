package lookstep.server.lighting;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.ArrayList;
import java.util.List;
import lookstep.server.TestPlans;
import lookstep.server.live.Event;
import lookstep.server.live.LiveState;
import lookstep.server.live.NotPossible;
import lookstep.server.live.RigTest;
import lookstep.server.plan.ShootPlan;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WalkingTest {
    /** key: slots 1 to 4; fill: 11 and 12; rim left: 21 to 24; top: 31 to 34. */
    private static final ShootPlan PLAN = TestPlans.threeShots();

    private final Walking walking = new Walking(PLAN);

    private List<RigTest> walk(int by, int steps) {
        List<RigTest> seen = new ArrayList<>();
        LiveState state = LiveState.NEW;
        for (int i = 0; i < steps; i++) {
            state = state.after(walking.on(state, by), 0);
            seen.add(state.test().orElseThrow());
        }
        return seen;
    }

    @Test
    void eachLightAndThenItsSlotsAndFromTheEndToTheBeginning() {
        List<RigTest> all = walk(1, 19);
        assertEquals(
                List.of(
                        new RigTest("key", 1, 0),
                        new RigTest("key", 1, 1),
                        new RigTest("key", 1, 2),
                        new RigTest("key", 1, 3),
                        new RigTest("key", 1, 4),
                        new RigTest("fill", 1, 0),
                        new RigTest("fill", 1, 11)),
                all.subList(0, 7));
        assertEquals(new RigTest("top", 1, 34), all.get(17));
        assertEquals(new RigTest("key", 1, 0), all.get(18));
        assertEquals(List.of(new RigTest("top", 1, 34), new RigTest("top", 1, 33)), walk(-1, 2));
    }

    @Test
    void aSlotOfALightIsKnownAsItsAndAnyOtherCanBeTriedToo() throws NotPossible {
        assertEquals(new Event.Testing(new RigTest("fill", 1, 12)), walking.slot(1, 12));
        assertEquals(new Event.Testing(new RigTest("", 1, 13)), walking.slot(1, 13));
        assertEquals(new Event.Testing(new RigTest("", 2, 12)), walking.slot(2, 12));
    }

    @ParameterizedTest
    @CsvSource({"0, 1", "64000, 1", "1, 0", "1, 513", "-1, -1"})
    void slotsThatAreNoneAreRefused(int universe, int slot) {
        assertThrows(NotPossible.class, () -> walking.slot(universe, slot));
    }

    @Test
    void aTestThatIsNotOnCannotEnd() {
        assertThrows(NotPossible.class, () -> walking.end(LiveState.NEW));
    }
}

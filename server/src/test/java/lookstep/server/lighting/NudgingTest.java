package lookstep.server.lighting;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lookstep.server.TestPlans;
import lookstep.server.live.Event;
import lookstep.server.live.LiveState;
import lookstep.server.live.NotPossible;
import lookstep.server.live.RigTest;
import lookstep.server.look.LightRange;
import lookstep.server.look.LookLevels;
import lookstep.server.look.Nudge;
import lookstep.server.look.Nudge.Power;
import lookstep.server.plan.Light;
import lookstep.server.plan.ShootPlan;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;

class NudgingTest {
    private static final ShootPlan PLAN = TestPlans.threeShots();
    private final Lighting lighting = new Lighting(PLAN);
    private final Nudging nudging = new Nudging(PLAN, lighting);
    private final Light key = PLAN.light("key");
    private final Light fill = PLAN.light("fill");
    private final Light top = PLAN.light("top");

    private static String refused(Executable press) {
        return assertThrows(NotPossible.class, press).getMessage();
    }

    private double lux(LiveState state, String light) {
        return LookLevels.range(PLAN, lighting.shown(state).look(), light).lux();
    }

    @Test
    void aThirdOfAStopAPress() throws Exception {
        LiveState safe = LightingTest.at(1);
        LiveState state = safe;
        for (int i = 0; i < 3; i++) {
            state = state.after(nudging.brighter(state, fill, Nudging.STOPS), 0);
        }
        assertEquals(1, LightRange.stops(lux(safe, "fill"), lux(state, "fill")), 0.06);
        assertEquals(
                List.of("fill 1 stop up"), nudging.changes(lighting.shown(state).adjustment()));
        assertEquals("fill 1/3 stop up", state.changes().undo().orElseThrow().says());
    }

    @Test
    void atItsMostALightSaysSoAndTheLastStepIsAsFarAsItGoes() throws Exception {
        LiveState state = LightingTest.at(1);
        assertTrue(
                refused(() -> nudging.brighter(LightingTest.at(1), key, Nudging.STOPS))
                        .contains("at its most"));
        state = state.after(nudging.brighter(state, key, -0.2), 0);
        Event.Nudged back = (Event.Nudged) nudging.brighter(state, key, Nudging.STOPS);
        assertEquals(0, back.adjustment().of("key").stops(), 0.01, "0.2 of a third");
    }

    /** 8-bit linear: the least is 1/255, 7.99 stops under full (dimming table of 8-bit codes). */
    @Test
    void atItsLeastALightSaysSo() throws Exception {
        LiveState state = LightingTest.at(1);
        int presses = 0;
        while (presses < 40) {
            try {
                state = state.after(nudging.brighter(state, fill, -Nudging.STOPS), 0);
                presses++;
            } catch (NotPossible end) {
                assertTrue(end.getMessage().contains("at its least"), end.getMessage());
                break;
            }
        }
        LightRange range = LookLevels.range(PLAN, lighting.shown(state).look(), "fill");
        assertTrue(presses > 5 && presses < 24, "presses " + presses);
        // each of the two emitters is rounded to a whole code of one or two
        assertEquals(0, LightRange.stops(range.leastLux(), range.lux()), 0.3);
    }

    @Test
    void tenMiredAPressUntilThePanelEnds() throws Exception {
        LiveState state = LightingTest.at(1);
        int presses = 0;
        while (presses < 40) {
            try {
                state = state.after(nudging.warmer(state, fill, Nudging.MIRED), 0);
                presses++;
            } catch (NotPossible end) {
                assertTrue(end.getMessage().contains("at its warmest"), end.getMessage());
                break;
            }
        }
        // From 4300 K (232.6 mired) to the panel's 2700 K (370.4): 137.8 mired.
        assertEquals(14, presses);
    }

    @Test
    void lightsGoOffOneByOneAndOnAgain() throws Exception {
        LiveState state = LightingTest.at(1);
        state = state.after(nudging.power(state, fill, false), 0);
        assertEquals(0, lux(state, "fill"));
        LiveState off = state;
        assertTrue(refused(() -> nudging.power(off, fill, false)).contains("off already"));
        assertTrue(refused(() -> nudging.brighter(off, fill, 1)).contains("switch it on"));
        state = state.after(nudging.power(state, fill, true), 0);
        assertEquals(Nudge.NONE, lighting.shown(state).adjustment().of("fill"));
        state = state.after(nudging.power(state, top, true), 0);
        assertEquals(Power.ON, lighting.shown(state).adjustment().of("top").power());
        assertTrue(lux(state, "top") > 0);
        state = state.after(nudging.power(state, top, false), 0);
        assertEquals(Nudge.NONE, lighting.shown(state).adjustment().of("top"));
    }

    @Test
    void whatCanBePressedIsWhatIsNotRefused() throws Exception {
        LiveState safe = LightingTest.at(1);
        assertEquals(List.of("darker", "warmer", "colder", "off"), nudging.can(safe, key));
        assertEquals(
                List.of("brighter", "darker", "warmer", "colder", "off"), nudging.can(safe, fill));
        assertEquals(List.of("on"), nudging.can(safe, top));
    }

    @Test
    void keptForgottenAndTakenBack() throws Exception {
        LiveState state = LightingTest.at(1);
        LiveState planned = state;
        assertTrue(refused(() -> nudging.keep(planned)).contains("nothing is changed"));
        assertTrue(refused(() -> nudging.forget(planned)).contains("as planned"));
        assertTrue(refused(() -> nudging.undo(planned)).contains("nothing to take back"));

        state = state.after(nudging.brighter(state, fill, Nudging.STOPS), 0);
        state = state.after(nudging.keep(state), 0);
        assertEquals(1.0 / 3, state.changes().kept().get("safe").of("fill").stops(), 1e-6);
        state = state.after(nudging.swap(state), 0);
        state = state.after(nudging.forget(state), 0);
        assertEquals(
                List.of("fill 1/3 stop up"), nudging.changes(lighting.shown(state).adjustment()));
        state = state.after(nudging.forget(state), 0);
        assertEquals(planned.changes().kept(), state.changes().kept());
        state = state.after(nudging.undo(state), 0);
        assertEquals(1.0 / 3, lighting.shown(state).adjustment().of("fill").stops(), 1e-6);
    }

    @Test
    void theCameraStaysAndGoesBack() throws Exception {
        LiveState state = LightingTest.at(2);
        state = state.after(nudging.steady(state, 4300), 0);
        assertEquals(4300, lighting.shown(state).look().camera().kelvin());
        LiveState steady = state;
        assertTrue(refused(() -> nudging.steady(steady, 4300)).contains("4300 K already"));
        state = state.after(nudging.steady(state, 0), 0);
        assertTrue(lighting.shown(state).adjustment().none());
    }

    @Test
    void nothingIsNudgedBeforeTheFirstShotOrInATest() {
        assertTrue(refused(() -> nudging.swap(LiveState.NEW)).contains("work light"));
        LiveState testing =
                LightingTest.at(1).after(new Event.Testing(new RigTest("key", 1, 0)), 0);
        assertTrue(refused(() -> nudging.brighter(testing, fill, 1)).contains("end the test"));
    }

    @Test
    void swappedTwiceOrTurnedOffAfterASwapIsWhatTheWordsSay() throws Exception {
        LiveState state = LightingTest.at(1);
        state = state.after(nudging.power(state, fill, false), 0);
        state = state.after(nudging.swap(state), 0);
        assertEquals(0, lux(state, "key"), "what the fill did, the key does now: it is off");
        assertTrue(lux(state, "fill") > 0);
        state = state.after(nudging.power(state, fill, false), 0);
        assertEquals(0, lux(state, "fill"));
        state = state.after(nudging.power(state, key, true), 0);
        assertTrue(lux(state, "key") > 0);
    }

    @Test
    void aWarmerKeyThatGivesLessDoesNotDragTheOthersDown() throws Exception {
        LiveState safe = LightingTest.at(1);
        LiveState state = safe;
        for (int i = 0; i < 6; i++) {
            state = state.after(nudging.warmer(state, key, Nudging.MIRED), 0);
        }
        assertTrue(
                LightRange.stops(lux(safe, "key"), lux(state, "key")) < -0.1,
                "a panel gives most half way between its whites");
        assertEquals(0, LightRange.stops(lux(safe, "fill"), lux(state, "fill")), 0.06);
    }
}

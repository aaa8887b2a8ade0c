package lookstep.server.lighting;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import lookstep.server.TestPlans;
import lookstep.server.live.Event;
import lookstep.server.live.LiveState;
import lookstep.server.live.PlateStep;
import lookstep.server.live.RigTest;
import lookstep.server.look.Adjustment;
import lookstep.server.look.LookLevels;
import lookstep.server.look.RigLevels;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.WorkLight;
import org.junit.jupiter.api.Test;

class LightingTest {
    private static final ShootPlan PLAN = TestPlans.threeShots();
    private final Lighting lighting = new Lighting(PLAN);

    static LiveState at(int position) {
        return LiveState.NEW.after(
                new Event.WentTo(
                        position, position == 0 ? "" : PLAN.shots().get(position - 1).id()),
                0);
    }

    private static double brightest(RigLevels levels, int light) {
        double most = 0;
        for (double level : levels.of(light)) {
            most = Math.max(most, level);
        }
        return most;
    }

    @Test
    void beforeTheFirstShotTheWorkLightIsOnEverywhere() {
        Shown shown = lighting.shown(LiveState.NEW);
        assertEquals(Shown.What.WORK_LIGHT, shown.what());
        assertEquals(lighting.workLight(), shown.levels());
        for (int i = 0; i < PLAN.rig().size(); i++) {
            // 25 % of the most of a mix whose brightest emitter is at full, in whole 8-bit codes
            assertEquals(WorkLight.USUAL.percent() / 100, brightest(shown.levels(), i), 1.0 / 255);
        }
    }

    private static LiveState plates(LiveState before, String hangsOn) {
        List<List<Double>> fill =
                List.of(
                        List.of(0.0, 0.0),
                        List.of(0.4, 0.0),
                        List.of(0.0, 0.0, 0.0, 0.0),
                        List.of(0.0, 0.0, 0.0, 0.0));
        return before.after(
                new Event.PlatesBegun(
                        "plates-1",
                        "safe",
                        "safe",
                        PLAN.look("safe").camera(),
                        hangsOn,
                        "",
                        true,
                        List.of(new PlateStep("‘fill’ warm alone", "fill", 0, fill))),
                0);
    }

    @Test
    void aPlateIsItsOneLightAndTheLookComesBackAfterIt() {
        LiveState taking = plates(at(2), lighting.hangsOn("safe").orElseThrow());
        Shown shown = lighting.shown(taking);
        assertEquals(Shown.What.PLATE, shown.what());
        assertEquals(taking.plates().run().orElseThrow().step().rig(), shown.levels());
        assertEquals(PLAN.look("safe").camera(), shown.look().camera());
        LiveState after = taking.after(new Event.PlatesEnded("plates-1", "by hand"), 0);
        assertEquals(Shown.What.LOOK, lighting.shown(after).what());
    }

    @Test
    void aPlateOfAnotherRigIsNotLit() {
        assertEquals(Shown.What.LOOK, lighting.shown(plates(at(2), "another rig")).what());
        assertEquals(
                Shown.What.WORK_LIGHT, lighting.shown(plates(LiveState.NEW, "another rig")).what());
    }

    @Test
    void aShotHasItsLookAndAFirstStepTakesItsFade() {
        Shown shown = lighting.shown(at(2));
        assertEquals(Shown.What.LOOK, shown.what());
        assertEquals(
                LookLevels.of(PLAN, PLAN.look("warm front, cold back")).levels(), shown.levels());
        assertEquals(
                PLAN.look("warm front, cold back").fadeSeconds(),
                Lighting.fadeSeconds(lighting.shown(at(1)), shown));
    }

    @Test
    void aNudgeIsQuickerThanTheLook() {
        LiveState nudged =
                at(2).after(
                                new Event.Nudged(
                                        "warm-front",
                                        "warm front, cold back",
                                        Adjustment.NONE.cameraAt(4300),
                                        ""),
                                0);
        Shown shown = lighting.shown(nudged);
        assertEquals(4300, shown.look().camera().kelvin());
        assertEquals(0.2, Lighting.fadeSeconds(lighting.shown(at(2)), shown));
        assertEquals(
                PLAN.look("safe").fadeSeconds(),
                Lighting.fadeSeconds(shown, lighting.shown(at(1))));
    }

    @Test
    void whatTheLooksCannotHaveIsSaidBeforehand() {
        ShootPlan asked =
                new ShootPlan(
                        PLAN.title(),
                        PLAN.place(),
                        PLAN.house(),
                        PLAN.windowSeconds(),
                        PLAN.people(),
                        PLAN.rig(),
                        List.of(
                                new Look(
                                        "too much",
                                        PLAN.looks().get(0).camera(),
                                        0,
                                        "key",
                                        Map.of(
                                                "key", TestPlans.percent(100, 4300),
                                                "fill", TestPlans.stops(3, 4300)))),
                        List.of());
        assertTrue(
                new Lighting(asked).notes().stream().anyMatch(n -> n.contains("‘fill’")),
                new Lighting(asked).notes().toString());
    }

    @Test
    void oneLightIsTestedAloneAndDimmed() {
        LiveState testing = at(1).after(new Event.Testing(new RigTest("fill", 1, 0)), 0);
        Shown shown = lighting.shown(testing);
        assertEquals(Shown.What.TEST, shown.what());
        assertEquals(
                List.of(false, true, false, false),
                IntStream.range(0, 4).mapToObj(i -> brightest(shown.levels(), i) > 0).toList());
        assertEquals(0.4, brightest(shown.levels(), 1), 1.0 / 255);
    }

    /** fill: 8-bit bi-colour at slot 11, warm and cool. */
    @Test
    void oneSlotIsTestedAsItIsAndTheLevelsAreWhatTheLightMakesOfIt() {
        Shown shown = lighting.shown(at(1).after(new Event.Testing(new RigTest("fill", 1, 12)), 0));
        byte[] slots = shown.raw().orElseThrow().slots();
        for (int i = 0; i < slots.length; i++) {
            assertEquals(i == 11 ? 255 : 0, slots[i] & 0xFF, "slot " + (i + 1));
        }
        assertEquals(0, shown.levels().of(1)[0]);
        assertEquals(1, shown.levels().of(1)[1]);
        assertEquals(0, brightest(shown.levels(), 0));
    }

    @Test
    void aSlotOfNoLightIsTestedToo() {
        Shown shown = lighting.shown(at(1).after(new Event.Testing(new RigTest("", 9, 512)), 0));
        assertEquals(9, shown.raw().orElseThrow().universe());
        assertEquals(255, shown.raw().orElseThrow().slots()[511] & 0xFF);
    }

    @Test
    void aTestOfALightThatThePlanNoLongerHasIsNone() {
        Shown shown = lighting.shown(at(1).after(new Event.Testing(new RigTest("gone", 1, 0)), 0));
        assertEquals(Shown.What.LOOK, shown.what());
    }

    @Test
    void theCameraCouldStayWhereTheShotBeforeHadIt() {
        assertEquals(List.of(4300.0), lighting.steady(at(2), lighting.shown(at(2))));
        assertEquals(List.of(3000.0), lighting.steady(at(3), lighting.shown(at(3))));
        assertEquals(List.of(), lighting.steady(at(1), lighting.shown(at(1))));
    }

    @Test
    void theCameraThatStaysIsToldHowFarOffTheLightsEnd() {
        LiveState cold =
                at(2).after(
                                new Event.Nudged(
                                        "warm-front",
                                        "warm front, cold back",
                                        Adjustment.NONE.cameraAt(5600),
                                        ""),
                                0);
        List<String> words = lighting.differences(lighting.shown(cold));
        // The rim wants what no white has; RGBW makes it, so only the warm-cool panels could miss.
        assertTrue(words.stream().noneMatch(w -> w.contains("‘rim left’")), words.toString());
        assertEquals(List.of(), lighting.differences(lighting.shown(at(2))), "as planned");
    }

    @Test
    void aPanelThatCannotGoThatColdIsNamedWithTheDifference() {
        LiveState steady =
                at(2).after(
                                new Event.Nudged(
                                        "warm-front",
                                        "warm front, cold back",
                                        new Adjustment(Map.of(), false, 7500),
                                        ""),
                                0);
        List<String> words = lighting.differences(lighting.shown(steady));
        // At 7500 K the front would be 7500 K; the panel ends at 6500 K, 20.5 mired warmer.
        assertTrue(
                words.stream()
                        .anyMatch(w -> w.matches("‘key’ ends 2[01] mired warmer in .*CIEDE2000.*")),
                words.toString());
    }
}

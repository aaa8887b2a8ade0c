package lookstep.server.look;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import lookstep.server.RandomRigs;
import lookstep.server.TestPlans;
import lookstep.server.look.Nudge.Power;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.ShootPlan;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Whatever is changed about whatever look, it is a look again that can be worked out: a change that
 * could not be would be in the journal, and in the way of everything after it.
 */
class AnyAdjustmentTest {
    private static final List<Power> POWERS = List.of(Power.values());

    private static Adjustment any(Random random, ShootPlan plan) {
        Map<String, Nudge> nudges = new LinkedHashMap<>();
        for (Light light : plan.rig()) {
            if (random.nextBoolean()) {
                nudges.put(
                        light.name(),
                        new Nudge(
                                random.nextInt(-60, 61) / 3.0,
                                10.0 * random.nextInt(-80, 81),
                                POWERS.get(random.nextInt(POWERS.size()))));
            }
        }
        nudges.put("gone", Nudge.NONE.power(Power.ON));
        double kelvin = random.nextBoolean() ? 0 : random.nextInt(1000, 25_001);
        return new Adjustment(nudges, random.nextBoolean(), kelvin);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
    void isALookAgain(long seed) {
        Random random = new Random(seed);
        RandomRigs rigs = new RandomRigs(seed);
        ShootPlan plan = rigs.plan();
        for (int i = 0; i < 10; i++) {
            Look look = rigs.look(plan);
            Adjustment adjustment = any(random, plan);
            Look changed = Adjusting.of(plan, look, adjustment);
            // throws for levels that are not 0 to 1
            LookLevels worked = LookLevels.of(plan, changed);
            assertEquals(plan.rig().size(), worked.lights().size());
            double kelvin = adjustment.cameraKelvin();
            assertEquals(kelvin == 0 ? look.camera().kelvin() : kelvin, changed.camera().kelvin());
            adjustment
                    .lights()
                    .forEach(
                            (light, nudge) -> {
                                if (nudge.power() == Power.OFF) {
                                    assertFalse(changed.lights().containsKey(light), light);
                                }
                            });
            plan.rig().stream()
                    .map(Light::universe)
                    .distinct()
                    .forEach(u -> RigPackets.packet(plan, worked.levels(), u));
        }
    }

    /** The corners of the diagram, under every setting a camera has. */
    @Test
    void anyColourIsCarriedOverToAnyCamera() {
        ShootPlan plan = TestPlans.threeShots();
        Look safe = plan.look("safe");
        int carried = 0;
        for (double x : new double[] {0.001, 0.1, 0.17, 0.3, 0.5, 0.73, 0.9}) {
            for (double y : new double[] {0.001, 0.01, 0.05, 0.1, 0.27, 0.5, 0.83, 0.9}) {
                if (x + y > 1) {
                    continue;
                }
                for (double from : new double[] {1700, 3000, 5600, 20_000}) {
                    for (double to : new double[] {1000, 2700, 5600, 25_000}) {
                        Colour wanted = new Colour.Xy(x, y);
                        Colour got = SteadyCamera.colour(wanted, from, to);
                        Setting setting = new Setting(safe.lights().get("key").level(), got);
                        Look look =
                                new Look(
                                        "carried",
                                        safe.camera(),
                                        0,
                                        "rim left",
                                        Map.of("rim left", setting));
                        assertEquals(
                                List.of(true),
                                LookLevels.of(plan, look).lights().stream()
                                        .filter(l -> l.light().equals("rim left"))
                                        .map(LightReport::on)
                                        .toList(),
                                wanted + " from " + from + " to " + to + ": " + got);
                        carried += got.equals(wanted) ? 0 : 1;
                    }
                }
            }
        }
        assertTrue(carried > 300, "carried over: " + carried);
    }
}

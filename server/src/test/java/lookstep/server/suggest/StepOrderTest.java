package lookstep.server.suggest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Colour.Temperature;
import lookstep.server.plan.Look.Level.Percent;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.MoveTimes;
import lookstep.server.plan.Placing;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class StepOrderTest {
    private static Look look(double iso, double kelvin, double key, double fill) {
        Map<String, Setting> lights = new LinkedHashMap<>();
        lights.put("key", new Setting(new Percent(key), new Temperature(4300)));
        lights.put("fill", new Setting(new Percent(fill), new Temperature(4300)));
        return new Look("", new CameraSettings(8, 0.01, iso, kelvin), 0.7, "key", lights);
    }

    private static Look random(Random random) {
        return look(
                400 << random.nextInt(2),
                3200 + 1000 * random.nextInt(3),
                10 * random.nextInt(4),
                10 * random.nextInt(4));
    }

    private static double total(Look on, List<Look> looks, List<Integer> order) {
        double sum = 0;
        Look before = on;
        for (int i : order) {
            sum += StepOrder.seconds(before, looks.get(i), MoveTimes.USUAL);
            before = looks.get(i);
        }
        return sum;
    }

    private static double best(Look on, List<Look> looks, List<Integer> order, int from) {
        if (from == order.size()) {
            return total(on, looks, order);
        }
        double best = Double.POSITIVE_INFINITY;
        for (int i = from; i < order.size(); i++) {
            Collections.swap(order, from, i);
            best = Math.min(best, best(on, looks, order, from + 1));
            Collections.swap(order, from, i);
        }
        return best;
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6})
    void noOtherOrderIsQuicker(long seed) {
        Random random = new Random(seed);
        Look on = random(random);
        List<Look> looks = new ArrayList<>();
        List<Integer> all = new ArrayList<>();
        for (int i = 0; i < 6; i++) {
            looks.add(random(random));
            all.add(i);
        }
        StepOrder order = StepOrder.of(on, looks, MoveTimes.USUAL);
        assertEquals(best(on, looks, all, 0), order.totalSeconds(), 1e-9);
        assertEquals(total(on, looks, order.order()), order.totalSeconds(), 1e-9);
        assertEquals(6, order.order().stream().distinct().count());
    }

    /** The usual times: a key press 2 s, a dial 4 s, a light carried 60 s; other hands a fifth. */
    @Test
    void aKeyPressIsCheapDialsAreNotAndStandsAreDearest() {
        Look a = look(400, 4300, 50, 20);
        assertEquals(0, StepOrder.seconds(a, a, MoveTimes.USUAL), 0);
        assertEquals(2, StepOrder.seconds(a, look(400, 4300, 20, 50), MoveTimes.USUAL), 1e-9);
        assertEquals(4, StepOrder.seconds(a, look(800, 4300, 50, 20), MoveTimes.USUAL), 1e-9);
        assertEquals(
                8 + 0.2 * 2, StepOrder.seconds(a, look(800, 3200, 20, 50), MoveTimes.USUAL), 1e-9);
        Look carried =
                new Look(
                        "",
                        a.camera(),
                        0.7,
                        "key",
                        a.lights(),
                        Map.of("fill", new Placing(new Vec3(1, 1, 2), new Vec3(0, 0, 1))));
        assertEquals(62, StepOrder.seconds(a, carried, MoveTimes.USUAL), 1e-9);
    }

    @Test
    void ofEquallyQuickOnesFewestLightsChange() {
        Look on = look(400, 4300, 10, 10);
        List<Look> looks = List.of(look(400, 4300, 30, 30), look(400, 4300, 10, 30));
        // Through the second one light changes at a time.
        assertEquals(List.of(1, 0), StepOrder.of(on, looks, MoveTimes.USUAL).order());
    }

    @Test
    void twelveAreOrderedAndMoreAreRefused() {
        Random random = new Random(1);
        List<Look> looks = new ArrayList<>();
        for (int i = 0; i < 12; i++) {
            looks.add(random(random));
        }
        StepOrder order = StepOrder.of(looks.get(0), looks, MoveTimes.USUAL);
        assertTrue(order.totalSeconds() <= total(looks.get(0), looks, order.order()) + 1e-9);
        assertEquals(12, order.order().size());
        looks.add(random(random));
        assertThrows(
                IllegalArgumentException.class,
                () -> StepOrder.of(looks.get(0), looks, MoveTimes.USUAL));
    }
}

package lookstep.server.look;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import lookstep.server.TestPlans;
import lookstep.server.plan.Light;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;

class LeftRightTest {
    private static List<Light> at(double[]... positions) {
        Light any = TestPlans.threeShots().rig().get(0);
        return IntStream.range(0, positions.length)
                .mapToObj(
                        i ->
                                new Light(
                                        "light " + i,
                                        any.fixture(),
                                        any.mode(),
                                        1,
                                        1 + 10 * i,
                                        new Vec3(positions[i][0], positions[i][1], positions[i][2]),
                                        any.aim(),
                                        any.modifier()))
                .toList();
    }

    @Test
    void lightsThatMirrorEachOtherArePairs() {
        assertEquals(
                Map.of("light 0", "light 2", "light 2", "light 0"),
                LeftRight.counterparts(
                        at(
                                new double[] {-2, -2, 2},
                                new double[] {0.3, 1, 3},
                                new double[] {2.2, -2.4, 2})));
    }

    @Test
    void eachTakesTheNearestAndNoneIsTakenTwice() {
        assertEquals(
                Map.of(
                        "light 0", "light 3",
                        "light 3", "light 0",
                        "light 1", "light 2",
                        "light 2", "light 1"),
                LeftRight.counterparts(
                        at(
                                new double[] {-2, -2, 2},
                                new double[] {-2, 2, 2},
                                new double[] {2, 1.8, 2},
                                new double[] {2, -1.5, 2})));
    }

    @Test
    void aLightForTheBackgroundIsNoCounterpartOfOneForThePeople() {
        List<Light> rig = at(new double[] {-2, -2, 2}, new double[] {2, -2, 2});
        Light right = rig.get(1);
        Light away =
                new Light(
                        right.name(),
                        right.fixture(),
                        right.mode(),
                        1,
                        right.startSlot(),
                        right.position(),
                        new Vec3(6, -6, 2),
                        right.modifier());
        assertEquals(2, LeftRight.counterparts(rig).size());
        assertEquals(Map.of(), LeftRight.counterparts(List.of(rig.get(0), away)));
    }

    @Test
    void frontIsNoCounterpartOfBack() {
        assertEquals(
                Map.of(),
                LeftRight.counterparts(at(new double[] {-2, -2, 2}, new double[] {2, 2, 2})));
    }
}

package lookstep.server.look;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.server.TestPlans;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.ShootPlan;
import lookstep.simulator.model.colour.Xyz;
import org.junit.jupiter.api.Test;

class LookLevelsTest {
    private final ShootPlan plan = TestPlans.threeShots();

    private static Look look(Map<String, Setting> lights) {
        return new Look(
                "tried",
                new CameraSettings(8, 1 / 125.0, 3200, 4300),
                0,
                lights.keySet().iterator().next(),
                lights);
    }

    private double lux(LookLevels worked, String name) {
        int i = plan.rig().indexOf(plan.light(name));
        Light light = plan.rig().get(i);
        Xyz sent = Photometry.intensity(light, worked.levels().of(i));
        return LookLevels.luxAtSubject(light, sent.y());
    }

    @Test
    void stopsAreMeasuredAtThePeople() {
        Map<String, Setting> lights = new LinkedHashMap<>();
        lights.put("key", TestPlans.percent(30, 4300));
        lights.put("fill", TestPlans.stops(-2, 4300));
        lights.put("rim left", TestPlans.stops(1, 5600));
        LookLevels worked = LookLevels.of(plan, look(lights));
        assertEquals(List.of(), worked.notes());
        // A stop is a factor of two in illuminance.
        assertEquals(0.25, lux(worked, "fill") / lux(worked, "key"), 1e-6);
        assertEquals(2.0, lux(worked, "rim left") / lux(worked, "key"), 1e-6);
        assertEquals(0, lux(worked, "top"));
    }

    @Test
    void whatALightCannotReachIsSaidAndItGivesItsMost() {
        Map<String, Setting> lights = new LinkedHashMap<>();
        lights.put("key", TestPlans.percent(100, 4300));
        lights.put("fill", TestPlans.stops(6, 4300));
        LookLevels worked = LookLevels.of(plan, look(lights));
        assertEquals(1, worked.notes().size());
        assertTrue(
                worked.notes().get(0).contains("‘fill’ is to be +6.0 stops"),
                worked.notes().get(0));
        double[] fill = worked.levels().of(1);
        assertEquals(1, Math.max(fill[0], fill[1]), 1e-9);
    }

    @Test
    void aColourOutOfReachIsSaid() {
        Map<String, Setting> lights = new LinkedHashMap<>();
        lights.put("key", new Setting(new Look.Level.Percent(100), new Look.Colour.Xy(0.16, 0.05)));
        LookLevels worked = LookLevels.of(plan, look(lights));
        assertTrue(
                worked.notes().get(0).contains("cannot make xy 0.160, 0.050"),
                worked.notes().toString());
    }

    @Test
    void aHalfDimmedLampIsSlotValue128OnALinearEightBitCurve() {
        ShootPlan one = TestPlans.oneDimmer();
        Look half = look(Map.of("lamp", TestPlans.percent(50, 4000)));
        DmxPacket packet = RigPackets.packet(one, LookLevels.of(one, half).levels(), 1);
        // 0.5 x 255 = 127.5, rounded to nearest.
        assertEquals(128, packet.slot(1));
        assertEquals(0, packet.slot(2));
        assertEquals(0, RigPackets.packet(one, LookLevels.of(one, half).levels(), 2).slot(1));
    }
}

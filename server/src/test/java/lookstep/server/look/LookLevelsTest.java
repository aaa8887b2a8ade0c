package lookstep.server.look;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.fixture.Mode;
import lookstep.server.TestPlans;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.ShootPlan;
import lookstep.simulator.model.colour.HueSaturation;
import lookstep.simulator.model.colour.WhiteBalance;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.space.Vec3;
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
        // 8-bit slots round the two by up to a fiftieth.
        assertEquals(0.25, lux(worked, "fill") / lux(worked, "key"), 0.005);
        assertEquals(2.0, lux(worked, "rim left") / lux(worked, "key"), 0.04);
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

    private static LightReport.Given given(LookLevels worked, int light) {
        return worked.lights().get(light).given().orElseThrow();
    }

    private Setting lux(double lux, double kelvin) {
        return new Setting(new Look.Level.Lux(lux), new Look.Colour.Temperature(kelvin));
    }

    @Test
    void luxIsWhatAMeterAtThePeopleShows() {
        // By hand: one lamp of 100 cd on the axis at 2 m, a point: 100 / 2^2 = 25 lx at full, so 5
        // lx is a fifth, code 51 of 255.
        ShootPlan one = TestPlans.oneDimmer();
        LookLevels worked = LookLevels.of(one, look(Map.of("lamp", lux(5, 4000))));
        assertEquals(51, RigPackets.packet(one, worked.levels(), 1).slot(1));
        LightReport.Amount a = given(worked, 0).amount();
        assertEquals(5, a.lux(), 1e-9);
        assertEquals(5, a.wantedLux(), 1e-9);
        assertEquals(25, a.mostLux(), 1e-9);
        assertEquals(25 / 255.0, a.leastLux(), 1e-9);
        assertEquals(0, a.stops(), 1e-9);
        // log2 of 5, and of 51.
        assertEquals(2.321928, a.mostStops(), 1e-6);
        assertEquals(-5.672425, a.leastStops(), 1e-6);
        // From code 51 to 50: log2(51 / 50).
        assertEquals(0.028569, a.stepStops(), 1e-6);
        assertEquals(
                new LightRange(5, 25 / 255.0, 25),
                LookLevels.range(one, look(Map.of("lamp", lux(5, 4000))), "lamp"));
        assertEquals(List.of(), worked.notes());
    }

    @Test
    void exposureOfALightAlone() {
        // ISO 2720 with C = 250: f/8, 1/125 (exactly 1/128) s, ISO 3200 is metered for 250 x 64 x
        // 128 / 3200 = 640 lx; 5 lx are 7 stops under.
        ShootPlan one = TestPlans.oneDimmer();
        Look look = look(Map.of("lamp", lux(5, 4000)));
        assertEquals(640, LookLevels.meteredLux(look.camera()), 1e-9);
        assertEquals(-7, given(LookLevels.of(one, look), 0).amount().exposedStops(), 1e-9);
    }

    @Test
    void aKeyInLuxIsWhatStopsAreMeasuredAgainst() {
        Map<String, Setting> lights = new LinkedHashMap<>();
        lights.put("key", lux(40, 4300));
        lights.put("fill", TestPlans.stops(-2, 4300));
        LookLevels worked = LookLevels.of(plan, look(lights));
        assertEquals(40, lux(worked, "key"), 1e-9);
        assertEquals(10, lux(worked, "fill"), 0.3);
        // 8 bits, and it is dim: each of its two whites rounds by a few hundredths of a stop.
        assertEquals(-2, given(worked, 1).amount().stops(), 0.05);
        assertTrue(worked.lights().get(0).key());
        assertFalse(worked.lights().get(1).key());
        assertFalse(worked.lights().get(3).on());
        assertEquals("top", worked.lights().get(3).light());
    }

    @Test
    void aKeyThatFallsShortTakesTheOthersDownWithIt() {
        Map<String, Setting> lights = new LinkedHashMap<>();
        lights.put("key", lux(100000, 4300));
        lights.put("fill", TestPlans.stops(-2, 4300));
        LookLevels worked = LookLevels.of(plan, look(lights));
        double most = given(worked, 0).amount().mostLux();
        assertEquals(most, lux(worked, "key"), 1e-9);
        assertEquals(most / 4, lux(worked, "fill"), most / 400);
        assertEquals(1, worked.notes().size());
        assertTrue(
                worked.notes().get(0).startsWith("look ‘tried’: ‘key’ is to be 100000 lx, "),
                worked.notes().get(0));
    }

    @Test
    void belowItsLeastALightGivesItsLeastAndItIsSaid() {
        // 25 lx at full, 8 bits: code 1 is 0.098 lx, 8 stops (255 times) under full. A key of 10 lx
        // takes 1/1024 of that for 10 stops, 0.0098 lx.
        ShootPlan one = TestPlans.oneDimmer();
        LookLevels worked = LookLevels.of(one, look(Map.of("lamp", lux(0.01, 4000))));
        assertEquals(1, RigPackets.packet(one, worked.levels(), 1).slot(1));
        LightReport.Amount a = given(worked, 0).amount();
        assertEquals(25 / 255.0, a.lux(), 1e-9);
        assertEquals(0.01, a.wantedLux(), 1e-12);
        assertTrue(Double.isInfinite(a.stepStops()));
        assertEquals(
                List.of(
                        "look ‘tried’: ‘lamp’ is to be 0.0 lx, 0.1 lx is its least, and it gives"
                                + " that: move it back, put something before it, or leave it out"),
                worked.notes());
        // Off is off.
        LookLevels off = LookLevels.of(one, look(Map.of("lamp", TestPlans.percent(0, 4000))));
        assertEquals(0, RigPackets.packet(one, off.levels(), 1).slot(1));
        assertEquals(List.of(), off.notes());
        assertFalse(off.lights().get(0).on());
    }

    @Test
    void stopsUnderItsLeast() {
        Map<String, Setting> lights = new LinkedHashMap<>();
        lights.put("key", TestPlans.percent(20, 4300));
        lights.put("fill", TestPlans.stops(-9, 4300));
        LookLevels worked = LookLevels.of(plan, look(lights));
        LightReport.Amount a = given(worked, 1).amount();
        assertTrue(
                worked.notes()
                        .contains(
                                String.format(
                                        Locale.ROOT,
                                        "look ‘tried’: ‘fill’ is to be -9.0 stops from the key,"
                                                + " %+.1f is its least, and it gives that: move it back,"
                                                + " put something before it, or leave it out",
                                        a.leastStops())),
                worked.notes().toString());
        assertEquals(a.wantedLux() * Math.pow(2, a.leastStops() + 9), a.leastLux(), 1e-4);
    }

    @Test
    void aTemperatureOutOfReachNamesTheNearestInMired() {
        // The panel's warm white is 2700 K: 1e6/2700 - 1e6/2000 = -129.6 mired.
        LookLevels worked = LookLevels.of(plan, look(Map.of("key", TestPlans.percent(50, 2000))));
        assertEquals(
                List.of(
                        "look ‘tried’: ‘key’ cannot make 2000 K: 2700 K is the nearest, 130 mired colder"),
                worked.notes());
        assertFalse(given(worked, 0).colour().reached());
    }

    @Test
    void aTintOutOfReachIsSaidInDuv() {
        Setting green =
                new Setting(new Look.Level.Percent(50), new Look.Colour.Temperature(4300, 0.01));
        LookLevels worked = LookLevels.of(plan, look(Map.of("key", green)));
        // The line between 2700 and 6500 K lies 0.006 below the locus there.
        assertEquals(
                List.of(
                        "look ‘tried’: ‘key’ cannot make 4300 K with Duv +0.010: 4300 K is the"
                                + " nearest, 0.016 Duv pinker"),
                worked.notes());
    }

    @Test
    void blueForAGreyCardIsBlueInThePicture() {
        Setting blue =
                new Setting(new Look.Level.Percent(50), new Look.Colour.HueSaturation(240, 0.9));
        LookLevels worked = LookLevels.of(plan, look(Map.of("rim left", blue)));
        LightReport.Colour c = given(worked, 2).colour();
        assertEquals("blue", c.seen());
        HueSaturation seen =
                HueSaturation.of(new WhiteBalance(4300).linearSrgb(c.given().toXyz(1)));
        assertEquals(240, seen.hueDegrees(), 1);
        assertEquals(0.9, seen.saturation(), 0.01);
        assertEquals(List.of(), worked.notes());
    }

    @Test
    void miredAgainstTheCamera() {
        // 1e6/5600 - 1e6/3000 = -154.76 mired.
        Look look =
                new Look(
                        "cold",
                        new CameraSettings(8, 1 / 125.0, 3200, 3000),
                        0,
                        "top",
                        Map.of("top", TestPlans.percent(80, 5600)));
        LightReport.Colour c = given(LookLevels.of(plan, look), 3).colour();
        assertEquals(-154.76, c.miredFromCamera(), 0.5);
        assertEquals("5600 K, 155 mired colder than the camera", LightWords.colour(c));
    }

    @Test
    void theBroadBlendHasMoreEmittersAndTheOtherMoreLight() {
        Look.Colour white = new Look.Colour.Temperature(4300);
        Setting broad = new Setting(new Look.Level.Percent(100), white);
        Setting most = new Setting(new Look.Level.Percent(100), white, Look.Blend.MOST);
        LookLevels a = LookLevels.of(plan, look(Map.of("top", broad)));
        LookLevels b = LookLevels.of(plan, look(Map.of("top", most)));
        assertTrue(lux(b, "top") > lux(a, "top") * 1.1);
        for (double level : a.levels().of(3)) {
            assertTrue(level > 0.02);
        }
        // Asked for more than the broad blend has, the note says how to get it.
        Setting much = new Setting(new Look.Level.Lux(lux(b, "top")), white, Look.Blend.BROAD);
        List<String> notes = LookLevels.of(plan, look(Map.of("top", much))).notes();
        assertEquals(1, notes.size());
        assertTrue(notes.get(0).contains("write blend: most for 0."), notes.get(0));
    }

    @Test
    void aLightThatLooksAwayIsSaid() {
        Light key = plan.rig().get(0);
        Light away =
                new Light(
                        "key",
                        key.fixture(),
                        key.mode(),
                        1,
                        1,
                        key.position(),
                        key.position().minus(new Vec3(0, 1, 0)),
                        key.modifier());
        ShootPlan turned =
                new ShootPlan(
                        plan.title(),
                        plan.place(),
                        plan.house(),
                        plan.windowSeconds(),
                        plan.people(),
                        List.of(away),
                        plan.looks(),
                        plan.shots());
        LookLevels worked = LookLevels.of(turned, look(Map.of("key", lux(40, 4300))));
        assertEquals(
                List.of("look ‘tried’: ‘key’ does not reach the people: aim it at them"),
                worked.notes());
        assertFalse(worked.lights().get(0).on());
        // In percent it may well light the background.
        LookLevels wall = LookLevels.of(turned, look(Map.of("key", TestPlans.percent(50, 4300))));
        assertEquals(List.of(), wall.notes());
        assertTrue(wall.lights().get(0).on());
        assertEquals(0, given(wall, 0).amount().lux());
        // But nothing can be counted in stops from it.
        ShootPlan both =
                new ShootPlan(
                        plan.title(),
                        plan.place(),
                        plan.house(),
                        plan.windowSeconds(),
                        plan.people(),
                        List.of(away, plan.rig().get(1)),
                        plan.looks(),
                        plan.shots());
        Map<String, Setting> lights = new LinkedHashMap<>();
        lights.put("key", TestPlans.percent(50, 4300));
        lights.put("fill", TestPlans.stops(-1, 4300));
        LookLevels none = LookLevels.of(both, look(lights));
        assertFalse(none.lights().get(1).on());
        assertEquals(
                List.of(
                        "look ‘tried’: ‘fill’ is off: the key, from which its stops are counted,"
                                + " gives the people no light"),
                none.notes());
    }

    @Test
    void aModeThatGivesLessIsCounted() {
        Light lamp = TestPlans.oneDimmer().rig().get(0);
        Light quiet =
                new Light(
                        "lamp",
                        lamp.fixture(),
                        new Mode("quiet", lamp.mode().channels(), 0.6),
                        1,
                        1,
                        lamp.position(),
                        lamp.aim(),
                        lamp.modifier());
        ShootPlan p = TestPlans.oneDimmer();
        ShootPlan one =
                new ShootPlan(
                        p.title(),
                        p.place(),
                        p.house(),
                        p.windowSeconds(),
                        p.people(),
                        List.of(quiet),
                        p.looks(),
                        p.shots());
        Look full = look(Map.of("lamp", TestPlans.percent(100, 4000)));
        assertEquals(15, LookLevels.range(one, full, "lamp").mostLux(), 1e-9);
    }

    @Test
    void aLightThatIsOffCouldBeTurnedUp() {
        LightRange range =
                LookLevels.range(plan, look(Map.of("key", TestPlans.percent(50, 4300))), "top");
        assertEquals(0, range.lux());
        assertTrue(range.mostLux() > 100);
        assertEquals(range.mostLux() / 255, range.leastLux(), 1e-9);
    }

    @Test
    void aTableForPeople() {
        Map<String, Setting> lights = new LinkedHashMap<>();
        lights.put("key", lux(40, 4300));
        lights.put("fill", TestPlans.stops(-2, 3000));
        lights.put(
                "rim left",
                new Setting(new Look.Level.StopsFromKey(1), new Look.Colour.Xy(0.2, 0.15)));
        Look look = look(lights);
        String text = LookText.of(look, LookLevels.of(plan, look));
        // Lux and stops as asked, rounded by slots: worked out apart in Python from the emitters,
        // the fill's 8 bits take codes 19 and 4 for 10 lx at 3000 K, which are 10.2 lx at 3039 K
        // (1e6/3039 - 1e6/4300 = 97 mired), Duv -0.0037. ISO 2720: 250 x 64 x 128 / 3200 = 640.
        assertEquals(
                """
                  tried (f/8, 1/125 s, ISO 3200, 4300 K; metered for 640 lx)
                    key       40 lx  the key          4300 K, as the camera, Duv -0.006 (pinkish), ΔE00 5.9 off
                    fill      10 lx  2.0 stops under  3040 K, 97 mired warmer than the camera, Duv -0.004 (pinkish), ΔE00 3.8 off
                    rim left  79 lx  1.0 stop over    blue to the camera, xy 0.200, 0.150
                    top         off
                """,
                text);
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

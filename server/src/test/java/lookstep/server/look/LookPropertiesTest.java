package lookstep.server.look;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import lookstep.protocols.fixture.DimmingCurve;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.protocols.fixture.Mode;
import lookstep.server.TestPlans;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Blend;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.Modifier;
import lookstep.server.plan.ShootPlan;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Whatever is asked of whatever light: what must hold always. */
class LookPropertiesTest {
    private final List<Fixture> fixtures = GenericFixtures.all();

    private Light light(String name, int slot, Random random) {
        Fixture f = fixtures.get(random.nextInt(fixtures.size()));
        Mode m = f.modes().get(random.nextInt(f.modes().size()));
        boolean away = random.nextInt(12) == 0;
        Vec3 at =
                new Vec3(
                        random.nextDouble() * 6 - 3,
                        random.nextDouble() * 6 - 4,
                        0.5 + random.nextDouble() * 3);
        return new Light(
                name,
                f,
                m,
                1,
                slot,
                at,
                away ? new Vec3(at.x() * 2, at.y() * 2 + 1, at.z()) : new Vec3(0, 0, 1.5),
                new Modifier(
                        "some", random.nextDouble(), 0.3 + 0.7 * random.nextDouble(), 0, false));
    }

    private static Level level(Random random, boolean key) {
        return switch (random.nextInt(key ? 2 : 3)) {
            case 0 ->
                    new Level.Percent(
                            random.nextInt(5) == 0 ? 0 : 100 * Math.pow(random.nextDouble(), 4));
            case 1 -> new Level.Lux(Math.pow(10, random.nextDouble() * 6 - 1));
            default -> new Level.StopsFromKey(random.nextDouble() * 15 - 10);
        };
    }

    private static Colour colour(Random random) {
        return switch (random.nextInt(4)) {
            case 0 ->
                    new Colour.Temperature(
                            1700 + 18300 * Math.pow(random.nextDouble(), 3),
                            (random.nextDouble() - 0.5) * 0.06);
            case 1 -> new Colour.HueSaturation(random.nextDouble() * 360, random.nextDouble());
            case 2 -> {
                double x = 0.001 + random.nextDouble() * 0.899;
                yield new Colour.Xy(x, Math.min(0.9, 0.001 + random.nextDouble() * (0.999 - x)));
            }
            default -> new Colour.Temperature(1700 + random.nextDouble() * 18300);
        };
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12})
    void levelsAreAllowedAndNoLightGivesMoreThanAskedButForRounding(long seed) {
        Random random = new Random(seed);
        for (int turn = 0; turn < 25; turn++) {
            List<Light> rig = new ArrayList<>();
            Map<String, Setting> lights = new LinkedHashMap<>();
            int count = 1 + random.nextInt(8);
            for (int i = 0; i < count; i++) {
                rig.add(light("l" + i, 1 + 20 * i, random));
                if (i == 0 || random.nextInt(6) != 0) {
                    lights.put(
                            "l" + i,
                            new Setting(
                                    level(random, i == 0),
                                    colour(random),
                                    random.nextBoolean() ? Blend.BROAD : Blend.MOST));
                }
            }
            ShootPlan p = TestPlans.oneDimmer();
            ShootPlan plan =
                    new ShootPlan(
                            p.title(),
                            p.place(),
                            p.house(),
                            p.windowSeconds(),
                            p.people(),
                            rig,
                            p.looks(),
                            p.shots());
            Look look =
                    new Look(
                            "any",
                            new CameraSettings(8, 0.01, 3200, 1700 + random.nextDouble() * 18300),
                            0,
                            "l0",
                            lights);
            // RigLevels refuses what is not 0 to 1.
            LookLevels worked = LookLevels.of(plan, look);
            assertEquals(rig.size(), worked.levels().size());
            assertEquals(rig.size(), worked.lights().size());
            for (int i = 0; i < count; i++) {
                one(plan, look, worked, i);
            }
        }
    }

    private static void one(ShootPlan plan, Look look, LookLevels worked, int i) {
        Light light = plan.rig().get(i);
        LightReport report = worked.lights().get(i);
        Setting setting = look.lights().get(light.name());
        assertEquals(light.name(), report.light());
        double[] levels = worked.levels().of(i);
        double sum = 0;
        for (double l : levels) {
            sum += l;
        }
        assertEquals(sum > 0, report.on());
        if (setting == null) {
            assertFalse(report.on());
            return;
        }
        LightRange range = LookLevels.range(plan, look, light.name());
        if (!report.on()) {
            assertEquals(0, range.lux());
            return;
        }
        LightReport.Amount a = report.given().orElseThrow().amount();
        assertEquals(range, new LightRange(a.lux(), a.leastLux(), a.mostLux()));
        // Each slot is rounded by a code and a half at most, where codes are few, else by half a
        // code: so much less would not have been more than asked, and so much more bounds what can
        // come out.
        boolean few =
                light.mode().channels().stream().noneMatch(Mode.Channel.Dimmer.class::isInstance);
        double down = LookLevels.luxAtSubject(light, intensity(light, levels, few ? -1.51 : 0));
        double up = LookLevels.luxAtSubject(light, intensity(light, levels, 1.01));
        if (a.mostLux() > 0) {
            double asked = Math.max(a.wantedLux(), a.leastLux());
            assertTrue(down <= asked * (1 + 1e-9), down + " of " + asked);
        }
        assertTrue(a.lux() <= up * (1 + 1e-9), a.lux() + " rounded to more than " + up);
        assertTrue(a.mostLux() >= a.leastLux());
        assertTrue(a.stepStops() > 0);
        LightReport.Colour c = report.given().orElseThrow().colour();
        assertTrue(c.differenceUv() >= 0 && Double.isFinite(c.differenceE()));
        assertTrue(Double.isFinite(c.miredFromCamera()));
        assertFalse(LightWords.colour(c).isEmpty());
    }

    /** With every emitter so many codes of the coarsest slot up or down, in candela. */
    private static double intensity(Light light, double[] levels, double codes) {
        DimmingCurve curve = light.fixture().curve();
        double code = curve.code(light.mode().floor(curve));
        double[] moved = new double[levels.length];
        for (int e = 0; e < moved.length; e++) {
            double at = curve.code(levels[e]) + codes * code;
            moved[e] = curve.light(Math.min(1, Math.max(0, at)));
        }
        return Photometry.intensity(light, moved).y();
    }
}

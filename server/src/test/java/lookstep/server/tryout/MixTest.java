package lookstep.server.tryout;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.LinkedHashMap;
import java.util.Map;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.look.LightReport;
import lookstep.server.look.LookLevels;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Blend;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.file.DemoShoot;
import org.junit.jupiter.api.Test;

class MixTest {
    private final ShootPlan plan = DemoShoot.read(GenericFixtures.all()).at("");

    /** Within a hundredth of a stop: the slots' steps are finer than that where light is bright. */
    @Test
    void everyLookOfThePlanBecomesAMixAndTheSameLightAgain() {
        int compared = 0;
        for (Look look : plan.looks()) {
            Look again = Mix.of(plan, look).look(plan, look, "again");
            LookLevels before = LookLevels.of(plan, look);
            LookLevels after = LookLevels.of(plan, again);
            assertEquals(look.camera(), again.camera());
            for (int i = 0; i < before.lights().size(); i++) {
                LightReport b = before.lights().get(i);
                LightReport a = after.lights().get(i);
                assertEquals(b.on(), a.on(), look.name() + ", " + b.light());
                if (b.on()) {
                    double lux = b.given().orElseThrow().amount().lux();
                    double luxAgain = a.given().orElseThrow().amount().lux();
                    assertEquals(0, Math.log(luxAgain / lux) / Math.log(2), 0.01, b.light());
                    compared++;
                }
            }
        }
        assertTrue(compared > 10, compared + " lights were compared");
    }

    /** A tint, and a blend that gives most, are not lost on the way. */
    @Test
    void theSameEmittersAreLitAgainWithTintAndBlend() {
        Look base = plan.looks().get(0);
        Map<String, Look.Setting> lights = new LinkedHashMap<>();
        for (Look.Blend blend : Look.Blend.values()) {
            lights.clear();
            plan.rig()
                    .forEach(
                            l ->
                                    lights.put(
                                            l.name(),
                                            new Look.Setting(
                                                    new Look.Level.Percent(50),
                                                    new Colour.Temperature(3800, 0.008),
                                                    blend)));
            Look look =
                    new Look("tinted", base.camera(), 0, base.key(), new LinkedHashMap<>(lights));
            Look again = Mix.of(plan, look).look(plan, look, "again");
            for (int l = 0; l < plan.rig().size(); l++) {
                assertArrayEquals(
                        LookLevels.of(plan, look).levels().of(l),
                        LookLevels.of(plan, again).levels().of(l),
                        0.005,
                        plan.rig().get(l).name());
            }
        }
    }

    @Test
    void oneSliderMovesOneLightAndNoOther() {
        Look look = plan.looks().get(0);
        Mix mix = Mix.of(plan, look);
        Map<String, Mix.Lamp> lights = new LinkedHashMap<>(mix.lights());
        Mix.Lamp key = lights.get(look.key());
        lights.put(look.key(), new Mix.Lamp(key.under() + 2, key.colour(), key.blend()));
        Look dimmed = new Mix(mix.kelvin(), mix.iso(), lights).look(plan, look, "dimmed");
        LookLevels before = LookLevels.of(plan, look);
        LookLevels after = LookLevels.of(plan, dimmed);
        for (int i = 0; i < plan.rig().size(); i++) {
            if (before.lights().get(i).on()) {
                double stops =
                        Math.log(
                                        after.lights().get(i).given().orElseThrow().amount().lux()
                                                / before.lights()
                                                        .get(i)
                                                        .given()
                                                        .orElseThrow()
                                                        .amount()
                                                        .lux())
                                / Math.log(2);
                boolean moved = plan.rig().get(i).name().equals(look.key());
                assertEquals(moved ? -2 : 0, stops, 0.02, plan.rig().get(i).name());
            }
        }
    }

    @Test
    void aLightThatTheRigDoesNotHaveIsNamed() {
        Mix mix =
                new Mix(
                        4300,
                        800,
                        Map.of(
                                "lantern",
                                new Mix.Lamp(0, new Colour.Temperature(3200), Blend.BROAD)));
        Look base = plan.looks().get(0);
        assertTrue(
                assertThrows(
                                IllegalArgumentException.class,
                                () -> mix.look(plan, base, "with a lantern"))
                        .getMessage()
                        .contains("lantern"));
    }

    @Test
    void whatLiesOutsideItsRangeIsRefused() {
        Colour white = new Colour.Temperature(4300);
        assertThrows(IllegalArgumentException.class, () -> new Mix.Lamp(-0.1, white, Blend.BROAD));
        assertThrows(
                IllegalArgumentException.class, () -> new Mix.Lamp(Double.NaN, white, Blend.BROAD));
        assertThrows(
                IllegalArgumentException.class,
                () -> new Mix.Lamp(0, new Colour.HueSaturation(10, 1.5), Blend.BROAD));
        assertThrows(IllegalArgumentException.class, () -> new Mix(0, 800, Map.of()));
        assertThrows(IllegalArgumentException.class, () -> new Mix(4300, 0, Map.of()));
    }

    /** Bi-colour lights go from one white to the other, colour lights have hues. */
    @Test
    void rangesAreThoseOfTheLights() {
        for (MixRange range : MixRange.of(plan)) {
            int emitters = plan.light(range.name()).fixture().emitters().size();
            assertEquals(emitters > 2, range.hues(), range.name());
            assertTrue(range.warmestKelvin() <= range.coldestKelvin(), range.name());
            assertTrue(range.leastUnder() > 5, range.name());
        }
    }
}

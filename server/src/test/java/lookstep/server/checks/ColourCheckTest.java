package lookstep.server.checks;

import static lookstep.server.checks.Plans.DEMO;
import static lookstep.server.checks.Plans.number;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lookstep.server.plan.ShootPlan;
import org.junit.jupiter.api.Test;

class ColourCheckTest {
    private static List<Finding> of(ShootPlan plan, String look) {
        return ColourCheck.of(plan, plan.look(look));
    }

    /**
     * 3000 K to 5600 K is 333.33 - 178.57: 154.76 mired colder, a pale blue (common practice; the
     * mired by arithmetic). The slots round the lights by a mired.
     */
    @Test
    void coldBackLightOnAWarmCamera() {
        Finding f = of(DEMO, "warm front, cold back").get(0);
        assertEquals(-154.76, number(f, "mired top"), 0.6);
        assertEquals(0, number(f, "mired key"), 1);
        assertTrue(f.says().contains("‘top’ cold by 155 mired"), f.says());
        assertTrue(f.says().contains("‘key’ neutral"), f.says());
    }

    /** 2700 K against 4300 K: 370.37 - 232.56 = 137.81 mired. */
    @Test
    void houseLightNearTheKeyIsNamed() {
        ShootPlan house =
                Plans.with("house: {lux: 2, kelvin: 2700}", "house: {lux: 60, kelvin: 2700}");
        List<Finding> all = of(house, "safe");
        Finding f =
                all.stream()
                        .filter(x -> x.says().startsWith("the house"))
                        .findFirst()
                        .orElseThrow();
        assertEquals(137.81, number(f, "houseMired"), 0.01);
        // The key gives 202 lx there: log2(202 / 60) = 1.75.
        assertEquals(1.75, number(f, "houseUnderKeyStops"), 0.01);
        assertTrue(of(DEMO, "safe").stream().noneMatch(x -> x.says().startsWith("the house")));
    }

    /** 4300 and 4000 K are 17.4 mired apart. */
    @Test
    void neitherAlikeNorAContrast() {
        ShootPlan near = Plans.with("fill: {stops: -0.7}", "fill: {stops: -0.7, kelvin: 4000}");
        Finding f =
                of(near, "safe").stream()
                        .filter(x -> x.says().contains("too much for the same light"))
                        .findFirst()
                        .orElseThrow();
        assertEquals(17.44, number(f, "meantMired"), 0.01);
    }

    /** A mix of two whites lies under the locus: 4300 K from warm and cold is pinker. */
    @Test
    void lightsThatAreMeantAlikeAndAreNotAreNamedOnce() {
        List<Finding> look =
                of(DEMO, "safe").stream().filter(f -> f.weight() == Weight.LOOK).toList();
        assertEquals(1, look.size(), look.toString());
        assertEquals(0.006, number(look.get(0), "givenDuv"), 0.001);
        assertEquals(4, look.get(0).mend().orElseThrow().changes().size());
    }
}

package lookstep.server.look;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import lookstep.protocols.fixture.Emitter;
import lookstep.server.TestPlans;
import lookstep.server.plan.Light;
import lookstep.server.plan.ShootPlan;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class FadeTest {
    private final ShootPlan plan = TestPlans.threeShots();
    private final Fade fade = new Fade(plan);

    private RigLevels random(Random random) {
        List<double[]> lights = new ArrayList<>();
        for (Light light : plan.rig()) {
            lights.add(
                    random.doubles(light.fixture().emitters().size())
                            .map(v -> random.nextInt(4) == 0 ? 0 : v)
                            .toArray());
        }
        return new RigLevels(lights);
    }

    private double luminous(RigLevels levels, int light) {
        double sum = 0;
        List<Emitter> emitters = plan.rig().get(light).fixture().emitters();
        for (int e = 0; e < emitters.size(); e++) {
            sum += levels.of(light)[e] * emitters.get(e).candela();
        }
        return sum;
    }

    @ParameterizedTest
    @ValueSource(longs = {11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
    void eachLightOnlyRisesOrOnlyFallsEvenlyInLightness(long seed) {
        Random random = new Random(seed);
        RigLevels from = random(random);
        RigLevels to = random(random);
        for (int light = 0; light < plan.rig().size(); light++) {
            double a = Math.cbrt(luminous(from, light));
            double b = Math.cbrt(luminous(to, light));
            for (int i = 0; i <= 100; i++) {
                // CIE 15:2004: lightness goes by the cube root of luminance.
                double lightness = Math.cbrt(luminous(fade.between(from, to, i / 100.0), light));
                assertEquals(a + (b - a) * i / 100, lightness, 1e-6 * (1 + a + b));
            }
        }
    }

    @Test
    void itBeginsAndEndsExactly() {
        Random random = new Random(5);
        RigLevels from = random(random);
        RigLevels to = random(random);
        assertEquals(from, fade.between(from, to, 0));
        assertEquals(to, fade.between(from, to, 1));
        assertEquals(to, fade.between(from, to, 1.5));
    }

    @Test
    void betweenTwoColoursOfOneBrightnessItDoesNotDip() {
        List<double[]> warm = new ArrayList<>();
        List<double[]> cool = new ArrayList<>();
        for (Light light : plan.rig()) {
            int n = light.fixture().emitters().size();
            warm.add(new double[n]);
            cool.add(new double[n]);
        }
        warm.get(0)[0] = 0.5;
        cool.get(0)[1] = 0.5;
        RigLevels a = new RigLevels(warm);
        RigLevels b = new RigLevels(cool);
        double least = Math.min(luminous(a, 0), luminous(b, 0));
        for (int i = 0; i <= 100; i++) {
            assertTrue(luminous(fade.between(a, b, i / 100.0), 0) >= least - 1e-6);
        }
    }
}

package lookstep.simulator.model.colour;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MixingTest {
    private static final Xyz RED = new Chromaticity(0.69, 0.31).toXyz(400);
    private static final Xyz GREEN = new Chromaticity(0.17, 0.70).toXyz(700);
    private static final Xyz BLUE = new Chromaticity(0.14, 0.05).toXyz(150);
    private static final Xyz WHITE = Planck.chromaticity(5600).toXyz(1500);

    // Share of the cool light's luminance for 3000 and 5600 K ends, solved apart with a
    // nearest-point search on the 1 nm table: 3200 0.124, 3500 0.286, 4000 0.507, 4300 0.619,
    // 5000 0.841.
    @ParameterizedTest
    @CsvSource({"3200,0.124", "3500,0.286", "4000,0.507", "4300,0.619", "5000,0.841"})
    void twoWhitesMeetTheWantedTemperature(double kelvin, double coolShare) {
        List<Xyz> ends =
                List.of(
                        Planck.chromaticity(3000).toXyz(1000),
                        Planck.chromaticity(5600).toXyz(1000));
        Mix mix = Mixing.maximum(ends, Planck.chromaticity(kelvin));
        assertTrue(mix.reached());
        double cool = mix.levels()[1] * 1000 / mix.total().y();
        assertEquals(coolShare, cool, 6e-4);
        assertEquals(
                Mired.of(kelvin),
                Mired.of(ColourTemperature.of(mix.total().chromaticity()).kelvin()),
                0.05);
        // The most light: the greater share is at full.
        assertEquals(1, Math.max(mix.levels()[0], mix.levels()[1]), 1e-9);
        assertEquals(1000 / Math.max(cool, 1 - cool), mix.total().y(), 1e-6);
    }

    @Test
    void theEndsOfABiColourLightAreOneEmitterAlone() {
        List<Xyz> ends =
                List.of(
                        Planck.chromaticity(2700).toXyz(800),
                        Planck.chromaticity(6500).toXyz(1200));
        Mix warm = Mixing.maximum(ends, Planck.chromaticity(2700));
        assertEquals(1, warm.levels()[0], 1e-6);
        assertEquals(0, warm.levels()[1], 1e-6);
        Mix beyond = Mixing.maximum(ends, Planck.chromaticity(2000));
        assertEquals(1, beyond.levels()[0], 1e-6);
        assertFalse(beyond.reached());
        assertTrue(beyond.distanceUv() > 0.01);
        // The widest common pair of whites still counts as reached in the middle.
        assertTrue(Mixing.maximum(ends, Planck.chromaticity(4000)).reached());
    }

    @Test
    void aColourFarFromWhiteTakesTheNearestEndOfABiColourLight() {
        List<Xyz> ends =
                List.of(
                        Planck.chromaticity(3000).toXyz(1000),
                        Planck.chromaticity(5600).toXyz(1000));
        Mix mix = Mixing.maximum(ends, new Chromaticity(0.69, 0.30));
        assertFalse(mix.reached());
        assertEquals(1, mix.levels()[0], 1e-9);
        assertEquals(0, mix.levels()[1], 1e-9);
    }

    @Test
    void threeEmittersHaveOneSolution() {
        // With three, the ratios are fixed by the 3 x 3 system; the largest is at full.
        Chromaticity target = new Chromaticity(0.40, 0.38);
        Mix mix = Mixing.maximum(List.of(RED, GREEN, BLUE), target);
        double[][] inverse =
                Matrix3.inverse(
                        new double[][] {
                            {RED.x(), GREEN.x(), BLUE.x()},
                            {RED.y(), GREEN.y(), BLUE.y()},
                            {RED.z(), GREEN.z(), BLUE.z()}
                        });
        Xyz t = target.toXyz(1);
        double[] ratio = Matrix3.times(inverse, t.x(), t.y(), t.z());
        double most = Math.max(ratio[0], Math.max(ratio[1], ratio[2]));
        for (int i = 0; i < 3; i++) {
            assertEquals(ratio[i] / most, mix.levels()[i], 1e-9);
        }
    }

    @Test
    void noRandomMixOfFourBeatsTheMaximum() {
        // Against brute force: for random levels of white and blue, red and green follow from the
        // target; none may give more light.
        List<Xyz> emitters = List.of(RED, GREEN, BLUE, WHITE);
        Random random = new Random(7);
        for (double[] xy : new double[][] {{0.33, 0.34}, {0.25, 0.25}, {0.45, 0.41}, {0.2, 0.1}}) {
            Chromaticity target = new Chromaticity(xy[0], xy[1]);
            Mix mix = Mixing.maximum(emitters, target);
            assertTrue(mix.reached());
            assertEquals(0, mix.distanceUv(), 1e-8);
            Xyz t = target.toXyz(1);
            int tried = 0;
            double best = 0;
            for (int i = 0; i < 20000; i++) {
                Xyz fixed = BLUE.times(random.nextDouble()).plus(WHITE.times(random.nextDouble()));
                // fixed + r RED + g GREEN = s target
                double[] s =
                        Matrix3.times(
                                Matrix3.inverse(
                                        new double[][] {
                                            {-RED.x(), -GREEN.x(), t.x()},
                                            {-RED.y(), -GREEN.y(), t.y()},
                                            {-RED.z(), -GREEN.z(), t.z()}
                                        }),
                                fixed.x(),
                                fixed.y(),
                                fixed.z());
                if (s[0] >= 0 && s[0] <= 1 && s[1] >= 0 && s[1] <= 1) {
                    tried++;
                    best = Math.max(best, s[2]);
                }
            }
            assertTrue(tried > 50, "only " + tried + " mixes were possible");
            assertTrue(best <= mix.total().y() * (1 + 1e-9));
            assertTrue(best > mix.total().y() * 0.85, best + " of " + mix.total().y());
        }
    }

    @Test
    void outsideTheTriangleTheNearestEdgeIsTaken() {
        Chromaticity target = new Chromaticity(0.08, 0.60);
        Mix mix = Mixing.maximum(List.of(RED, GREEN, BLUE), target);
        assertFalse(mix.reached());
        assertEquals(0, mix.levels()[0], 1e-9);
        // No point of a fine walk along the three edges is nearer.
        double nearest = 1;
        Xyz[] c = {RED, GREEN, BLUE, RED};
        for (int e = 0; e < 3; e++) {
            for (int i = 0; i <= 2000; i++) {
                Xyz p = c[e].times(i / 2000.0).plus(c[e + 1].times(1 - i / 2000.0));
                nearest = Math.min(nearest, p.chromaticity().distanceUvPrime(target));
            }
        }
        assertEquals(nearest, mix.distanceUv(), 1e-6);
    }

    @Test
    void refusesNothingAndDarkness() {
        Chromaticity t = Chromaticity.D65;
        assertThrows(IllegalArgumentException.class, () -> Mixing.maximum(List.of(), t));
        assertThrows(IllegalArgumentException.class, () -> Mixing.maximum(List.of(Xyz.ZERO), t));
    }
}

package lookstep.simulator.model.colour;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.SingularValueDecomposition;
import org.apache.commons.math3.optim.linear.LinearConstraint;
import org.apache.commons.math3.optim.linear.LinearConstraintSet;
import org.apache.commons.math3.optim.linear.LinearObjectiveFunction;
import org.apache.commons.math3.optim.linear.NonNegativeConstraint;
import org.apache.commons.math3.optim.linear.Relationship;
import org.apache.commons.math3.optim.linear.SimplexSolver;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

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

    /** Emitters of eight kinds that are really made, a random few of them. */
    private static List<Xyz> some(Random random, int least) {
        List<Xyz> all =
                new ArrayList<>(
                        List.of(
                                RED,
                                GREEN,
                                BLUE,
                                WHITE,
                                Planck.chromaticity(2700).toXyz(1400),
                                new Chromaticity(0.57, 0.42).toXyz(600),
                                new Chromaticity(0.40, 0.57).toXyz(900),
                                new Chromaticity(0.09, 0.30).toXyz(350)));
        Collections.shuffle(all, random);
        return all.subList(0, least + random.nextInt(all.size() + 1 - least));
    }

    private static Chromaticity inside(Random random, List<Xyz> parts) {
        Xyz sum = Xyz.ZERO;
        for (Xyz p : parts) {
            sum = sum.plus(p.times(Math.pow(random.nextDouble(), 3)));
        }
        return sum.chromaticity();
    }

    /** The simplex method of Apache Commons Math, the same problem put to it as it stands. */
    private static double bySimplex(List<Xyz> parts, boolean shared, Chromaticity target) {
        int n = parts.size();
        Xyz t = target.toXyz(1);
        double[] y = new double[n];
        double[] a = new double[n];
        double[] b = new double[n];
        double[] one = new double[n];
        for (int i = 0; i < n; i++) {
            Xyz p = parts.get(i).times(1e-3);
            y[i] = p.y();
            a[i] = p.x() * t.y() - p.y() * t.x();
            b[i] = p.z() * t.y() - p.y() * t.z();
            one[i] = 1;
        }
        List<LinearConstraint> limits = new ArrayList<>();
        limits.add(new LinearConstraint(a, Relationship.EQ, 0));
        limits.add(new LinearConstraint(b, Relationship.EQ, 0));
        if (shared) {
            limits.add(new LinearConstraint(one, Relationship.LEQ, 1));
        } else {
            for (int i = 0; i < n; i++) {
                double[] alone = new double[n];
                alone[i] = 1;
                limits.add(new LinearConstraint(alone, Relationship.LEQ, 1));
            }
        }
        return 1e3
                * new SimplexSolver(1e-9, 100, 1e-12)
                        .optimize(
                                new LinearObjectiveFunction(y, 0),
                                new LinearConstraintSet(limits),
                                GoalType.MAXIMIZE,
                                new NonNegativeConstraint(true))
                        .getValue();
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void theMaximumIsThatOfTheSimplexMethod(boolean shared) {
        Random random = new Random(11);
        for (int k = 0; k < 150; k++) {
            List<Xyz> parts = some(random, 3);
            Chromaticity target = inside(random, parts);
            Mix mix = Mixing.maximum(parts, shared, target);
            assertEquals(0, mix.distanceUv(), 1e-8);
            double most = bySimplex(parts, shared, target);
            assertEquals(most, mix.total().y(), 2e-5 * most, parts + " " + target);
            weightsAreAllowed(mix, shared);
        }
    }

    @Test
    void pairsFindWhatAllVerticesFind() {
        Random random = new Random(19);
        for (int k = 0; k < 400; k++) {
            List<Xyz> parts = new ArrayList<>(some(random, 1));
            if (k % 4 == 0) {
                // Twins, and one that is the sum of two others: ties.
                parts.add(parts.get(0).times(1 + random.nextInt(2)));
                parts.add(parts.get(0).plus(parts.get(parts.size() - 2)));
            }
            Chromaticity target =
                    switch (k % 3) {
                        case 0 -> inside(random, parts);
                        // On the edge, or out of it.
                        case 1 ->
                                NearestColour.of(parts, new Chromaticity(0.1, 0.6)).chromaticity();
                        default -> parts.get(random.nextInt(parts.size())).chromaticity();
                    };
            double[] all = MostLight.everyVertex(parts, target.toXyz(1));
            double[] pairs = MostLight.apart(parts, target.toXyz(1));
            assertEquals(light(parts, all), light(parts, pairs), 1e-6 * light(parts, all));
        }
        assertNull(MostLight.apart(List.of(RED, GREEN, BLUE), new Chromaticity(0.1, 0.6).toXyz(1)));
    }

    private static double light(List<Xyz> parts, double[] weights) {
        double sum = 0;
        for (int i = 0; i < weights.length; i++) {
            sum += weights[i] * parts.get(i).y();
        }
        return sum;
    }

    private static void weightsAreAllowed(Mix mix, boolean shared) {
        double sum = 0;
        double top = 0;
        for (double w : mix.levels()) {
            assertTrue(w >= 0 && w <= 1 + 1e-12, "weight " + w);
            sum += w;
            top = Math.max(top, w);
        }
        assertEquals(1, shared ? sum : top, 1e-9);
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void theBroadestHasTheLeastSquaresOfItsWeights(boolean shared) {
        Random random = new Random(13);
        int more = 0;
        for (int k = 0; k < 150; k++) {
            List<Xyz> parts = some(random, 3);
            Chromaticity target = inside(random, parts);
            Mix broad = Mixing.broadest(parts, shared, target);
            Mix most = Mixing.maximum(parts, shared, target);
            weightsAreAllowed(broad, shared);
            assertEquals(0, broad.distanceUv(), 1e-6);
            assertEquals(
                    1,
                    Math.max(1, broad.total().y() / most.total().y()),
                    2e-5,
                    parts + " " + target);
            // Brute force: for each choice of parts the least squares that meet the colour exactly
            // are given by the pseudo-inverse; the best that is nowhere below 0 is the answer.
            double least = Double.MAX_VALUE;
            for (int some = 1; some < 1 << parts.size(); some++) {
                least = Math.min(least, square(parts, some, broad.total()));
            }
            double square = 0;
            for (double w : broad.levels()) {
                square += w * w;
            }
            assertEquals(least, square, 1e-5 * least);
            more += used(broad) - used(most);
        }
        assertTrue(more > (shared ? 100 : 20), "emitters more in use: " + more);
    }

    private static int used(Mix mix) {
        return (int) Arrays.stream(mix.levels()).filter(w -> w > 0.01).count();
    }

    private static double square(List<Xyz> parts, int some, Xyz wanted) {
        List<Xyz> chosen = new ArrayList<>();
        for (int i = 0; i < parts.size(); i++) {
            if ((some >> i & 1) != 0) {
                chosen.add(parts.get(i));
            }
        }
        double[][] rows = new double[3][chosen.size()];
        for (int i = 0; i < chosen.size(); i++) {
            rows[0][i] = chosen.get(i).x();
            rows[1][i] = chosen.get(i).y();
            rows[2][i] = chosen.get(i).z();
        }
        Array2DRowRealMatrix m = new Array2DRowRealMatrix(rows);
        double[] right = {wanted.x(), wanted.y(), wanted.z()};
        double[] w =
                new SingularValueDecomposition(m)
                        .getSolver()
                        .solve(new ArrayRealVector(right))
                        .toArray();
        double square = 0;
        for (double v : w) {
            if (v < -1e-9) {
                return Double.MAX_VALUE;
            }
            square += v * v;
        }
        double[] got = m.operate(w);
        double miss =
                Math.abs(got[0] - right[0])
                        + Math.abs(got[1] - right[1])
                        + Math.abs(got[2] - right[2]);
        return miss < 1e-4 * wanted.y() ? square : Double.MAX_VALUE;
    }

    @Test
    void twoOrThreeHaveOnlyOneMix() {
        Random random = new Random(17);
        for (int k = 0; k < 200; k++) {
            List<Xyz> parts = some(random, 2);
            parts = parts.subList(0, Math.min(parts.size(), 3));
            Chromaticity target =
                    new Chromaticity(
                            0.2 + 0.3 * random.nextDouble(), 0.2 + 0.3 * random.nextDouble());
            for (boolean shared : new boolean[] {false, true}) {
                Mix most = Mixing.maximum(parts, shared, target);
                Mix broad = Mixing.broadest(parts, shared, target);
                assertArrayEquals(most.levels(), broad.levels(), 1e-5);
            }
        }
    }

    @Test
    void aSlotThatBlendsTwoWhitesGivesTheirWeightedMean() {
        List<Xyz> ends =
                List.of(
                        Planck.chromaticity(3000).toXyz(1000),
                        Planck.chromaticity(5600).toXyz(1000));
        // Half and half of the luminance is 3982 K (computed apart with a nearest-point search).
        Mix mix = Mixing.maximum(ends, true, Planck.chromaticity(3982));
        assertEquals(0.5, mix.levels()[0], 1e-3);
        assertEquals(1, mix.levels()[0] + mix.levels()[1], 1e-12);
        assertEquals(1000, mix.total().y(), 1e-6);
        // Each white by itself at full gives twice that.
        Mix apart = Mixing.maximum(ends, Planck.chromaticity(3982));
        assertEquals(2000, apart.total().y(), 4);
    }

    @Test
    void aFourthEmitterOutsideOfReachChangesNothingOfTheNearest() {
        Chromaticity target = new Chromaticity(0.08, 0.60);
        List<Xyz> four = List.of(RED, GREEN, BLUE, WHITE);
        for (boolean shared : new boolean[] {false, true}) {
            Mix broad = Mixing.broadest(four, shared, target);
            assertFalse(broad.reached());
            Mix most = Mixing.maximum(four, shared, target);
            assertEquals(most.distanceUv(), broad.distanceUv(), 1e-5);
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

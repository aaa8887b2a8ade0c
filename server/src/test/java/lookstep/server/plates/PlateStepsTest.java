package lookstep.server.plates;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.protocols.fixture.Mode;
import lookstep.server.live.PlateStep;
import lookstep.server.look.Photometry;
import lookstep.server.look.RigLevels;
import lookstep.server.look.RigPackets;
import lookstep.server.plan.Light;
import lookstep.server.plan.Modifier;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.file.DemoShoot;
import lookstep.simulator.model.colour.WhiteBalance;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class PlateStepsTest {
    private static final ShootPlan DEMO = DemoShoot.read(GenericFixtures.all()).at("");
    private static final Shot SHOT = DEMO.shots().get(0);

    /** The demo's camera. */
    private static final double KELVIN = 4300;

    private static ModelledPlates model() {
        return ModelledPlates.of(
                DEMO, SHOT, DEMO.look(SHOT.look()), DEMO.look(SHOT.look()).camera(), false);
    }

    private static final ModelledPlates MODEL = model();
    private static final List<PlateStep> STEPS = PlateSteps.of(MODEL, KELVIN);

    @Test
    void theDemosRigTakesSeventeenFrames() {
        // four lights of 2 + 2 + 4 + 4 emitters, the house, and four shares of the ramp
        assertEquals(17, STEPS.size());
        assertEquals(17, PlateSteps.count(DEMO, KELVIN));
        assertEquals("house only", STEPS.get(0).name());
        assertTrue(STEPS.get(0).house());
        assertEquals("‘key’ warm alone", STEPS.get(1).name());
        assertTrue(STEPS.stream().anyMatch(s -> s.name().equals("‘rim’ blue with white alone")));
        assertEquals(4, STEPS.stream().filter(s -> s.name().contains(" at 1/")).count());
    }

    @Test
    void theLevelsAreThoseThatReallyGoOut() {
        for (PlateStep step : STEPS) {
            RigLevels levels = step.rig();
            for (int l = 0; l < DEMO.rig().size(); l++) {
                assertArrayEquals(
                        RigPackets.throughSlots(DEMO.rig().get(l), levels.of(l)),
                        levels.of(l),
                        1e-12,
                        step.name());
            }
        }
    }

    @Test
    void onlyTheHouseIsOnInTheFirstAndOneLightInEachOther() {
        for (PlateStep step : STEPS) {
            List<String> on =
                    Stream.iterate(0, i -> i < DEMO.rig().size(), i -> i + 1)
                            .filter(i -> DoubleStream.of(step.rig().of(i)).sum() > 0)
                            .map(i -> DEMO.rig().get(i).name())
                            .toList();
            assertEquals(step.house() ? List.of() : List.of(step.light()), on, step.name());
        }
    }

    @Test
    void nothingBurnsAndNothingIsDarkerThanItMustBe() {
        float[] house = MODEL.house();
        for (PlateStep step : STEPS) {
            if (!step.house() && (step.share() == 0 || step.share() == 1)) {
                float[] added = MODEL.added(step.rig());
                double[] seen = new double[added.length];
                for (int i = 0; i < seen.length; i++) {
                    seen[i] = MODEL.lamp(i / 3) ? 0 : house[i] + added[i];
                }
                Arrays.sort(seen);
                double brightest = seen[(int) (seen.length * 0.995)];
                boolean full = step.levels().stream().flatMap(List::stream).anyMatch(l -> l > 0.99);
                assertTrue(brightest <= 0.72, step.name() + " " + brightest);
                assertTrue(full || brightest > 0.6, step.name() + " " + brightest);
            }
        }
    }

    @Test
    void theRampIsOneLightAtSharesThatItsSlotsCanGive() {
        List<PlateStep> ramp = STEPS.stream().filter(s -> s.share() > 0).toList();
        assertEquals(1, ramp.get(0).share());
        PlateStep top = ramp.get(0);
        assertEquals(5, ramp.size());
        double wanted = 1;
        for (PlateStep step : ramp) {
            assertEquals(wanted, step.share(), 0.1 * wanted, step.name());
            assertEquals(top.light(), step.light());
            for (int l = 0; l < step.levels().size(); l++) {
                for (int e = 0; e < step.levels().get(l).size(); e++) {
                    assertEquals(
                            top.levels().get(l).get(e) * step.share(),
                            step.levels().get(l).get(e),
                            1e-9);
                }
            }
            wanted /= 2;
        }
    }

    static Stream<Arguments> lightsAndWhites() {
        List<Arguments> all = new ArrayList<>();
        for (Fixture fixture : GenericFixtures.all()) {
            for (Mode mode : fixture.modes()) {
                for (double kelvin : new double[] {2700, 3200, 4300, 5600, 7500}) {
                    all.add(Arguments.of(fixture, mode, kelvin));
                }
            }
        }
        return all.stream();
    }

    private static Light light(Fixture fixture, Mode mode) {
        return new Light(
                "lamp",
                fixture,
                mode,
                1,
                1,
                new Vec3(0, -2, 2),
                new Vec3(0, 0, 1.5),
                new Modifier("bare", 0, 1, 0, false));
    }

    /** At a fifth of their level, where slots of 8 bits are coarse. */
    @ParameterizedTest
    @MethodSource("lightsAndWhites")
    void noChannelIsBelowNothingAndTheEmittersAreToldApart(
            Fixture fixture, Mode mode, double kelvin) {
        Light light = light(fixture, mode);
        int n = fixture.emitters().size();
        List<PlateMix> mixes = PlateMix.of(light, kelvin);
        // a tint drives red and blue together: nothing tells them apart, and no look needs it
        int told = mode.id().contains("tint") ? n - 1 : n;
        assertEquals(told, mixes.size());
        double[][] rows = new double[told][];
        for (int i = 0; i < told; i++) {
            double[] levels =
                    RigPackets.throughSlots(
                            light,
                            DoubleStream.of(mixes.get(i).levels()).map(l -> l * 0.2).toArray());
            double[] rgb = new WhiteBalance(kelvin).linearSrgb(Photometry.intensity(light, levels));
            double most = DoubleStream.of(rgb).max().orElseThrow();
            for (double channel : rgb) {
                assertTrue(channel >= -0.011 * most, mixes.get(i) + " is clipped");
            }
            double length = Math.sqrt(DoubleStream.of(levels).map(l -> l * l).sum());
            rows[i] = DoubleStream.of(levels).map(l -> l / length).toArray();
        }
        assertTrue(condition(rows) < 12, "condition " + condition(rows));
    }

    /**
     * Of a matrix: the largest against the smallest singular value, by its Gram matrix (Jacobi).
     */
    private static double condition(double[][] rows) {
        int n = rows.length;
        double[][] g = new double[n][n];
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                for (int k = 0; k < rows[i].length; k++) {
                    g[i][j] += rows[i][k] * rows[j][k];
                }
            }
        }
        for (int sweep = 0; sweep < 50; sweep++) {
            for (int p = 0; p < n; p++) {
                for (int q = p + 1; q < n; q++) {
                    if (Math.abs(g[p][q]) > 1e-15) {
                        double angle = 0.5 * Math.atan2(2 * g[p][q], g[q][q] - g[p][p]);
                        double c = Math.cos(angle);
                        double s = Math.sin(angle);
                        for (int k = 0; k < n; k++) {
                            double a = g[k][p];
                            double b = g[k][q];
                            g[k][p] = c * a - s * b;
                            g[k][q] = s * a + c * b;
                        }
                        for (int k = 0; k < n; k++) {
                            double a = g[p][k];
                            double b = g[q][k];
                            g[p][k] = c * a - s * b;
                            g[q][k] = s * a + c * b;
                        }
                    }
                }
            }
        }
        double least = Double.MAX_VALUE;
        double most = 0;
        for (int i = 0; i < n; i++) {
            least = Math.min(least, g[i][i]);
            most = Math.max(most, g[i][i]);
        }
        return Math.sqrt(most / least);
    }
}

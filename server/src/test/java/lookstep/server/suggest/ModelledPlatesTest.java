package lookstep.server.suggest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.BiConsumer;
import lookstep.server.look.LookLevels;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.prediction.Predictions;
import lookstep.server.prediction.Staging;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.optics.Exposure;
import lookstep.simulator.model.picture.LinearPicture;
import lookstep.simulator.model.picture.Part;
import lookstep.simulator.model.picture.Plates;
import lookstep.simulator.model.picture.Renderer;
import org.junit.jupiter.api.Test;

class ModelledPlatesTest {
    private static final int WIDE = 96;
    private static final int HIGH = 64;

    private final ShootPlan plan = Rigs.four();
    private final Shot shot = Rigs.first(plan);
    private final ModelledPlates modelled = ModelledPlates.of(plan, shot, plan.rig(), WIDE);

    private static double[] weights(ShootPlan plan, LookLevels levels, int emitters) {
        double[] all = new double[emitters];
        int at = 0;
        for (int l = 0; l < plan.rig().size(); l++) {
            for (double level : levels.levels().of(l)) {
                all[at++] = level;
            }
        }
        return all;
    }

    /** Pictures of all looks, as the model composes them and as the plates sum up. */
    private void both(BiConsumer<Look, float[][]> compare) {
        Plates lit =
                Renderer.plates(Staging.scene(plan, shot), Staging.camera(plan, shot), WIDE, HIGH);
        for (Look look : plan.looks()) {
            LookLevels levels = LookLevels.of(plan, look);
            Camera camera = Staging.camera(plan, shot, look).exact().focused(Camera.ALL_SHARP);
            LinearPicture whole =
                    lit.compose(
                            Predictions.intensities(plan, levels.levels()),
                            Predictions.houseWhite(plan),
                            camera);
            float[] wanted = new float[WIDE * HIGH * 3];
            for (int i = 0; i < WIDE * HIGH; i++) {
                double[] rgb = whole.at(i % WIDE, Math.floorDiv(i, WIDE));
                for (int c = 0; c < 3; c++) {
                    wanted[i * 3 + c] = (float) rgb[c];
                }
            }
            float[] sum =
                    modelled.plates()
                            .mix(
                                    1,
                                    weights(plan, levels, modelled.plates().emitters()),
                                    Exposure.scale(camera),
                                    camera.whiteBalanceKelvin());
            compare.accept(look, new float[][] {wanted, sum});
        }
    }

    @Test
    void everyLookIsTheWeightedSumOfThePlates() {
        AtomicInteger compared = new AtomicInteger();
        both(
                (look, pictures) -> {
                    if (look.camera().kelvin() == modelled.plates().kelvin()) {
                        compared.incrementAndGet();
                        for (int i = 0; i < pictures[0].length; i++) {
                            float wanted = pictures[0][i];
                            assertEquals(
                                    wanted,
                                    pictures[1][i],
                                    2e-5 * Math.max(1, Math.abs(wanted)),
                                    look.name());
                        }
                    }
                });
        assertEquals(4, compared.get());
    }

    /**
     * The model reflects in the camera's own red, green and blue, so at another white balance its
     * coloured surfaces come out a little different; real plates are balanced afterwards too.
     */
    @Test
    void atAnotherWhiteBalanceItIsNearlyThat() {
        AtomicInteger compared = new AtomicInteger();
        both(
                (look, pictures) -> {
                    if (look.camera().kelvin() != modelled.plates().kelvin()) {
                        compared.incrementAndGet();
                        double off = 0;
                        double all = 0;
                        for (int i = 0; i < pictures[0].length; i++) {
                            off += Math.abs(pictures[1][i] - pictures[0][i]);
                            all += Math.abs(pictures[0][i]);
                        }
                        assertTrue(off < 0.02 * all, look.name() + " is off by " + off / all);
                    }
                });
        assertEquals(2, compared.get());
    }

    @Test
    void theCastIsThePeopleOfTheModel() {
        Plates lit =
                Renderer.plates(Staging.scene(plan, shot), Staging.camera(plan, shot), WIDE, HIGH);
        int skin = 0;
        for (int i = 0; i < WIDE * HIGH; i++) {
            Part part = lit.partAt(i % WIDE, Math.floorDiv(i, WIDE));
            assertEquals(part == Part.SKIN, modelled.cast().skin()[i]);
            assertEquals(part.ofFigure(), modelled.cast().figure()[i] >= 0);
            skin += modelled.cast().skin()[i] ? 1 : 0;
        }
        assertTrue(skin > 50, "skin in " + skin + " pixels");
        assertEquals(5, new SamplePoints(modelled.cast()).people());
    }

    @Test
    void platesOfAnotherRigAreRefused() {
        SamplePoints points = new SamplePoints(modelled.cast());
        List<lookstep.server.plan.Light> three = plan.rig().subList(0, 3);
        IllegalArgumentException wrong =
                assertThrows(
                        IllegalArgumentException.class,
                        () -> RigSamples.of(modelled.plates(), points, three));
        assertTrue(wrong.getMessage().contains("12 emitters"), wrong.getMessage());
    }
}

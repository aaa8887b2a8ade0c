package lookstep.server.measuring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import javax.imageio.ImageIO;
import lookstep.server.DemoPlan;
import lookstep.server.checks.MeasuredLight.Factors;
import lookstep.server.live.PlateStep;
import lookstep.server.look.Photometry;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Look;
import lookstep.server.plan.RigHash;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plates.MeasuredSet;
import lookstep.server.plates.ModelledPlates;
import lookstep.server.plates.PlateSteps;
import lookstep.server.prediction.Predictions;
import lookstep.server.prediction.Staging;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.optics.Exposure;
import lookstep.simulator.model.picture.Plates;
import lookstep.simulator.model.picture.Renderer;
import lookstep.simulator.model.plates.CodedPicture;
import lookstep.simulator.model.plates.PlateStack;
import lookstep.simulator.model.plates.Response;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.scene.Scene;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;

/**
 * Frames of a simulated set that differs from the plan in one known thing, through 8-bit JPEG: what
 * is measured in them is that thing, and nothing else.
 */
class MeasuredSceneTest {
    private static final ShootPlan PLAN = DemoPlan.read();
    private static final Shot SHOT = PLAN.shots().get(0);
    private static final Look LOOK = PLAN.look(SHOT.look());

    /** A quarter of a stop: the outline that is found is not the outline that is there. */
    private static final double WITHIN_STOPS = 0.25;

    /** Of somebody who stands elsewhere it is guessed how far behind, so the light is too. */
    private static final double ASIDE_STOPS = 0.4;

    /** The set as it really is. */
    private record Truth(double house, double rim, double people) {
        static final Truth AS_PLANNED = new Truth(1, 1, 0);
    }

    private static MeasuredScene scene(Truth truth) throws IOException {
        CameraSettings set = LOOK.camera();
        ShootPlan placed = PLAN.placed(LOOK);
        Camera camera = Staging.camera(placed, SHOT, LOOK).exact();
        Scene planned = Staging.scene(placed, SHOT, LOOK);
        Scene real =
                new Scene(
                        planned.figures().stream().map(f -> beside(f, truth.people())).toList(),
                        planned.room(),
                        planned.luminaires(),
                        planned.houseLux() * truth.house());
        Plates lit = Renderer.plates(real, camera, 600, 400);
        List<PlateStep> steps =
                PlateSteps.of(ModelledPlates.of(PLAN, SHOT, LOOK, set, false), set.kelvin());
        List<PlateStack.Taken> taken = new ArrayList<>();
        for (PlateStep step : steps) {
            List<Xyz> sent = new ArrayList<>();
            for (int l = 0; l < placed.rig().size(); l++) {
                double share = placed.rig().get(l).name().equals("rim") ? truth.rim() : 1;
                sent.add(
                        Photometry.intensity(placed.rig().get(l), step.rig().of(l)).times(share));
            }
            BufferedImage frame =
                    lit.compose(sent, Predictions.houseWhite(PLAN), camera).toImage();
            taken.add(
                    new PlateStack.Taken(
                            CodedPicture.of(throughJpeg(frame)),
                            step.levels().stream()
                                    .flatMap(List::stream)
                                    .mapToDouble(Double::doubleValue)
                                    .toArray(),
                            Exposure.scale(camera)));
        }
        MeasuredSet plates =
                new MeasuredSet(
                        "1",
                        PlateStack.of(Response.SRGB, set.kelvin(), taken),
                        steps,
                        SHOT.id(),
                        LOOK.name(),
                        set,
                        RigHash.of(PLAN.rig()),
                        false,
                        0,
                        List.of());
        return MeasuredScene.of(plates, PLAN, "measured");
    }

    private static Figure beside(Figure f, double metres) {
        return f.at(f.feet().plus(new Vec3(metres, 0, 0)));
    }

    private static BufferedImage throughJpeg(BufferedImage image) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ImageIO.write(image, "jpeg", out);
        return ImageIO.read(new ByteArrayInputStream(out.toByteArray()));
    }

    private static double stops(double factor) {
        return Math.log(factor) / Math.log(2);
    }

    private static void assertLights(MeasuredScene scene, double rimStops, double onPeople) {
        for (int l = 0; l < PLAN.rig().size(); l++) {
            String name = PLAN.rig().get(l).name();
            Factors f = scene.light().lights().get(l);
            double wanted = name.equals("rim") ? rimStops : 0;
            String says = name + " " + f + ", certainty " + scene.certainty();
            assertEquals(wanted, stops(f.background()), WITHIN_STOPS, says);
            assertEquals(wanted, stops(f.floor()), WITHIN_STOPS, says);
            assertEquals(wanted, stops(f.people()), onPeople, says);
        }
    }

    @Test
    void ofASetAsPlannedNothingIsOtherwiseThanComputed() throws IOException {
        MeasuredScene scene = scene(Truth.AS_PLANNED);
        assertTrue(scene.certainty() > 0.5, "certainty " + scene.certainty());
        assertTrue(scene.doubts().isEmpty(), scene.doubts().toString());
        assertLights(scene, 0, WITHIN_STOPS);
    }

    @Test
    void aHouseThatIsTwoStopsBrighterIsFoundAndNoLightIsBlamed() throws IOException {
        MeasuredScene scene = scene(new Truth(4, 1, 0));
        Factors house = scene.light().house();
        assertEquals(2, stops(house.people()), WITHIN_STOPS, house.toString());
        assertEquals(2, stops(house.floor()), WITHIN_STOPS, house.toString());
        assertLights(scene, 0, WITHIN_STOPS);
    }

    @Test
    void aLightThatGivesHalfIsFoundAndNoOtherIsBlamed() throws IOException {
        assertLights(scene(new Truth(1, 0.5, 0)), -1, WITHIN_STOPS);
    }

    @Test
    void peopleWhoStandAHandsBreadthBesideTheirPlacesAreFound() throws IOException {
        MeasuredScene scene = scene(new Truth(1, 1, 0.1));
        assertTrue(scene.certainty() > 0.5, "certainty " + scene.certainty());
        assertLights(scene, 0, ASIDE_STOPS);
    }
}

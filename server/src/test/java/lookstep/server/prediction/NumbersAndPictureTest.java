package lookstep.server.prediction;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lookstep.server.TestPlans;
import lookstep.server.look.LookLevels;
import lookstep.server.plan.Place;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.picture.Part;
import lookstep.simulator.model.picture.Plates;
import lookstep.simulator.model.picture.Renderer;
import lookstep.simulator.model.scene.Arrangement;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.scene.Scene;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;

/**
 * The lux that a picture is made from, against the lux that {@code check} says. The background is a
 * grey card where the faces are; nobody stands before it.
 */
class NumbersAndPictureTest {
    private static final ShootPlan PLAN = withACardAtTheFaces(TestPlans.threeShots());
    private static final Shot SHOT = inALine(PLAN.shots().get(0));

    @Test
    void agreeOnACardAtTheFaces() {
        ShotNumbers numbers = ShotNumbers.of(PLAN, SHOT);
        Scene staged = Staging.scene(PLAN, SHOT);
        List<Xyz> sent =
                Predictions.intensities(PLAN, LookLevels.of(PLAN, PLAN.look(SHOT.look())).levels());
        assertEquals(5, numbers.faceLux().size());
        for (int i = 0; i < 5; i++) {
            Plates plates = card(staged, staged.figures().get(i));
            assertEquals(Part.BACKGROUND, plates.partAt(4, 4));
            double lux = staged.houseLux();
            for (int lamp = 0; lamp < sent.size(); lamp++) {
                lux += sent.get(lamp).y() * plates.luxPerCandela(lamp, 4, 4);
            }
            assertEquals(lux, numbers.faceLux().get(i), 0.002 * lux, "face " + i);
        }
    }

    /** The rim stands at y = 2 m, behind the card: dark in the picture, and not in the numbers. */
    @Test
    void aLampBehindTheBackgroundLightsNothing() {
        Scene staged = Staging.scene(PLAN, SHOT);
        int rim = PLAN.rig().indexOf(PLAN.light("rim left"));
        double candela =
                Predictions.intensities(PLAN, LookLevels.of(PLAN, PLAN.look(SHOT.look())).levels())
                        .get(rim)
                        .y();
        assertTrue(candela > 100, "it is on: " + candela);
        assertEquals(0, card(staged, staged.figures().get(2)).luxPerCandela(rim, 4, 4));
        Shot dark = withLook(SHOT, "rim only");
        for (double lux : ShotNumbers.of(PLAN, dark).faceLux()) {
            assertEquals(PLAN.house().lux(), lux, 1e-9);
        }
    }

    /** Nine by nine pixels, the face's place in the middle one. */
    private static Plates card(Scene staged, Figure figure) {
        Scene bare = new Scene(List.of(), staged.room(), staged.luminaires(), staged.houseLux());
        Camera camera = new Camera(new Vec3(0, -3, 1.5), figure.face(), 200, 8, 0.01, 3200, 4300);
        return Renderer.plates(bare, camera, 9, 9);
    }

    private static ShootPlan withACardAtTheFaces(ShootPlan p) {
        Place at = p.place();
        return new ShootPlan(
                p.title(),
                new Place(
                        at.name(),
                        at.widthMetres(),
                        at.depthMetres(),
                        at.heightMetres(),
                        0.0005,
                        0.18,
                        at.floorReflectance(),
                        at.wallReflectance()),
                p.house(),
                p.windowSeconds(),
                p.people(),
                p.rig(),
                p.looks(),
                p.shots());
    }

    private static Shot inALine(Shot s) {
        return copy(s, s.look(), PLAN.shots().get(2).arrangement());
    }

    private static Shot withLook(Shot s, String look) {
        return copy(s, look, s.arrangement());
    }

    private static Shot copy(Shot s, String look, Arrangement arrangement) {
        return new Shot(
                s.id(),
                s.name(),
                s.safe(),
                look,
                s.people(),
                arrangement,
                s.lensMillimetres(),
                s.distanceMetres(),
                s.cameraHeightMetres(),
                s.framing(),
                s.say(),
                s.importance());
    }
}

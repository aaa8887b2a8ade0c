package lookstep.server.prediction;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import lookstep.server.TestPlans;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.simulator.model.light.Luminaire;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.scene.Arrangement;
import lookstep.simulator.model.scene.Arrangement.Kind;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.scene.Room;
import lookstep.simulator.model.scene.Scene;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;

class StagingTest {
    private static final ShootPlan PLAN = TestPlans.threeShots();

    private static double[] turns(Arrangement arrangement) {
        Shot s = PLAN.shots().get(0);
        Shot placed =
                new Shot(
                        s.id(),
                        s.name(),
                        s.safe(),
                        s.look(),
                        s.people(),
                        arrangement,
                        s.lensMillimetres(),
                        s.distanceMetres(),
                        s.cameraHeightMetres(),
                        s.framing(),
                        s.say(),
                        s.importance());
        return Staging.scene(PLAN, placed).figures().stream()
                .mapToDouble(Figure::turnDegrees)
                .toArray();
    }

    private static Arrangement line(double spacing) {
        return new Arrangement(Kind.LINE, false, spacing, 0, List.of());
    }

    private static void assertPoint(double x, double y, double z, Vec3 p) {
        assertEquals(0, p.minus(new Vec3(x, y, z)).length(), 1e-9, p.toString());
    }

    /** 12 degrees a metre towards the middle: 0.55 m is 6.6, 1.1 m is 13.2 degrees. */
    @Test
    void peopleTurnInTowardsTheMiddle() {
        double[] turns = turns(line(0.55));
        double[] expected = {13.2, 6.6, 0, -6.6, -13.2};
        for (int i = 0; i < 5; i++) {
            assertEquals(expected[i], turns[i], 1e-9);
        }
    }

    /** At 2 and 4 m it would be 24 and 48 degrees. */
    @Test
    void nobodyTurnsMoreThanFifteenDegrees() {
        double[] turns = turns(line(2));
        double[] expected = {15, 15, 0, -15, -15};
        for (int i = 0; i < 5; i++) {
            assertEquals(expected[i], turns[i], 1e-9);
        }
    }

    /**
     * Five in a V at 0.55 m: two steps of 0.55 sin 30 = 0.275 m deep, so the middle of the depth is
     * at y = 0.275 m. At 4.2 m a 35 mm lens takes in 4.2 x 24 / 35 = 2.88 m, more than people are
     * high: it aims half way up 1.7 m.
     */
    @Test
    void theCameraStandsInFrontOfTheNearestFace() {
        Camera camera = Staging.camera(PLAN, PLAN.shots().get(0));
        assertPoint(0, -4.2, 1.5, camera.position());
        assertPoint(0, 0.275, 0.85, camera.target());
        assertEquals(35, camera.focalMillimetres());
        assertEquals(8, camera.fNumber());
        assertEquals(1 / 125.0, camera.seconds());
        assertEquals(3200, camera.iso());
        assertEquals(4300, camera.whiteBalanceKelvin());
    }

    /**
     * At 3 m a 50 mm lens takes in 3 x 24 / 50 = 1.44 m; a tenth is left above 1.7 m, so its middle
     * is at 1.7 + 0.144 - 0.72 = 1.124 m.
     */
    @Test
    void aNearPictureLeavesATenthAboveTheHead() {
        ShootPlan one = TestPlans.oneDimmer();
        assertPoint(0, 0, 1.124, Staging.camera(one, one.shots().get(0)).target());
    }

    @Test
    void theSceneIsThePlan() {
        Scene scene = Staging.scene(PLAN, PLAN.shots().get(0));
        // A V of 0.55 m at 30 degrees: the outer two are 2 x 0.4763 m to the side, 0.55 m behind.
        assertEquals(-0.9526, scene.figures().get(0).feet().x(), 1e-4);
        assertEquals(0.55, scene.figures().get(0).feet().y(), 1e-9);
        assertPoint(0, 0, 0, scene.figures().get(2).feet());
        assertEquals(20, scene.houseLux());
        Room room = scene.room();
        assertEquals(2.5, room.backgroundMetres());
        assertEquals(9, room.depthMetres());
        assertEquals(0.1, room.floor().luminous(), 1e-6);
        // A 90 degree softbox on a panel of 100 degrees; a bare panel.
        Luminaire key = scene.luminaires().get(0);
        assertPoint(-2, -2.6, 2.3, key.position());
        assertEquals(90, key.beamDegrees());
        assertEquals(0.9, key.sizeMetres());
        assertEquals(100, scene.luminaires().get(1).beamDegrees());
        assertEquals(4, scene.luminaires().size());
    }
}

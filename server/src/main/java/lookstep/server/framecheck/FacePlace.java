package lookstep.server.framecheck;

import java.util.ArrayList;
import java.util.List;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.prediction.Staging;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.space.Vec3;

/**
 * Where the plan has a face.
 *
 * @param name whose
 * @param skin how it reflects, linear luminance
 * @param behindMetres behind the nearest face
 * @param metre a square metre around its middle, facing the camera, in the picture
 */
record FacePlace(String name, double skin, double behindMetres, Box metre) {
    /**
     * Brow to chin and cheek to cheek, without the hair: less than the 0.18 m by 0.14 m of a face
     * (from memory, tables of head sizes).
     */
    static final double WIDE_METRES = 0.105;

    static final double HIGH_METRES = 0.13;

    /** The eyes are above the middle of what is measured. */
    private static final double UNDER_THE_EYES_METRES = 0.03;

    /** The face is in front of what it stands on. */
    private static final double BEFORE_THE_FEET_METRES = 0.08;

    /** The face itself. */
    Box face() {
        return metre.times(WIDE_METRES, HIGH_METRES);
    }

    /** For everybody in the shot, from left to right as the plan says. */
    static List<FacePlace> of(ShootPlan plan, Shot shot, Look look, double width, double height) {
        Sight sight = new Sight(Staging.camera(plan, shot, look), width, height);
        List<Figure> figures = Staging.scene(plan, shot).figures();
        List<FacePlace> places = new ArrayList<>();
        for (int i = 0; i < figures.size(); i++) {
            Figure f = figures.get(i);
            Vec3 middle =
                    f.face().plus(new Vec3(0, -BEFORE_THE_FEET_METRES, -UNDER_THE_EYES_METRES));
            places.add(
                    new FacePlace(
                            shot.people().get(i),
                            f.skin().luminous(),
                            f.feet().y(),
                            sight.project(middle, 1, 1)));
        }
        return places;
    }
}

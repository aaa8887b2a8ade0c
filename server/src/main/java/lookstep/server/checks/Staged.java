package lookstep.server.checks;

import java.util.ArrayList;
import java.util.List;
import lookstep.server.look.LookLevels;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.prediction.Predictions;
import lookstep.server.prediction.Staging;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.scene.LampInRoom;
import lookstep.simulator.model.scene.Scene;

/**
 * One shot put on the model's stage, for the checks to look at.
 *
 * @param plan the plan, with the rig as it stands for the look
 * @param shot which
 * @param look its look
 * @param levels what its lights give
 * @param scene people, room and lamps
 * @param camera exact values
 * @param lamps what each lamp brings, in the rig's order
 * @param sent what each sends out, candela
 * @param measured of the lights, against what is computed
 */
record Staged(
        ShootPlan plan,
        Shot shot,
        Look look,
        LookLevels levels,
        Scene scene,
        Camera camera,
        List<LampInRoom> lamps,
        List<Xyz> sent,
        MeasuredLight measured) {
    /** As computed. */
    static Staged of(ShootPlan plan, Shot shot) {
        return of(plan, shot, MeasuredLight.NONE);
    }

    /** With what was measured of the lights. */
    static Staged of(ShootPlan plan, Shot shot, MeasuredLight measured) {
        Look look = plan.look(shot.look());
        ShootPlan placed = plan.placed(look);
        LookLevels levels = LookLevels.of(plan, look);
        Scene scene = Staging.scene(plan, shot);
        return new Staged(
                placed,
                shot,
                look,
                levels,
                scene,
                Staging.camera(plan, shot).exact(),
                scene.luminaires().stream().map(l -> new LampInRoom(l, scene.room())).toList(),
                Predictions.intensities(placed, levels.levels()),
                measured);
    }

    /** What was measured of a light; nothing of one that stands elsewhere in this look. */
    MeasuredLight.Factors factors(int light) {
        return look.moved().containsKey(plan.rig().get(light).name())
                ? MeasuredLight.Factors.ONE
                : measured.of(light);
    }

    /** Name of who stands in a place of the scene. */
    String name(int figure) {
        return shot.people().get(figure);
    }

    /** Circle of confusion of the plan's sensor. */
    double circleMillimetres() {
        return Staging.circleMillimetres(plan);
    }

    /** How far the hindmost feet are behind the foremost. */
    double depthMetres() {
        return scene.figures().stream().mapToDouble(f -> f.feet().y()).max().orElse(0);
    }

    /** Light on each face, left to right as the shot has them. */
    List<FaceLight> faces() {
        List<FaceLight> all = new ArrayList<>();
        for (Figure f : scene.figures()) {
            all.add(FaceLight.of(this, f));
        }
        return all;
    }

    /** Names of the lights that are on. */
    List<String> on() {
        List<String> names = new ArrayList<>();
        for (int i = 0; i < sent.size(); i++) {
            if (sent.get(i).y() > 0) {
                names.add(plan.rig().get(i).name());
            }
        }
        return names;
    }

    /** Where a light of the rig is in its list. */
    int index(String light) {
        List<Light> rig = plan.rig();
        for (int i = 0; i < rig.size(); i++) {
            if (rig.get(i).name().equals(light)) {
                return i;
            }
        }
        return -1;
    }
}

package lookstep.server.prediction;

import java.util.ArrayList;
import java.util.List;
import lookstep.server.look.LookLevels;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.optics.DepthOfField;
import lookstep.simulator.model.optics.Exposure;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.scene.LampInRoom;
import lookstep.simulator.model.scene.Scene;
import lookstep.simulator.model.space.Vec3;

/**
 * What the light and the lens will do in one shot.
 *
 * @param shot which
 * @param faceLux for each person, left to right: illuminance on an upright face turned to the
 *     camera, the room's and the house light included, shadows of others left out
 * @param stopsOver the mean face against the metered exposure of the camera's settings (ISO 2720, C
 *     = 250); below 0 is darker than a grey card would be rendered grey
 * @param depthMetres nearest face to farthest, with {@link #FACE_METRES}
 * @param fNumberNeeded least f-number that keeps all faces sharp with the focus left on the
 *     nearest, circle of confusion 0.020 mm on 36 x 24 mm, and as the sensor's diagonal on others
 * @param sharpBehindMetres how far behind the nearest face it stays sharp with the focus left there
 * @param notes what the lights cannot do
 */
public record ShotNumbers(
        Shot shot,
        List<Double> faceLux,
        double stopsOver,
        double depthMetres,
        double fNumberNeeded,
        double sharpBehindMetres,
        List<String> notes) {
    /** A face is itself this deep (common practice). */
    public static final double FACE_METRES = 0.15;

    private static final Vec3 TO_THE_CAMERA = new Vec3(0, -1, 0);

    /** Works one shot out. */
    public static ShotNumbers of(ShootPlan plan, Shot shot) {
        LookLevels look = LookLevels.of(plan, plan.look(shot.look()));
        Scene scene = Staging.scene(plan, shot);
        List<LampInRoom> lamps =
                scene.luminaires().stream().map(l -> new LampInRoom(l, scene.room())).toList();
        List<Xyz> sent = Predictions.intensities(plan, look.levels());
        List<Double> lux = new ArrayList<>();
        for (Figure figure : scene.figures()) {
            double sum = scene.houseLux();
            for (int l = 0; l < lamps.size(); l++) {
                sum += sent.get(l).y() * lamps.get(l).lux(figure.face(), TO_THE_CAMERA);
            }
            lux.add(sum);
        }
        Camera camera = Staging.camera(plan, shot).exact();
        double mean = lux.stream().mapToDouble(Double::doubleValue).average().orElse(0);
        double deep =
                scene.figures().stream().mapToDouble(f -> f.feet().y()).max().orElse(0)
                        + FACE_METRES;
        double circle = Staging.circleMillimetres(plan);
        return new ShotNumbers(
                shot,
                List.copyOf(lux),
                mean > 0 ? Exposure.stopsOver(mean, camera) : Double.NEGATIVE_INFINITY,
                deep,
                DepthOfField.fNumberFocusOnNearest(
                        shot.lensMillimetres(), shot.distanceMetres(), deep, circle),
                DepthOfField.of(
                                        shot.lensMillimetres(),
                                        camera.fNumber(),
                                        shot.distanceMetres(),
                                        circle)
                                .farMetres()
                        - shot.distanceMetres(),
                look.notes());
    }
}

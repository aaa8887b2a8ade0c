package lookstep.server.prediction;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import lookstep.server.look.Photometry;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Look;
import lookstep.server.plan.Person;
import lookstep.server.plan.Place;
import lookstep.server.plan.Sensor;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.Surface;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.optics.DepthOfField;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.scene.Positions;
import lookstep.simulator.model.scene.Reflectance;
import lookstep.simulator.model.scene.Room;
import lookstep.simulator.model.scene.Scene;
import lookstep.simulator.model.space.Vec3;

/** A planned shot as a scene and a camera of the model. */
public final class Staging {
    /** People in the outer places turn in towards the middle (common practice). */
    private static final double TURN_DEGREES_PER_METRE = -12;

    /** And never further than this, or they would look past the camera. */
    private static final double MOST_TURN_DEGREES = 15;

    private Staging() {}

    /** People of the shot in their places, the room, and every light of the rig where it stands. */
    public static Scene scene(ShootPlan plan, Shot shot) {
        return scene(plan, shot, plan.look(shot.look()));
    }

    /** The same with the lights where another look has them. */
    public static Scene scene(ShootPlan plan, Shot shot, Look look) {
        return new Scene(
                figures(plan, shot),
                room(plan.place()),
                plan.placed(look).rig().stream().map(Photometry::luminaire).toList(),
                plan.house().lux());
    }

    /**
     * The camera in front of the nearest face, set as the shot's look wants it: nominal values, as
     * on its dials. It focuses on the nearest eyes, as cameras do that look for faces.
     */
    public static Camera camera(ShootPlan plan, Shot shot) {
        return camera(plan, shot, plan.look(shot.look()));
    }

    /** The same, set as another look wants it. */
    public static Camera camera(ShootPlan plan, Shot shot, Look look) {
        CameraSettings set = look.camera();
        List<Figure> figures = figures(plan, shot);
        double deep = figures.stream().mapToDouble(f -> f.feet().y()).max().orElse(0);
        Sensor sensor = plan.around().sensor();
        Camera camera =
                new Camera(
                                new Vec3(0, -shot.distanceMetres(), shot.cameraHeightMetres()),
                                new Vec3(0, deep / 2, aimHeight(plan, shot)),
                                shot.lensMillimetres(),
                                set.fNumber(),
                                set.seconds(),
                                set.iso(),
                                set.kelvin())
                        .withSensor(sensor.longMillimetres(), sensor.shortMillimetres());
        double nearest =
                figures.stream()
                        .mapToDouble(f -> camera.depthMetres(f.eyes()))
                        .min()
                        .orElse(shot.distanceMetres());
        // Nearer than its focal length no lens draws anything.
        return camera.focused(Math.max(nearest, shot.lensMillimetres() * 2 / 1000));
    }

    /** The same set with one person on it, the one nearest to the middle. */
    public static Scene standIn(Scene scene) {
        return new Scene(
                scene.figures().stream()
                        .min(Comparator.comparingDouble(f -> Math.abs(f.feet().x())))
                        .map(List::of)
                        .orElse(List.of()),
                scene.room(),
                scene.luminaires(),
                scene.houseLux());
    }

    /** Circle of confusion of the plan's sensor. */
    public static double circleMillimetres(ShootPlan plan) {
        Sensor sensor = plan.around().sensor();
        return DepthOfField.circleMillimetres(sensor.longMillimetres(), sensor.shortMillimetres());
    }

    private static List<Figure> figures(ShootPlan plan, Shot shot) {
        List<Vec3> places = Positions.of(shot.arrangement(), shot.people().size());
        List<Figure> figures = new ArrayList<>();
        for (int i = 0; i < places.size(); i++) {
            figures.add(figure(plan.person(shot.people().get(i)), places.get(i)));
        }
        return figures;
    }

    /**
     * Where the middle of the picture is: so that the tallest head has a tenth of the picture's
     * height above it, or half way up the people if they fit in whole.
     */
    private static double aimHeight(ShootPlan plan, Shot shot) {
        double tallest =
                shot.people().stream()
                        .mapToDouble(p -> plan.person(p).heightMetres())
                        .max()
                        .orElseThrow();
        double high =
                shot.distanceMetres()
                        * plan.around().sensor().shortMillimetres()
                        / shot.lensMillimetres();
        return Math.max(tallest / 2, tallest + high / 10 - high / 2);
    }

    private static Figure figure(Person p, Vec3 feet) {
        return new Figure(
                feet,
                Math.max(
                        -MOST_TURN_DEGREES,
                        Math.min(MOST_TURN_DEGREES, feet.x() * TURN_DEGREES_PER_METRE)),
                p.heightMetres(),
                reflectance(p.skin()),
                reflectance(p.hair()),
                reflectance(p.top()),
                reflectance(p.bottom()),
                p.name().hashCode());
    }

    private static Room room(Place p) {
        return new Room(
                p.widthMetres(),
                p.depthMetres(),
                p.heightMetres(),
                p.backgroundMetres(),
                Reflectance.grey(p.backgroundReflectance()),
                Reflectance.grey(p.floorReflectance()),
                Reflectance.grey(p.wallReflectance()));
    }

    private static Reflectance reflectance(Surface s) {
        return new Reflectance(s.red(), s.green(), s.blue());
    }
}

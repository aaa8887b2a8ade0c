package lookstep.server.plates;

import java.util.ArrayList;
import java.util.List;
import lookstep.server.look.Photometry;
import lookstep.server.look.RigLevels;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Sensor;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.prediction.Predictions;
import lookstep.server.prediction.Staging;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.optics.Exposure;
import lookstep.simulator.model.picture.LinearPicture;
import lookstep.simulator.model.picture.Part;
import lookstep.simulator.model.picture.Plates;
import lookstep.simulator.model.picture.Renderer;
import lookstep.simulator.model.plates.LinearPlates;
import lookstep.simulator.model.scene.Scene;

/**
 * What each emitter will bring to the picture of a shot by the model, small: to choose levels, and
 * to tell what a frame should show. Immutable.
 */
public final class ModelledPlates {
    /** Wide enough for faces, small enough to be there at once. */
    static final int WIDTH = 96;

    private final ShootPlan plan;
    private final LinearPlates linear;
    private final boolean[] lamp;

    private ModelledPlates(ShootPlan plan, LinearPlates linear, boolean[] lamp) {
        this.plan = plan;
        this.linear = linear;
        this.lamp = lamp;
    }

    /**
     * Renders them; takes some tenths of a second.
     *
     * @param look where it has the lights
     * @param set the camera's settings
     * @param standIn one person in the middle instead of those of the shot
     */
    public static ModelledPlates of(
            ShootPlan plan, Shot shot, Look look, CameraSettings set, boolean standIn) {
        ShootPlan placed = plan.placed(look);
        Look taken = look.taken(set);
        Camera camera = Staging.camera(placed, shot, taken).exact();
        Sensor sensor = plan.around().sensor();
        int height = (int) Math.round(WIDTH * sensor.shortMillimetres() / sensor.longMillimetres());
        Scene scene = Staging.scene(placed, shot, taken);
        Plates plates =
                Renderer.plates(standIn ? Staging.standIn(scene) : scene, camera, WIDTH, height);
        int lights = placed.rig().size();
        List<float[]> planes = new ArrayList<>();
        planes.add(plane(plates, dark(lights), Predictions.houseWhite(plan), camera));
        for (int l = 0; l < lights; l++) {
            Light light = placed.rig().get(l);
            for (Xyz emitter : Photometry.emitters(light)) {
                List<Xyz> alone = dark(lights);
                alone.set(l, emitter);
                planes.add(plane(plates, alone, Xyz.ZERO, camera));
            }
        }
        boolean[] lamp = new boolean[WIDTH * height];
        for (int i = 0; i < lamp.length; i++) {
            lamp[i] = plates.partAt(i % WIDTH, i / WIDTH) == Part.LAMP;
        }
        return new ModelledPlates(
                placed,
                new LinearPlates(
                        WIDTH,
                        height,
                        set.kelvin(),
                        Exposure.scale(camera),
                        planes.toArray(new float[0][])),
                lamp);
    }

    private static List<Xyz> dark(int lights) {
        List<Xyz> dark = new ArrayList<>();
        for (int i = 0; i < lights; i++) {
            dark.add(Xyz.ZERO);
        }
        return dark;
    }

    private static float[] plane(Plates plates, List<Xyz> sent, Xyz house, Camera camera) {
        LinearPicture picture = plates.compose(sent, house, camera);
        float[] plane = new float[picture.width() * picture.height() * 3];
        for (int i = 0; i < plane.length / 3; i++) {
            double[] rgb = picture.at(i % picture.width(), i / picture.width());
            for (int c = 0; c < 3; c++) {
                plane[i * 3 + c] = (float) rgb[c];
            }
        }
        return plane;
    }

    /** With every light where the look of the plates has it. */
    ShootPlan plan() {
        return plan;
    }

    int width() {
        return linear.width();
    }

    int height() {
        return linear.height();
    }

    /** Whether a pixel shows a lamp, which burns in any picture. */
    boolean lamp(int pixel) {
        return lamp[pixel];
    }

    /** The house alone: red, green, blue of every pixel, linear, 1 is white. */
    float[] house() {
        return linear.plane(0);
    }

    /** What the lights add to the house at these levels, as {@link #house}. */
    float[] added(RigLevels levels) {
        return linear.mix(0, flat(levels), linear.scale(), linear.kelvin());
    }

    /** Of all emitters, over the lights in the rig's order. */
    static double[] flat(RigLevels levels) {
        List<Double> flat = new ArrayList<>();
        for (int l = 0; l < levels.size(); l++) {
            for (double level : levels.of(l)) {
                flat.add(level);
            }
        }
        return flat.stream().mapToDouble(Double::doubleValue).toArray();
    }
}

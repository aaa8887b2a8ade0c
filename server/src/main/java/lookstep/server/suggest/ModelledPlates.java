package lookstep.server.suggest;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import lookstep.server.look.Photometry;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Sensor;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.prediction.Predictions;
import lookstep.server.prediction.Staging;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.light.Luminaire;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.optics.Exposure;
import lookstep.simulator.model.picture.LinearPicture;
import lookstep.simulator.model.picture.Part;
import lookstep.simulator.model.picture.Plates;
import lookstep.simulator.model.picture.Renderer;
import lookstep.simulator.model.plates.Cast;
import lookstep.simulator.model.plates.LinearPlates;
import lookstep.simulator.model.scene.Scene;

/**
 * What each emitter would bring to each pixel by the model, before there are frames: one rendering,
 * everything sharp, at the exposure and white balance of the shot's look.
 *
 * @param plates the house and every emitter of the lights that were asked for, in their order
 * @param cast people in the order of the shot
 */
public record ModelledPlates(LinearPlates plates, Cast cast) {
    /** Enough for outlines, and rendered in a fraction of a second. */
    public static final int WIDTH = 192;

    /** Of the rig where it stands; what the shot's look moves is left where the rig has it. */
    public static ModelledPlates of(ShootPlan plan, Shot shot) {
        return of(plan, shot, plan.rig(), WIDTH);
    }

    /**
     * Of any lights, also of one light in several places at once: each is by itself.
     *
     * @param width pixels, 24 or more; the height follows from the sensor
     */
    public static ModelledPlates of(ShootPlan plan, Shot shot, List<Light> lights, int width) {
        Look look = plan.look(shot.look());
        Camera camera = Staging.camera(plan, shot, look).exact().focused(Camera.ALL_SHARP);
        Sensor sensor = plan.around().sensor();
        int height = (int) Math.round(width * sensor.shortMillimetres() / sensor.longMillimetres());
        List<Luminaire> each = lights.stream().map(Photometry::luminaire).toList();
        // Lights of one kind in one place differ in their emitters alone: rendered once.
        List<Luminaire> unlike = each.stream().distinct().toList();
        Plates lit = Renderer.plates(scene(plan, shot, look, unlike), camera, width, height);
        List<float[]> planes = new ArrayList<>();
        List<Xyz> dark = Collections.nCopies(unlike.size(), Xyz.ZERO);
        planes.add(plane(lit.compose(dark, Predictions.houseWhite(plan), camera)));
        for (int l = 0; l < lights.size(); l++) {
            for (Xyz emitter : Photometry.emitters(lights.get(l))) {
                List<Xyz> alone = new ArrayList<>(dark);
                alone.set(unlike.indexOf(each.get(l)), emitter);
                planes.add(plane(lit.compose(alone, Xyz.ZERO, camera)));
            }
        }
        return new ModelledPlates(
                new LinearPlates(
                        width,
                        height,
                        camera.whiteBalanceKelvin(),
                        Exposure.scale(camera),
                        planes.toArray(new float[0][])),
                cast(lit));
    }

    private static Scene scene(ShootPlan plan, Shot shot, Look look, List<Luminaire> lamps) {
        Scene staged = Staging.scene(plan, shot, look);
        return new Scene(staged.figures(), staged.room(), lamps, staged.houseLux());
    }

    private static float[] plane(LinearPicture picture) {
        float[] plane = new float[picture.width() * picture.height() * 3];
        int at = 0;
        for (int y = 0; y < picture.height(); y++) {
            for (int x = 0; x < picture.width(); x++) {
                for (double channel : picture.at(x, y)) {
                    plane[at++] = (float) channel;
                }
            }
        }
        return plane;
    }

    private static Cast cast(Plates lit) {
        short[] figure = new short[lit.width() * lit.height()];
        boolean[] skin = new boolean[figure.length];
        for (int y = 0; y < lit.height(); y++) {
            for (int x = 0; x < lit.width(); x++) {
                int at = y * lit.width() + x;
                Part part = lit.partAt(x, y);
                figure[at] = (short) (part.ofFigure() ? lit.ownerAt(x, y) : -1);
                skin[at] = part == Part.SKIN;
            }
        }
        return new Cast(lit.width(), lit.height(), figure, skin);
    }
}

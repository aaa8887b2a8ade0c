package lookstep.server.prediction;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import lookstep.server.look.Photometry;
import lookstep.server.plan.Light;
import lookstep.server.plan.Sensor;
import lookstep.server.plan.ShootPlan;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.optics.Exposure;
import lookstep.simulator.model.picture.LinearPicture;
import lookstep.simulator.model.picture.Plates;
import lookstep.simulator.model.picture.Renderer;
import lookstep.simulator.model.plates.LinearPlates;
import lookstep.simulator.model.scene.Scene;

/**
 * What the house and each emitter of some lights bring to a picture by the model: one rendering, in
 * the exposure and white balance of a camera.
 *
 * @param rendered tells what each pixel shows
 * @param linear the same pixels, emitter by emitter, each at full
 */
public record EmitterPlates(Plates rendered, LinearPlates linear) {
    /**
     * Renders them; takes some tenths of a second.
     *
     * @param scene its luminaires are replaced by those of the lights
     * @param lights may be those of the rig, or one light in several places: each is by itself
     * @param camera exact values; what it focuses on is blurred as it would be
     * @param width pixels, 8 or more; the height follows from the plan's sensor
     */
    public static EmitterPlates of(
            ShootPlan plan, Scene scene, List<Light> lights, Camera camera, int width) {
        Sensor sensor = plan.around().sensor();
        int height = (int) Math.round(width * sensor.shortMillimetres() / sensor.longMillimetres());
        Scene lit =
                new Scene(
                        scene.figures(),
                        scene.room(),
                        lights.stream().map(Photometry::luminaire).toList(),
                        scene.houseLux());
        Plates rendered = Renderer.plates(lit, camera, width, height);
        List<Xyz> dark = Collections.nCopies(lights.size(), Xyz.ZERO);
        List<float[]> planes = new ArrayList<>();
        planes.add(plane(rendered.compose(dark, Predictions.houseWhite(plan), camera)));
        for (int l = 0; l < lights.size(); l++) {
            for (Xyz emitter : Photometry.emitters(lights.get(l))) {
                List<Xyz> alone = new ArrayList<>(dark);
                alone.set(l, emitter);
                planes.add(plane(rendered.compose(alone, Xyz.ZERO, camera)));
            }
        }
        return new EmitterPlates(
                rendered,
                new LinearPlates(
                        width,
                        height,
                        camera.whiteBalanceKelvin(),
                        Exposure.scale(camera),
                        planes.toArray(new float[0][])));
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
}

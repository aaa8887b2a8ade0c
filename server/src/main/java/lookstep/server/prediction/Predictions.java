package lookstep.server.prediction;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import javax.imageio.ImageIO;
import lookstep.server.look.LookLevels;
import lookstep.server.look.Photometry;
import lookstep.server.look.RigLevels;
import lookstep.server.plan.House;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Sensor;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.simulator.model.colour.Planck;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.picture.Plates;
import lookstep.simulator.model.picture.Renderer;
import lookstep.simulator.model.scene.Scene;

/** Computed pictures of the planned shots, made once each and kept. */
public final class Predictions {
    private static final int WIDTH = 720;
    private static final int SMALL_WIDTH = 240;

    /** Each is some tens of megabytes. */
    private static final int MOST_PLATES = 2;

    /** Each is a ninth of that. */
    private static final int MOST_SMALL_PLATES = 16;

    private static final int MOST_PICTURES = 100;

    private final Map<Staged, Plates> plates = newest(MOST_PLATES);
    private final Map<Staged, Plates> smallPlates = newest(MOST_SMALL_PLATES);
    private final Map<Picture, byte[]> made = newest(MOST_PICTURES);

    /** What the plates hang on: not the light. */
    private record Staged(Scene scene, Camera camera) {}

    /** What the picture hangs on. */
    private record Picture(Staged staged, Look look, List<Light> rig, House house, int width) {}

    private static <K, V> Map<K, V> newest(int most) {
        return new LinkedHashMap<>() {
            @Override
            protected boolean removeEldestEntry(Map.Entry<K, V> eldest) {
                return size() > most;
            }
        };
    }

    /**
     * A JPEG, 720 pixels wide and as high as the sensor has it (480 for 36 x 24 mm), of the shot on
     * a look, as planned or as changed on the set. Takes a while the first time; where only light
     * has changed since, it is soon there.
     */
    public byte[] picture(ShootPlan plan, Shot shot, Look look) {
        return picture(plan, shot, look, WIDTH, plates);
    }

    /** The same, 240 pixels wide: to tell looks apart in a list. */
    public byte[] small(ShootPlan plan, Shot shot, Look look) {
        return picture(plan, shot, look, SMALL_WIDTH, smallPlates);
    }

    private synchronized byte[] picture(
            ShootPlan plan, Shot shot, Look look, int width, Map<Staged, Plates> known) {
        Camera camera = Staging.camera(plan, shot, look).exact();
        Staged staged =
                new Staged(
                        Staging.scene(plan, shot, look),
                        camera.withExposure(8, 1, 100).withWhiteBalance(5000));
        return made.computeIfAbsent(
                new Picture(staged, look, plan.rig(), plan.house(), width),
                key -> {
                    Plates lit =
                            known.computeIfAbsent(
                                    staged,
                                    k ->
                                            Renderer.plates(
                                                    k.scene(),
                                                    k.camera(),
                                                    width,
                                                    height(plan, width)));
                    RigLevels levels = LookLevels.of(plan, look).levels();
                    return jpeg(
                            lit.compose(intensities(plan, levels), houseWhite(plan), camera)
                                    .toImage());
                });
    }

    private static int height(ShootPlan plan, int width) {
        Sensor sensor = plan.around().sensor();
        return (int) Math.round(width * sensor.shortMillimetres() / sensor.longMillimetres());
    }

    /** What each light sends out, in the rig's order; Y in candela. */
    public static List<Xyz> intensities(ShootPlan plan, RigLevels levels) {
        List<Xyz> sent = new ArrayList<>();
        for (int i = 0; i < plan.rig().size(); i++) {
            sent.add(Photometry.intensity(plan.rig().get(i), levels.of(i)));
        }
        return sent;
    }

    /** The colour of the light that is there already, Y = 1. */
    public static Xyz houseWhite(ShootPlan plan) {
        return Planck.chromaticity(plan.house().kelvin()).toXyz(1);
    }

    private static byte[] jpeg(BufferedImage image) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try {
            ImageIO.write(image, "jpeg", out);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toByteArray();
    }
}

package lookstep.server.prediction;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javax.imageio.ImageIO;
import lookstep.server.look.LookLevels;
import lookstep.server.look.Photometry;
import lookstep.server.look.RigLevels;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.simulator.model.colour.Planck;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.picture.Plates;
import lookstep.simulator.model.picture.Renderer;

/** Computed pictures of the planned shots, made once each and kept. */
public final class Predictions {
    private static final int WIDTH = 720;
    private static final int HEIGHT = 480;

    private final ShootPlan plan;
    private final Map<String, byte[]> made = new HashMap<>();

    public Predictions(ShootPlan plan) {
        this.plan = plan;
    }

    /**
     * A JPEG, 720 by 480, of the shot as planned; empty if there is no such shot. Takes a while the
     * first time.
     */
    public synchronized Optional<byte[]> picture(String shotId) {
        byte[] kept = made.get(shotId);
        if (kept == null) {
            Optional<Shot> shot =
                    plan.shots().stream().filter(s -> s.id().equals(shotId)).findFirst();
            if (shot.isEmpty()) {
                return Optional.empty();
            }
            kept = jpeg(render(shot.get()));
            made.put(shotId, kept);
        }
        return Optional.of(kept);
    }

    private BufferedImage render(Shot shot) {
        Camera camera = Staging.camera(plan, shot).exact();
        Plates plates = Renderer.plates(Staging.scene(plan, shot), camera, WIDTH, HEIGHT);
        RigLevels levels = LookLevels.of(plan, plan.look(shot.look())).levels();
        return plates.compose(intensities(plan, levels), houseWhite(plan), camera).toImage();
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

package lookstep.server.suggest;

import java.util.List;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.prediction.EmitterPlates;
import lookstep.server.prediction.Staging;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.picture.Part;
import lookstep.simulator.model.picture.Plates;
import lookstep.simulator.model.plates.Cast;
import lookstep.simulator.model.plates.LinearPlates;

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
        EmitterPlates lit =
                EmitterPlates.of(plan, Staging.scene(plan, shot, look), lights, camera, width);
        return new ModelledPlates(lit.linear(), cast(lit.rendered()));
    }

    /** In the order of the shot, which is that of the scene. */
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

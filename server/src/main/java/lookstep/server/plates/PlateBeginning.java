package lookstep.server.plates;

import java.util.List;
import lookstep.server.lighting.Lighting;
import lookstep.server.live.Event.PlatesBegun;
import lookstep.server.live.LiveState;
import lookstep.server.live.NotPossible;
import lookstep.server.live.PlateStep;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Look;
import lookstep.server.plan.Shot;
import lookstep.server.plan.ShotHash;

/** From a press to the frames that are to be taken: for the current shot, or the one that comes. */
public final class PlateBeginning {
    /** Light, release, transfer and a look at it, from what a rehearsal takes over PTP/IP. */
    private static final double SECONDS_EACH = 3;

    private PlateBeginning() {}

    /**
     * What begins.
     *
     * @param standIn one person in the middle; otherwise the people of the shot
     * @throws NotPossible if plates are being taken already
     */
    public static PlatesBegun of(
            Lighting lighting, LiveState state, boolean standIn, long epochMillis)
            throws NotPossible {
        if (state.plates().run().isPresent()) {
            throw new NotPossible("plates are being taken already; give them up first");
        }
        Shot shot = lighting.shot(state);
        Look look = lighting.look(state, shot);
        ModelledPlates model =
                ModelledPlates.of(lighting.plan(), shot, look, look.camera(), standIn);
        CameraSettings camera =
                PlateCamera.longer(
                        look.camera(), PlateSteps.stopsUnder(model, look.camera().kelvin()));
        if (!camera.equals(look.camera())) {
            model = ModelledPlates.of(lighting.plan(), shot, look, camera, standIn);
        }
        List<PlateStep> steps = PlateSteps.of(model, camera.kelvin());
        return new PlatesBegun(
                "plates-" + Long.toString(epochMillis, 36),
                shot.id(),
                look.name(),
                camera,
                lighting.hangsOn(look.name()).orElseThrow(),
                ShotHash.of(lighting.plan(), shot, standIn),
                standIn,
                steps);
    }

    /** How many frames it would be now. */
    public static int frames(Lighting lighting, LiveState state) {
        return PlateSteps.count(lighting.plan(), look(lighting, state).camera().kelvin());
    }

    /** About how long that takes with a camera that is released from here. */
    public static double seconds(int frames) {
        return frames * SECONDS_EACH;
    }

    private static Look look(Lighting lighting, LiveState state) {
        return lighting.look(state, lighting.shot(state));
    }
}

package lookstep.server.plates;

import java.util.List;
import lookstep.server.live.PlateRun;
import lookstep.server.live.PlateStep;
import lookstep.server.plan.CameraSettings;
import lookstep.simulator.model.plates.PlateStack;

/**
 * Plates from which pictures of looks are summed.
 *
 * @param id tells it from others
 * @param stack what the frames come to; the levels are of all emitters, over the lights in the
 *     rig's order
 * @param steps which frames, with which light
 * @param shot whose camera position and people they are of
 * @param look where that has the lights
 * @param camera the settings of the frames
 * @param hangsOn what of the rig they hang on, as a hash: {@link
 *     lookstep.server.lighting.Lighting#hangsOn} of a look that has a picture from them
 * @param standIn one person in the middle instead of those of the shot
 * @param whenEpochMillis when the last one was taken
 * @param doubts what is uncertain, in words
 */
public record MeasuredSet(
        String id,
        PlateStack stack,
        List<PlateStep> steps,
        String shot,
        String look,
        CameraSettings camera,
        String hangsOn,
        boolean standIn,
        long whenEpochMillis,
        List<String> doubts) {
    public MeasuredSet {
        steps = List.copyOf(steps);
        doubts = List.copyOf(doubts);
    }

    /** The same where the look is called otherwise. */
    MeasuredSet on(String name) {
        return new MeasuredSet(
                id, stack, steps, shot, name, camera, hangsOn, standIn, whenEpochMillis, doubts);
    }

    static MeasuredSet of(
            PlateRun run, PlateStack stack, CameraSettings camera, long when, List<String> doubts) {
        return new MeasuredSet(
                run.id(),
                stack,
                run.steps(),
                run.begun().shot(),
                run.begun().look(),
                camera,
                run.begun().hangsOn(),
                run.begun().standIn(),
                when,
                doubts);
    }
}

package lookstep.server.plates;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import lookstep.server.live.PlateRun;
import lookstep.server.live.PlateSet;
import lookstep.server.live.PlateStep;
import lookstep.server.plan.CameraSettings;
import lookstep.simulator.model.plates.CodedPicture;
import lookstep.simulator.model.plates.PlateStack;
import lookstep.simulator.model.plates.PlateStack.Taken;
import lookstep.simulator.model.plates.Registration;
import lookstep.simulator.model.plates.Registration.Motion;
import lookstep.simulator.model.plates.Registration.Shift;
import lookstep.simulator.model.plates.Response;
import lookstep.simulator.model.plates.ResponseRecovery;
import lookstep.simulator.model.plates.ResponseRecovery.Step;

/** The frames of a whole set become what looks are summed from. */
public final class PlateArithmetic {
    private PlateArithmetic() {}

    /** How far the second picture has moved against the first. */
    public static Shift moved(CodedPicture one, CodedPicture other) {
        return Registration.between(one, other);
    }

    /** The same with turn and zoom. */
    public static Motion motion(CodedPicture one, CodedPicture other) {
        return Registration.motion(one, other);
    }

    /**
     * Works it out; takes seconds.
     *
     * @param frames the frame of each step, by the step
     * @throws IllegalArgumentException if the frames do not come to plates; the message says why
     */
    public static MeasuredSet measured(PlateSet set, Map<Integer, SeenPlate> frames) {
        PlateRun run = set.run();
        CameraSettings camera = run.begun().camera();
        SeenPlate house = frames.get(0);
        Response response = ResponseRecovery.of(ramp(run, frames));
        List<Taken> taken = new ArrayList<>();
        for (int i = 0; i < run.steps().size(); i++) {
            SeenPlate seen = frames.get(i);
            taken.add(
                    new Taken(
                            seen.picture(),
                            ModelledPlates.flat(run.steps().get(i).rig()),
                            seen.scale(camera)));
        }
        PlateStack stack = PlateStack.of(response, house.kelvin(camera), taken, true);
        List<String> doubts = new ArrayList<>(response.doubts());
        doubts.addAll(doubts(run));
        return MeasuredSet.of(run, stack, house.settings(camera), set.doneEpochMillis(), doubts);
    }

    /** The house, and one light from little to much. */
    private static List<Step> ramp(PlateRun run, Map<Integer, SeenPlate> frames) {
        CameraSettings camera = run.begun().camera();
        double full =
                run.steps().stream()
                        .filter(s -> s.share() > 0)
                        .mapToDouble(PlateArithmetic::light)
                        .max()
                        .orElse(1);
        List<Step> ramp = new ArrayList<>();
        for (int i = 0; i < run.steps().size(); i++) {
            PlateStep step = run.steps().get(i);
            if (step.house() || step.share() > 0) {
                SeenPlate seen = frames.get(i);
                ramp.add(new Step(seen.picture(), light(step) / full, seen.scale(camera)));
            }
        }
        ramp.sort(Comparator.comparingDouble(Step::share));
        return ramp;
    }

    /** One light at one mix: the sum of its levels goes with its light. */
    static double light(PlateStep step) {
        return step.levels().stream().flatMap(List::stream).mapToDouble(Double::doubleValue).sum();
    }

    /** What was said of single frames. */
    static List<String> doubts(PlateRun run) {
        return run.taken().values().stream()
                .filter(t -> !t.says().isEmpty())
                .sorted(Comparator.comparingInt(t -> t.step()))
                .map(t -> run.steps().get(t.step()).name() + ": " + t.says())
                .toList();
    }
}

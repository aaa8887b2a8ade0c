package lookstep.server.framecheck;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.prediction.Staging;

/**
 * Looks at each frame as it comes. Pure: what it says follows from the plan, the prediction and the
 * frame; it may be asked from any thread, as far as the prediction may.
 *
 * <p>It knows faces only as patches of skin's colour near where the plan has them ({@code
 * FaceSearch} says what that cannot know), so its remarks are for a glance, not for a verdict.
 */
public final class FrameChecks {
    private final ShootPlan plan;
    private final Predicted predicted;

    /**
     * @param predicted what each shot is meant to look like
     */
    public FrameChecks(ShootPlan plan, Predicted predicted) {
        this.plan = plan;
        this.predicted = predicted;
    }

    /** Makes the prediction of a shot that frames are about to come of, which may take seconds. */
    public void expect(Shot shot, Look look) {
        predicted.picture(shot, look);
    }

    /**
     * Everything there is to say of one frame, the gravest first. Takes some tens of milliseconds,
     * and longer if the prediction has to be made.
     */
    public FrameReport check(Taken taken) {
        Seen seen = Seen.of(plan, taken, predicted.picture(taken.shot(), taken.look()));
        Fingerprint fingerprint = Fingerprint.of(seen.fields());
        List<Remark> remarks = new ArrayList<>();
        List.of(
                        FoldCheck.check(taken, seen),
                        ExposureCheck.check(taken, seen),
                        ClippingCheck.check(seen),
                        SharpnessCheck.check(taken, seen, plan),
                        DepthCheck.check(taken, Staging.circleMillimetres(plan)),
                        MotionCheck.check(taken),
                        SettingsCheck.check(taken),
                        BackgroundCheck.check(seen),
                        TwiceCheck.check(taken, fingerprint))
                .forEach((Optional<Remark> remark) -> remark.ifPresent(remarks::add));
        // A stable sort: among equals the order above stays.
        remarks.sort(Comparator.comparing(Remark::weight).reversed());
        return new FrameReport(remarks, fingerprint);
    }
}

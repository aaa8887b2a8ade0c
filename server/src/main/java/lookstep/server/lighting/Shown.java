package lookstep.server.lighting;

import java.util.Optional;
import lookstep.server.look.Adjustment;
import lookstep.server.look.LookLevels;
import lookstep.server.look.RawSlots;
import lookstep.server.look.RigLevels;
import lookstep.server.plan.Look;

/**
 * What the lights are to do now.
 *
 * @param what which of the four it is
 * @param planned the look as the plan has it; for a test, a plate or before the first shot, the
 *     look that comes after it
 * @param look the same with what was changed on the set
 * @param adjustment what was changed
 * @param worked the look worked out
 * @param levels what goes out: the look's, or those of the test, of the plate or of the work light
 * @param raw the slots of a test
 * @param fadeSeconds how long it takes to get there
 */
public record Shown(
        What what,
        Look planned,
        Look look,
        Adjustment adjustment,
        LookLevels worked,
        RigLevels levels,
        Optional<RawSlots> raw,
        double fadeSeconds) {
    /** What is on. */
    public enum What {
        WORK_LIGHT,
        LOOK,
        TEST,
        PLATE
    }
}

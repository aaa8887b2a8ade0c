package lookstep.server.plan.edit;

import java.util.List;
import lookstep.server.plan.file.PlanError;

/** What came of edits. */
public sealed interface Outcome {
    /** The plan as it is now. */
    Version now();

    /** What others had changed in the file, taken in before; mostly empty. */
    List<Difference> outside();

    /**
     * They are in the file.
     *
     * @param changed what they changed
     */
    record Made(Version now, List<Difference> changed, List<Difference> outside)
            implements Outcome {
        public Made {
            changed = List.copyOf(changed);
            outside = List.copyOf(outside);
        }
    }

    /**
     * Nothing was written.
     *
     * @param what what stands against it; names the place
     * @param mend what to do about it
     * @param errors of the plan, by place, if it would have had or has any
     */
    record Refused(
            Version now, String what, String mend, List<PlanError> errors, List<Difference> outside)
            implements Outcome {
        public Refused {
            errors = List.copyOf(errors);
            outside = List.copyOf(outside);
        }
    }
}

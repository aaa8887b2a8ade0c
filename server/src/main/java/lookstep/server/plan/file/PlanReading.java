package lookstep.server.plan.file;

import java.util.List;
import lookstep.server.plan.ShootPlan;

/** What came of reading a plan file. */
public sealed interface PlanReading {
    /**
     * The file can be worked with.
     *
     * @param warnings what is odd but stops nothing, by place; empty when all is well
     */
    record Good(ShootPlan plan, List<PlanError> warnings) implements PlanReading {
        public Good {
            warnings = List.copyOf(warnings);
        }
    }

    /**
     * The file cannot be worked with.
     *
     * @param errors everything found, by place; at least one
     */
    record Bad(List<PlanError> errors) implements PlanReading {
        public Bad {
            errors = List.copyOf(errors);
        }
    }
}

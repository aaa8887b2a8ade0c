package lookstep.server.plan.edit;

import java.util.List;
import java.util.Optional;
import lookstep.server.plan.file.PlanError;

/**
 * What a look at the file has shown.
 *
 * @param now the plan as it is now; the former one while the file does not read
 * @param isNew whether the text is another one since the last time
 * @param changed what is said differently; empty if only comments or style are
 * @param trouble why the file is not what is used, as long as that lasts
 * @param errors of the file, by place, if it does not read
 */
public record Look(
        Version now,
        boolean isNew,
        List<Difference> changed,
        Optional<String> trouble,
        List<PlanError> errors) {
    public Look {
        changed = List.copyOf(changed);
        errors = List.copyOf(errors);
    }
}

package lookstep.server.plan.file;

import java.util.ArrayList;
import java.util.List;

/** Everything found so far. */
final class Problems {
    private final FileKind kind;
    private final List<PlanError> errors = new ArrayList<>();
    private final List<PlanError> warnings = new ArrayList<>();

    /**
     * @param kind the file in which they are found
     */
    Problems(FileKind kind) {
        this.kind = kind;
    }

    FileKind kind() {
        return kind;
    }

    void error(Mark at, String what, String mend) {
        errors.add(new PlanError(at.line(), at.column(), what, mend));
    }

    void warning(Mark at, String what, String mend) {
        warnings.add(new PlanError(at.line(), at.column(), what, mend));
    }

    /** To tell whether something was found wrong meanwhile. */
    int errorCount() {
        return errors.size();
    }

    List<PlanError> errors() {
        return errors.stream().sorted(PlanError.BY_PLACE).toList();
    }

    List<PlanError> warnings() {
        return warnings.stream().sorted(PlanError.BY_PLACE).toList();
    }
}

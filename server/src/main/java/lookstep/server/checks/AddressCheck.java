package lookstep.server.checks;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.server.patch.PatchReport;
import lookstep.server.patch.PatchWarning;
import lookstep.server.plan.ShootPlan;

/** The patch: who has which slots. */
final class AddressCheck {
    private AddressCheck() {}

    static List<Finding> of(ShootPlan plan) {
        List<Finding> all = new ArrayList<>();
        for (PatchWarning w : PatchReport.of(plan).warnings()) {
            all.add(
                    new Finding(
                            Kind.ADDRESSES,
                            w.kind().wrong() ? Weight.WRONG : Weight.LOOK,
                            Subject.light(w.lights().isEmpty() ? "" : w.lights().get(0)),
                            w.says(),
                            new Numbers().put("lights", String.join(", ", w.lights())).all(),
                            Optional.of(Mend.words(w.mend()))));
        }
        return all;
    }
}

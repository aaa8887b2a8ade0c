package lookstep.server;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import lookstep.server.look.LookLevels;
import lookstep.server.patch.PatchReport;
import lookstep.server.plan.Location;
import lookstep.server.plan.ShootPlan;

/** What the check found that the crew should have on paper. */
final class PaperRemarks {
    private PaperRemarks() {}

    /** A sentence each: what lights cannot do, and what is or easily goes wrong with addresses. */
    static List<String> of(ShootPlan plan) {
        Set<String> all = new LinkedHashSet<>();
        for (Location location : plan.locations()) {
            ShootPlan there = plan.at(location.name());
            there.looks().forEach(look -> all.addAll(LookLevels.of(there, look).notes()));
            PatchReport.of(there).warnings().forEach(w -> all.add(w.says() + "; " + w.mend()));
        }
        return new ArrayList<>(all);
    }
}

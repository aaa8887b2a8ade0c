package lookstep.server;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import lookstep.server.checks.Finding;
import lookstep.server.checks.Kind;
import lookstep.server.checks.PlanChecks;
import lookstep.server.checks.Subject;
import lookstep.server.checks.Weight;
import lookstep.server.look.LookLevels;
import lookstep.server.patch.PatchReport;
import lookstep.server.plan.Location;
import lookstep.server.plan.ShootPlan;

/** What the check found that the crew should have on paper. */
final class PaperRemarks {
    /** Up to three lines each: about a page. */
    private static final int MOST = 24;

    private PaperRemarks() {}

    /**
     * A sentence or two each, the gravest first: what is wrong and what is to be looked at, with
     * its mend; what lights cannot do; and what is or easily goes wrong with addresses. The last
     * says how many more there are, if the page is full.
     */
    static List<String> of(ShootPlan plan) {
        Set<String> wrong = new LinkedHashSet<>();
        Set<String> look = new LinkedHashSet<>();
        Set<String> lights = new LinkedHashSet<>();
        for (Location location : plan.locations()) {
            ShootPlan there = plan.at(location.name());
            String at = plan.locations().size() == 1 ? "" : location.name() + ": ";
            for (Finding f : PlanChecks.of(there).findings()) {
                // Said below: what lights cannot do, and the addresses.
                if (f.kind() == Kind.ADDRESSES
                        || f.kind() == Kind.LIGHT
                        || f.weight() == Weight.GOOD) {
                    continue;
                }
                (f.weight() == Weight.WRONG ? wrong : look).add(at + said(f));
            }
            there.looks().forEach(l -> lights.addAll(LookLevels.of(there, l).notes()));
            PatchReport.of(there).warnings().forEach(w -> lights.add(w.says() + "; " + w.mend()));
        }
        Set<String> all = new LinkedHashSet<>(wrong);
        all.addAll(lights);
        all.addAll(look);
        List<String> first = new ArrayList<>(all);
        if (first.size() <= MOST) {
            return first;
        }
        List<String> page = new ArrayList<>(first.subList(0, MOST));
        page.add("and " + (first.size() - MOST) + " more: lookstep check names them all");
        return page;
    }

    private static String said(Finding f) {
        Subject s = f.subject();
        String of =
                Stream.of(s.shot(), s.shot().isEmpty() ? s.look() : "")
                        .filter(name -> !name.isEmpty())
                        .map(name -> name + ", ")
                        .collect(Collectors.joining());
        return (f.weight() == Weight.WRONG ? "WRONG: " : "")
                + of
                + f.says()
                + f.mend().map(m -> ". Mend: " + m.says()).orElse("");
    }
}

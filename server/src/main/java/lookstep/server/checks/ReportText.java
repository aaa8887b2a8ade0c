package lookstep.server.checks;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;

/** A report to read through: a section for each kind, what is wrong first. */
public final class ReportText {
    private static final int WIDTH = 100;

    private ReportText() {}

    /** Lines ended by a line feed, at most some hundred characters wide. */
    public static String of(ShootPlan plan, Report report) {
        StringBuilder text = new StringBuilder();
        for (Kind kind : Kind.values()) {
            List<Finding> some = report.of(kind);
            if (some.isEmpty()) {
                continue;
            }
            text.append(text.isEmpty() ? "" : "\n").append(kind.heading()).append('\n');
            kind.basis().ifPresent(b -> wrap(text, "  ", b));
            some.stream().filter(f -> f.weight() != Weight.GOOD).forEach(f -> one(text, plan, f));
            good(text, plan, some);
        }
        long wrong = report.findings().stream().filter(f -> f.weight() == Weight.WRONG).count();
        long look = report.findings().stream().filter(f -> f.weight() == Weight.LOOK).count();
        text.append(
                Words.text(
                        "%n%d wrong, %d to look at, of %d checked. Computed; a meter and your eyes on"
                                + " the set decide.%n",
                        wrong, look, report.findings().size()));
        return text.toString();
    }

    /** What is good of several shots alike is said once. */
    private static void good(StringBuilder text, ShootPlan plan, List<Finding> some) {
        Map<String, List<String>> bySaying = new LinkedHashMap<>();
        for (Finding f : some) {
            if (f.weight() == Weight.GOOD) {
                bySaying.computeIfAbsent(f.says(), s -> new ArrayList<>()).add(whose(plan, f));
            }
        }
        bySaying.forEach(
                (says, whose) -> {
                    String who = String.join("; ", whose);
                    wrap(text, "  good     ", (who.isEmpty() ? "" : who + ": ") + says);
                });
    }

    private static void one(StringBuilder text, ShootPlan plan, Finding f) {
        String whose = whose(plan, f);
        String head = Words.text("  %-8s ", f.weight().word());
        wrap(text, head, (whose.isEmpty() ? "" : whose + ": ") + f.says());
        f.mend().ifPresent(m -> wrap(text, "           mend: ", m.says()));
    }

    private static String whose(ShootPlan plan, Finding f) {
        Subject s = f.subject();
        if (!s.shot().isEmpty()) {
            return plan.shot(s.shot()).map(Shot::name).orElse(s.shot());
        }
        // Notes of lights begin with their look.
        return s.look().isEmpty() || f.kind() == Kind.LIGHT ? "" : "look ‘" + s.look() + "’";
    }

    private static void wrap(StringBuilder text, String head, String words) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder(head);
        String indent = " ".repeat(head.length());
        for (String word : words.split(" ", -1)) {
            if (line.length() + word.length() > WIDTH && line.length() > head.length()) {
                lines.add(line.toString().stripTrailing());
                line = new StringBuilder(indent);
            }
            line.append(word).append(' ');
        }
        lines.add(line.toString().stripTrailing());
        lines.forEach(l -> text.append(l).append('\n'));
    }
}

package lookstep.server.patch;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import lookstep.server.patch.UniversePatch.Taken;

/** The patch in words for {@code check}. */
public final class PatchText {
    private PatchText() {}

    private record Row(SlotRange slots, String who, String what) {}

    /**
     * A heading, a line for each light and each free stretch, and the warnings with their mends.
     */
    public static String of(PatchReport report) {
        StringBuilder text = new StringBuilder("Patch\n");
        report.universes().forEach(u -> universe(text, u));
        warnings(text, "What is wrong with the patch", true, report);
        warnings(text, "What to look at on the lights' displays", false, report);
        return text.toString();
    }

    private static void universe(StringBuilder text, UniversePatch universe) {
        List<Row> rows = new ArrayList<>();
        for (Taken t : universe.taken()) {
            rows.add(new Row(t.slots(), t.light(), t.fixture() + ", mode '" + t.mode() + "'"));
        }
        universe.gaps().forEach(g -> rows.add(free(g)));
        universe.left().ifPresent(l -> rows.add(free(l)));
        rows.sort(Comparator.comparingInt(r -> r.slots().first()));
        int slots = rows.stream().mapToInt(r -> r.slots().words().length()).max().orElse(0);
        int who = rows.stream().mapToInt(r -> r.who().length()).max().orElse(0);
        text.append("  universe ").append(universe.universe()).append('\n');
        for (Row r : rows) {
            String line =
                    "    %s  %s  %s"
                            .formatted(pad(r.slots().words(), slots), pad(r.who(), who), r.what());
            text.append(line.stripTrailing()).append('\n');
        }
    }

    private static Row free(SlotRange slots) {
        return new Row(slots, "", slots.count() == 1 ? "1 free" : slots.count() + " free");
    }

    private static void warnings(
            StringBuilder text, String heading, boolean wrong, PatchReport report) {
        List<PatchWarning> some =
                report.warnings().stream().filter(w -> w.kind().wrong() == wrong).toList();
        if (!some.isEmpty()) {
            text.append(heading).append('\n');
            some.forEach(
                    w ->
                            text.append("  ")
                                    .append(w.says())
                                    .append(": ")
                                    .append(w.mend())
                                    .append('\n'));
        }
    }

    private static String pad(String text, int width) {
        return text + " ".repeat(Math.max(0, width - text.length()));
    }
}

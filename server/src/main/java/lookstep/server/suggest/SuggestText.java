package lookstep.server.suggest;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import lookstep.server.plan.PlanWords;

/** Suggestions in plain text, as {@code check} prints them. */
public final class SuggestText {
    private SuggestText() {}

    /** Lines ended by a line feed. */
    public static String of(Suggestions all) {
        StringBuilder text = new StringBuilder();
        say(text, "Looks for shot ‘%s’ that differ most, in the order to step them:", all.shot());
        int n = 0;
        for (Suggestion s : all.inPlace()) {
            one(text, ++n + ". ", s);
        }
        if (all.inPlace().isEmpty()) {
            say(text, "  none of this rig passes; see why below");
        }
        double seconds = all.inPlace().stream().mapToDouble(Suggestion::seconds).sum();
        if (n > 1) {
            say(text, "  all changes together take about %s", PlanWords.length(seconds));
        }
        if (!all.moved().isEmpty()) {
            say(text, "With one light moved, by the model:");
            all.moved().forEach(s -> one(text, "- ", s));
        }
        counts(text, all.counts());
        if (n > 0) {
            quality(text, all.quality(), n);
        }
        say(text, "  (%s)", Suggestions.MEASURE);
        return text.toString();
    }

    private static void one(StringBuilder text, String bullet, Suggestion s) {
        say(
                text,
                "  %s‘%s’ (%s)%s",
                bullet,
                s.look().name(),
                s.camera(),
                s.inPlan().isEmpty() ? "" : ", already in the plan");
        s.moved()
                .ifPresent(
                        m -> {
                            say(text, "       %s", m.words());
                            if (!m.caution().isEmpty()) {
                                say(text, "       mind: %s", m.caution());
                            }
                        });
        for (Suggestion.LightLine line : s.lights()) {
            say(text, "       %s: %s", line.light(), line.words());
        }
        if (!s.nearest().look().isEmpty()) {
            say(
                    text,
                    "       against ‘%s’, which is nearest: %s (difference %.2f, CIEDE2000 %.0f)",
                    s.nearest().look(),
                    s.why(),
                    s.nearest().difference(),
                    s.nearest().ciede2000());
        }
        say(
                text,
                "       faces %+.1f stops, apart from behind by %.1f stops, %.0f %% of skin over"
                        + " white",
                s.passes().faceStops(),
                s.passes().separationStops(),
                s.passes().burntShare() * 100);
    }

    private static void counts(StringBuilder text, Suggestions.Counts c) {
        int refused = c.refused().values().stream().mapToInt(Integer::intValue).sum();
        say(
                text,
                "Chosen from %d looks of %.0f that this rig has in such steps; those with %s are"
                        + " all among them.",
                c.listed(),
                c.possible(),
                switch (c.wholeUpTo()) {
                    case 0 -> "no light on";
                    case 1 -> "one light on";
                    default -> "up to " + c.wholeUpTo() + " lights on";
                });
        if (refused > 0) {
            say(text, "  %d of %d were left out: %s", refused, c.looked(), why(c.refused()));
        }
        say(text, "  %d pass, %d of them were compared with each other", c.passed(), c.compared());
    }

    private static String why(Map<String, Integer> refused) {
        List<Map.Entry<String, Integer>> most =
                refused.entrySet().stream()
                        .sorted(Map.Entry.<String, Integer>comparingByValue().reversed())
                        .toList();
        return most.stream()
                .map(e -> e.getKey() + " " + e.getValue())
                .collect(Collectors.joining(", "));
    }

    private static void quality(StringBuilder text, Suggestions.Quality q, int n) {
        say(
                text,
                "  the least difference is %.3f%s; %s",
                q.least(),
                n > 1 ? String.format(Locale.ROOT, ", the mean %.3f", q.mean()) : "",
                q.proven()
                        ? "no other choice of those compared has a greater one"
                        : String.format(
                                Locale.ROOT,
                                "within %.0f %% of the best possible of those compared",
                                Math.ceil(q.gap() * 100)));
    }

    private static void say(StringBuilder text, String format, Object... values) {
        text.append(String.format(Locale.ROOT, format, values)).append('\n');
    }
}

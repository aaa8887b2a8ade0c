package lookstep.server.plan;

import java.util.Locale;
import java.util.Map;
import java.util.StringJoiner;
import java.util.stream.Collectors;
import lookstep.server.plan.Look.Setting;
import lookstep.simulator.model.space.Vec3;

/** A plan to read through before a shoot: what is placed where, and what comes when. */
public final class PlanText {
    private final StringBuilder out = new StringBuilder();

    private PlanText() {}

    /** The whole plan, lines ended by a line feed, at most some 100 characters wide. */
    public static String of(ShootPlan plan) {
        PlanText text = new PlanText();
        text.head(plan);
        text.people(plan);
        text.rig(plan);
        text.looks(plan);
        text.shots(plan);
        return text.out.toString();
    }

    private void head(ShootPlan plan) {
        Place p = plan.place();
        line(plan.title());
        line(
                "  place   %s: %s m wide, %s m deep, %s m high; background %s m behind, reflects"
                        + " %s %%",
                p.name(),
                n(p.widthMetres()),
                n(p.depthMetres()),
                n(p.heightMetres()),
                n(p.backgroundMetres()),
                n(Math.round(1000 * p.backgroundReflectance()) / 10.0));
        House h = plan.house();
        line("  house   %s", h.lux() == 0 ? "dark" : n(h.lux()) + " lx at " + n(h.kelvin()) + " K");
        hours(plan.location());
        if (plan.locations().size() > 1) {
            line(
                    "  also    %s (check one with --place)",
                    plan.locations().stream()
                            .filter(l -> !l.name().equals(p.name()))
                            .map(PlanText::named)
                            .collect(Collectors.joining("; ")));
        }
        for (Job job : plan.around().jobs()) {
            line(
                    "  job     %s%s",
                    job.client(),
                    job.promised().isEmpty() ? "" : ": " + String.join(", ", job.promised()));
        }
        line(
                "  window  %s for %d shots",
                PlanWords.length(plan.windowSeconds()), plan.shots().size());
    }

    private void hours(Location here) {
        StringJoiner words = new StringJoiner("; ");
        here.from().ifPresent(t -> words.add("from " + t));
        here.until().ifPresent(t -> words.add("until " + t));
        if (!here.access().isEmpty()) {
            words.add(here.access());
        }
        if (!here.ask().isEmpty()) {
            words.add("ask " + here.ask());
        }
        if (words.length() > 0) {
            line("          %s", words);
        }
    }

    private static String named(Location location) {
        return location.name() + location.until().map(t -> " until " + t).orElse("");
    }

    private void people(ShootPlan plan) {
        line("");
        line("People");
        int width = plan.people().stream().mapToInt(p -> p.name().length()).max().orElse(0);
        for (Person p : plan.people()) {
            line("  %s  %s m  %s", pad(p.name(), width), pad(n(p.heightMetres()), 4), p.part());
        }
    }

    private void rig(ShootPlan plan) {
        line("");
        line("Rig (x right as the camera sees it, y away from the camera, z up; metres)");
        int name = plan.rig().stream().mapToInt(l -> l.name().length()).max().orElse(0);
        int address =
                plan.rig().stream().mapToInt(l -> PlanWords.address(l).length()).max().orElse(0);
        for (Light l : plan.rig()) {
            line(
                    "  %s  %s  %s, mode '%s', %s",
                    pad(l.name(), name),
                    pad(PlanWords.address(l), address),
                    l.fixture().id(),
                    l.mode().id(),
                    l.modifier().name());
            line("  %s  at %s, looks at %s", pad("", name), point(l.position()), point(l.aim()));
        }
    }

    private void looks(ShootPlan plan) {
        line("");
        line("Looks");
        for (Look look : plan.looks()) {
            line(
                    "  %s: %s, %s",
                    look.name(),
                    PlanWords.camera(look.camera()),
                    look.fadeSeconds() == 0 ? "snap" : "fade " + n(look.fadeSeconds()) + " s");
            for (Map.Entry<String, Setting> e : look.lights().entrySet()) {
                String key = e.getKey().equals(look.key()) ? " (key)" : "";
                line("    %s%s: %s", e.getKey(), key, PlanWords.setting(e.getValue()));
            }
        }
    }

    private void shots(ShootPlan plan) {
        line("");
        line("Shots, in order");
        int number = 1;
        for (Shot s : plan.shots()) {
            line("  %2d  %s%s", number++, s.name(), s.safe() ? "  (safe shot)" : "");
            line(
                    "      look '%s'; %s: %s",
                    s.look(),
                    PlanWords.arrangement(s.arrangement()),
                    String.join(", ", s.people()));
            line(
                    "      %s mm at %s m, lens %s m high; %s; importance %d",
                    n(s.lensMillimetres()),
                    n(s.distanceMetres()),
                    n(s.cameraHeightMetres()),
                    s.framing(),
                    s.importance());
            if (!s.say().isEmpty()) {
                StringJoiner say = new StringJoiner("” “", "“", "”");
                s.say().forEach(say::add);
                line("      %s", say);
            }
        }
    }

    private void line(String format, Object... values) {
        String text = values.length == 0 ? format : String.format(Locale.ROOT, format, values);
        out.append(text.stripTrailing()).append('\n');
    }

    private static String pad(String text, int width) {
        return text + " ".repeat(Math.max(0, width - text.length()));
    }

    private static String point(Vec3 p) {
        return "(" + n(p.x()) + ", " + n(p.y()) + ", " + n(p.z()) + ")";
    }

    private static String n(double value) {
        return PlanWords.number(value);
    }
}

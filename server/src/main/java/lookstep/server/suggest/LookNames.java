package lookstep.server.suggest;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import lookstep.server.look.LightReport;
import lookstep.server.plan.Look;

/** Short names for looks by what their lights do: {@code only rim, cold}. */
final class LookNames {
    /** As the plan file has it. */
    private static final int LONGEST = 60;

    /** Nearer to the camera's setting than this a light is called white. */
    private static final double WHITE_MIRED = 35;

    /** From tungsten to daylight and a little beyond; more is amber, or blue. */
    private static final double MOST_MIRED = 260;

    /** Twice the tolerance of lamps' whites (ANSI C78.377 has 0.006, from memory). */
    private static final double WHITE_DUV = 0.012;

    private static final int MOST_PARTS = 3;

    private final Set<String> taken = new HashSet<>();

    /**
     * @param taken names that are used already; upper and lower case are one
     */
    LookNames(List<String> taken) {
        taken.forEach(name -> this.taken.add(name.toLowerCase(Locale.ROOT)));
    }

    /** One that nobody has, and now is taken. */
    String of(Look look, List<LightReport> lights, boolean dark) {
        List<String> on = lights.stream().filter(LightReport::on).map(LightReport::light).toList();
        List<String> off = lights.stream().filter(l -> !l.on()).map(LightReport::light).toList();
        StringBuilder name = new StringBuilder(which(on, off));
        String colours = colours(lights);
        if (!colours.isEmpty()) {
            name.append(", ").append(colours);
        }
        if (!look.moved().isEmpty()) {
            name.append(", ").append(and(List.copyOf(look.moved().keySet()))).append(" moved");
        }
        if (dark) {
            name.append(", faces dark");
        }
        return unique(name.toString());
    }

    private String unique(String wanted) {
        String base = wanted.length() <= LONGEST - 4 ? wanted : wanted.substring(0, LONGEST - 4);
        String name = base.strip();
        for (int n = 2; !taken.add(name.toLowerCase(Locale.ROOT)); n++) {
            name = base.strip() + " " + n;
        }
        return name;
    }

    private static String which(List<String> on, List<String> off) {
        if (on.size() == 1) {
            return "only " + on.get(0);
        } else if (off.isEmpty()) {
            return on.size() == 2 ? and(on) : "all lights";
        } else if (on.size() <= 2 || on.size() < off.size()) {
            return on.size() <= 3 ? and(on) : on.size() + " lights";
        }
        return off.size() <= 2 ? "without " + and(off) : on.size() + " lights";
    }

    static String and(List<String> names) {
        return names.size() == 1
                ? names.get(0)
                : String.join(", ", names.subList(0, names.size() - 1))
                        + " and "
                        + names.get(names.size() - 1);
    }

    private static String colours(List<LightReport> lights) {
        Map<String, List<String>> by = new LinkedHashMap<>();
        for (LightReport light : lights) {
            light.given()
                    .ifPresent(
                            g ->
                                    by.computeIfAbsent(word(g.colour()), w -> new ArrayList<>())
                                            .add(light.light()));
        }
        if (by.size() == 1) {
            String all = by.keySet().iterator().next();
            return all.equals("white") ? "" : all;
        }
        by.remove("white");
        return String.join(
                ", ",
                by.entrySet().stream()
                        .limit(MOST_PARTS)
                        .map(
                                e ->
                                        (e.getValue().size() > 2
                                                        ? e.getValue().size() + " of them"
                                                        : and(e.getValue()))
                                                + " "
                                                + e.getKey())
                        .toList());
    }

    /** A colour as the camera sees it, a white as it is against the camera's. */
    static String word(LightReport.Colour c) {
        if (!white(c)) {
            return c.seen();
        } else if (Math.abs(c.miredFromCamera()) < WHITE_MIRED) {
            return "white";
        }
        return c.miredFromCamera() < 0 ? "cold" : "warm";
    }

    /** Whether anybody would call it a white. */
    static boolean white(LightReport.Colour c) {
        return c.temperature().useful()
                && Math.abs(c.temperature().duv()) < WHITE_DUV
                && Math.abs(c.miredFromCamera()) < MOST_MIRED;
    }
}

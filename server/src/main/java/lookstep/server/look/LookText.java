package lookstep.server.look;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import lookstep.server.plan.Look;
import lookstep.server.plan.PlanWords;

/** One look's lights as a short table. */
public final class LookText {
    private LookText() {}

    /** Lines ended by a line feed, indented by two; the first names the look. */
    public static String of(Look look, LookLevels worked) {
        List<String[]> rows = new ArrayList<>();
        for (LightReport light : worked.lights()) {
            rows.add(
                    light.given()
                            .map(
                                    g ->
                                            new String[] {
                                                light.light(),
                                                LightWords.lux(g.amount().lux()),
                                                LightWords.stops(light),
                                                LightWords.colour(g.colour()),
                                                LightWords.limits(g)
                                            })
                            .orElseGet(() -> new String[] {light.light(), "off", "", "", ""}));
        }
        StringBuilder text =
                new StringBuilder(
                        String.format(
                                Locale.ROOT,
                                "  %s (%s; metered for %s)\n",
                                look.name(),
                                PlanWords.camera(look.camera()),
                                LightWords.lux(LookLevels.meteredLux(look.camera()))));
        int name = width(rows, 0);
        int lux = width(rows, 1);
        int stops = width(rows, 2);
        for (String[] row : rows) {
            String line =
                    String.format(
                            Locale.ROOT,
                            "    %-"
                                    + name
                                    + "s  %"
                                    + lux
                                    + "s  %-"
                                    + Math.max(1, stops)
                                    + "s  %s%s",
                            row[0],
                            row[1],
                            row[2],
                            row[3],
                            row[4].isEmpty() ? "" : "; " + row[4]);
            text.append(line.stripTrailing()).append('\n');
        }
        return text.toString();
    }

    private static int width(List<String[]> rows, int column) {
        return rows.stream().mapToInt(r -> r[column].length()).max().orElse(1);
    }
}

package lookstep.server.suggest;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import lookstep.server.look.LightReport;
import lookstep.server.look.LightWords;
import lookstep.server.look.LookLevels;

/** What differs between two looks, in words, the most of it first. */
final class Unlike {
    private static final double SEEN_STOPS = 0.7;
    private static final double SEEN_MIRED = 30;
    private static final int MOST = 4;

    private record Said(double weight, String words) {}

    private Unlike() {}

    /**
     * Such as {@code fill and top off, rim 180 mired colder}.
     *
     * @param from the look that is known
     */
    static String words(LookLevels from, LookLevels to) {
        List<Said> said = new ArrayList<>();
        List<String> off = new ArrayList<>();
        List<String> on = new ArrayList<>();
        for (int l = 0; l < to.lights().size(); l++) {
            LightReport before = from.lights().get(l);
            LightReport now = to.lights().get(l);
            if (before.on() && now.on()) {
                light(now.light(), before.given().get(), now.given().get(), said);
            } else if (before.on()) {
                off.add(now.light());
            } else if (now.on()) {
                on.add(now.light());
            }
        }
        if (!off.isEmpty()) {
            said.add(new Said(3 * off.size(), lights(off) + " off"));
        }
        if (!on.isEmpty()) {
            said.add(new Said(3 * on.size(), lights(on) + " on"));
        }
        said.sort(Comparator.comparingDouble(Said::weight).reversed());
        return said.isEmpty()
                ? "a little less or more of the same"
                : String.join(", ", said.stream().limit(MOST).map(Said::words).toList());
    }

    private static String lights(List<String> names) {
        return names.size() <= 2 ? LookNames.and(names) : names.size() + " lights";
    }

    private static void light(
            String name, LightReport.Given before, LightReport.Given now, List<Said> said) {
        LightReport.Colour c = now.colour();
        LightReport.Colour was = before.colour();
        double mired = c.miredFromCamera() - was.miredFromCamera();
        if (LookNames.white(c) && LookNames.white(was)) {
            if (Math.abs(mired) >= SEEN_MIRED) {
                said.add(
                        new Said(
                                Math.abs(mired) / 60,
                                name + " " + LightWords.mired(Math.round(mired))));
            }
        } else if (!c.seen().equals(was.seen())) {
            said.add(new Said(3, name + " " + c.seen()));
        }
        double stops = now.amount().exposedStops() - before.amount().exposedStops();
        if (Math.abs(stops) >= SEEN_STOPS && !Double.isInfinite(stops)) {
            said.add(
                    new Said(
                            Math.abs(stops),
                            String.format(
                                    Locale.ROOT,
                                    "%s %.0f%s %s",
                                    name,
                                    Math.abs(stops),
                                    Math.abs(stops) < 1.5 ? " stop" : " stops",
                                    stops < 0 ? "down" : "up")));
        }
    }
}

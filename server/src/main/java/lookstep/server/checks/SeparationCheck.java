package lookstep.server.checks;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.Look.Setting;
import lookstep.simulator.model.optics.Exposure;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.space.Vec3;

/**
 * How many stops the outline of each person differs from what is behind, for the clothes they wear.
 * {@link #TARGET_STOPS} is wanted, a figure of our own: less is lost in print.
 */
final class SeparationCheck {
    static final double TARGET_STOPS = 1;

    /** Less than this, and somebody melts into the background: the step of the dials. */
    private static final double LOST_STOPS = 1 / 3.0;

    /** Black cloth is 0.02 to 0.05 (common practice). */
    private static final double BLACK = 0.055;

    /** So much of an outline may be lost without a word (figure of our own). */
    private static final double LOST_SHARE = 0.25;

    private static final double MOST_TIMES = 64;

    private SeparationCheck() {}

    static List<Finding> of(Staged s) {
        SeenLight light = new SeenLight(s);
        List<Outline> outlines = new ArrayList<>();
        Numbers numbers = new Numbers().put("targetStops", TARGET_STOPS);
        double least = Double.POSITIVE_INFINITY;
        int worst = -1;
        List<String> weak = new ArrayList<>();
        for (int i = 0; i < s.scene().figures().size(); i++) {
            Outline outline = Outline.of(s, light, i);
            outlines.add(outline);
            if (outline.empty()) {
                continue;
            }
            double size = outline.medianSize(-1, 1);
            numbers.put("stops " + s.name(i), outline.medianStops());
            numbers.put("lostShareOfOutline " + s.name(i), outline.lost());
            if (size < TARGET_STOPS) {
                weak.add(s.name(i));
            }
            if (size < least) {
                least = size;
                worst = i;
            }
        }
        if (worst < 0) {
            return List.of();
        }
        boolean black = blackOnBlack(s, worst) && !rim(s);
        numbers.put("leastStops", least);
        if (weak.isEmpty()) {
            return List.of(
                    new Finding(
                            Kind.SEPARATION,
                            Weight.GOOD,
                            Subject.shot(s),
                            Words.text(
                                    "everybody stands off, %s the least: %s%s",
                                    s.name(worst), Words.stops(least), lost(s, outlines)),
                            numbers.all(),
                            Optional.empty()));
        }
        String says =
                Words.text(
                        "%s%s off what is behind%s by %s; %s is wanted",
                        Words.names(weak),
                        weak.size() == 1 ? " hardly stands" : " hardly stand",
                        weak.size() == 1 ? "," : ", " + s.name(worst),
                        Words.stops(least),
                        Words.stops(TARGET_STOPS));
        if (black) {
            says += "; black clothes on a black background, and no light from behind";
        }
        return List.of(
                new Finding(
                        Kind.SEPARATION,
                        least < LOST_STOPS && !dark(s) ? Weight.WRONG : Weight.LOOK,
                        Subject.shot(s).ofPerson(weak.size() == 1 ? weak.get(0) : ""),
                        says,
                        numbers.all(),
                        Optional.of(mend(s, outlines, numbers))));
    }

    /** Who has much of the outline within a third of a stop of what is behind. */
    private static String lost(Staged s, List<Outline> outlines) {
        int most = 0;
        for (int i = 1; i < outlines.size(); i++) {
            most = outlines.get(i).lost() > outlines.get(most).lost() ? i : most;
        }
        double share = outlines.get(most).lost();
        return share > LOST_SHARE
                ? Words.text("; of %s %s is lost", s.name(most), Words.percent(share))
                : "";
    }

    /** Where faces stay dark, edges are meant to show in part only. */
    private static boolean dark(Staged s) {
        return s.faces().stream()
                .allMatch(f -> Exposure.stopsOver(f.lux(), s.camera()) < ExposureCheck.DARK_STOPS);
    }

    private static boolean blackOnBlack(Staged s, int figure) {
        Figure f = s.scene().figures().get(figure);
        return f.top().luminous() < BLACK && s.scene().room().background().luminous() < BLACK;
    }

    /** Whether any light that is on comes from behind the people. */
    private static boolean rim(Staged s) {
        for (int i = 0; i < s.sent().size(); i++) {
            if (s.sent().get(i).y() > 0 && behind(s, i)) {
                return true;
            }
        }
        return false;
    }

    private static boolean behind(Staged s, int lamp) {
        Vec3 at = s.plan().rig().get(lamp).position();
        return at.y() > 0.2 && at.y() < s.scene().room().backgroundMetres();
    }

    /** The light that needs the fewest stops more for all to reach the target. */
    private static Mend mend(Staged s, List<Outline> outlines, Numbers numbers) {
        int best = -1;
        double fewest = MOST_TIMES;
        for (int l = 0; l < s.sent().size(); l++) {
            if (s.sent().get(l).y() <= 0 || !behind(s, l)) {
                continue;
            }
            double times = times(outlines, l);
            if (times < fewest) {
                fewest = times;
                best = l;
            }
        }
        if (best < 0) {
            Optional<String> off =
                    s.plan().rig().stream()
                            .filter(l -> l.position().y() > 0.2)
                            .map(l -> l.name())
                            .filter(n -> !s.on().contains(n))
                            .findFirst();
            return off.map(
                            n ->
                                    new Mend(
                                            "turn ‘" + n + "’ on: it stands behind them",
                                            List.of(
                                                    new Change(
                                                            List.of(
                                                                    "looks",
                                                                    Map.of("name", s.look().name()),
                                                                    "lights",
                                                                    n),
                                                            Map.of("stops", 0.5)))))
                    .orElse(
                            Mend.words(
                                    "set a light behind them, high and aimed at their shoulders, or"
                                            + " light the background"));
        }
        String name = s.plan().rig().get(best).name();
        double more = Words.log2(fewest);
        numbers.put("moreStops", more).put("moreFrom", name);
        return new Mend(
                Words.text(
                        "‘%s’ %s brighter brings all to %s",
                        name, Words.stops(more), Words.stops(TARGET_STOPS)),
                change(s.look(), name, more));
    }

    private static List<Change> change(Look look, String light, double more) {
        Setting setting = look.lights().get(light);
        if (setting == null) {
            return List.of();
        }
        if (setting.level() instanceof Level.StopsFromKey stops) {
            return List.of(
                    new Change(
                            Paths.setting(look.name(), light, "stops"),
                            Math.round((stops.stops() + more) * 10) / 10.0));
        } else if (setting.level() instanceof Level.Lux lux) {
            return List.of(
                    new Change(
                            Paths.setting(look.name(), light, "lux"),
                            (double) Math.round(lux.lux() * Math.pow(2, more))));
        }
        double percent = ((Level.Percent) setting.level()).percent() * Math.pow(2, more);
        return percent > 100
                ? List.of()
                : List.of(
                        new Change(
                                Paths.setting(look.name(), light, "percent"),
                                (double) Math.round(percent)));
    }

    private static double times(List<Outline> outlines, int lamp) {
        if (!reach(outlines, lamp, MOST_TIMES)) {
            return Double.POSITIVE_INFINITY;
        }
        double low = 1;
        double high = MOST_TIMES;
        for (int i = 0; i < 20; i++) {
            double middle = Math.sqrt(low * high);
            if (reach(outlines, lamp, middle)) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return high;
    }

    private static boolean reach(List<Outline> outlines, int lamp, double times) {
        return outlines.stream()
                .filter(o -> !o.empty())
                .allMatch(o -> o.medianSize(lamp, times) >= TARGET_STOPS);
    }
}

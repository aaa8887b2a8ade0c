package lookstep.server.measuring;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import lookstep.server.look.LookLevels;
import lookstep.server.look.RigLevels;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.simulator.model.plates.Cast;
import lookstep.simulator.model.plates.LinearPlates;
import lookstep.simulator.model.plates.Lit;
import lookstep.simulator.model.plates.PlateMeasures;

/** What is counted in a look on plates, taken or modelled, in words. */
public final class Counted {
    private static final double LEAST_SHARE = 0.05;
    private static final double BURNT_SHARE = 0.005;

    private Counted() {}

    /** How a look lights plates of a plan's rig. */
    public static Lit lit(ShootPlan plan, Look look) {
        RigLevels levels = LookLevels.of(plan, look).levels();
        List<Integer> lightOf = new ArrayList<>();
        List<Double> all = new ArrayList<>();
        for (int l = 0; l < levels.size(); l++) {
            for (double level : levels.of(l)) {
                lightOf.add(l);
                all.add(level);
            }
        }
        return new Lit(
                1,
                all.stream().mapToDouble(Double::doubleValue).toArray(),
                lightOf,
                1 / LookLevels.meteredLux(look.camera()),
                look.camera().kelvin());
    }

    /** A line each: faces, outlines, background, whose light it is. */
    public static List<String> words(ShootPlan plan, Look look, LinearPlates plates, Cast cast) {
        PlateMeasures m = PlateMeasures.of(plates, cast, lit(plan, look));
        List<String> words = new ArrayList<>();
        List<PlateMeasures.Person> seen =
                m.people().stream().filter(p -> !Double.isNaN(p.skinStopsOverGrey())).toList();
        if (!seen.isEmpty()) {
            words.add(
                    "faces and hands %s a mid grey"
                            .formatted(
                                    range(
                                            seen.stream()
                                                    .map(PlateMeasures.Person::skinStopsOverGrey)
                                                    .toList(),
                                            "over",
                                            "under")));
            double burnt =
                    seen.stream().mapToDouble(PlateMeasures.Person::burntShare).max().orElse(0);
            if (burnt > BURNT_SHARE) {
                words.add("burnt: %s of somebody's skin".formatted(percent(burnt)));
            }
        }
        m.people().stream()
                .map(PlateMeasures.Person::outlineStops)
                .filter(s -> !Double.isNaN(s))
                .min(Comparator.naturalOrder())
                .ifPresent(
                        least ->
                                words.add(
                                        "outlines stand off by %s or more"
                                                .formatted(stops(least))));
        words.add(
                "background %s a mid grey, %s the people"
                        .formatted(
                                signed(m.backgroundStops(), "over", "under"),
                                signed(-m.peopleOverBackgroundStops(), "over", "under")));
        words.add("on the people: " + shares(plan, m.lightsOnPeople(), m.houseOnPeople()));
        words.add("on the rest: " + shares(plan, m.lightsOnBackground(), m.houseOnBackground()));
        return words;
    }

    private static String shares(ShootPlan plan, List<Double> lights, double house) {
        record Share(String name, double of) {}
        List<Share> all =
                new ArrayList<>(
                        IntStream.range(0, lights.size())
                                .mapToObj(i -> new Share(plan.rig().get(i).name(), lights.get(i)))
                                .toList());
        all.add(new Share("house", house));
        return all.stream()
                .filter(s -> s.of() >= LEAST_SHARE)
                .sorted(Comparator.comparingDouble(Share::of).reversed())
                .map(s -> s.name() + " " + percent(s.of()))
                .collect(Collectors.joining(", "));
    }

    private static String range(List<Double> stops, String over, String under) {
        double least = stops.stream().mapToDouble(Double::doubleValue).min().orElse(0);
        double most = stops.stream().mapToDouble(Double::doubleValue).max().orElse(0);
        return most - least < 0.15
                ? signed(least, over, under)
                : signed(least, over, under) + " to " + signed(most, over, under);
    }

    private static String signed(double stops, String over, String under) {
        return Math.abs(stops) < 0.05
                ? "as"
                : stops(Math.abs(stops)) + " " + (stops > 0 ? over : under);
    }

    private static String stops(double stops) {
        return String.format(Locale.ROOT, "%.1f stops", stops);
    }

    private static String percent(double share) {
        return String.format(Locale.ROOT, "%.0f %%", 100 * share);
    }
}

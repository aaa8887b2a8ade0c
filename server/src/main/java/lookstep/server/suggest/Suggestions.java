package lookstep.server.suggest;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import lookstep.server.look.LightReport;
import lookstep.server.look.LightWords;
import lookstep.server.look.LookLevels;
import lookstep.server.plan.Look;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.suggest.Candidates.Worked;
import lookstep.simulator.model.plates.Cast;
import lookstep.simulator.model.plates.LinearPlates;

/**
 * Looks of a rig that are mutually most different and can be photographed, in the order in which
 * they are stepped through soonest; and what one light stood elsewhere would add.
 *
 * @param shot id of the shot whose people, camera and place they are for
 * @param inPlace with every light where it stands
 * @param moved with one light moved, by the model, those that add most first
 * @param counts what they were chosen from
 * @param quality how far apart they are, and could be
 */
public record Suggestions(
        String shot,
        List<Suggestion> inPlace,
        List<Suggestion> moved,
        Counts counts,
        Quality quality) {
    /** The measure, in words. */
    public static final String MEASURE =
            "difference: root mean square distance of the pictures in OKLab, a and b doubled, people"
                    + " weighted three times, and 0.06 for each stop by which the light falls otherwise on them"
                    + " (left, right, above, below, edge); 0.02 is just seen, 1 is black to white";

    public Suggestions {
        inPlace = List.copyOf(inPlace);
        moved = List.copyOf(moved);
    }

    /**
     * What they were chosen from.
     *
     * @param possible recipes that the rig has by the steps that were tried, all told
     * @param listed so many of them
     * @param wholeUpTo lists with so many lights on, or fewer, are whole
     * @param looked at so many pictures
     * @param passed so many of them
     * @param compared so many of those with each other
     * @param refused the others, by why, in words
     */
    public record Counts(
            double possible,
            int listed,
            int wholeUpTo,
            int looked,
            int passed,
            int compared,
            Map<String, Integer> refused) {}

    /**
     * How far apart they are.
     *
     * @param least difference between two of them, or from one to a look of the plan
     * @param mean difference between two of them
     * @param bestPossible no choice of those compared has a greater least difference
     * @param proven true if none is better
     */
    public record Quality(double least, double mean, double bestPossible, boolean proven) {
        /** How far below the best possible it can be, 0..1. */
        public double gap() {
            return bestPossible > 0 ? 1 - least / bestPossible : 0;
        }
    }

    /** From the model, before there are frames. */
    public static Suggestions modelled(ShootPlan plan, Shot shot, Options options) {
        ModelledPlates modelled = ModelledPlates.of(plan, shot);
        return of(modelled.plates(), modelled.cast(), plan, shot, options);
    }

    /**
     * From plates, taken or modelled; lights that are moved always by the model.
     *
     * @param plates of the plan's rig where it stands
     * @param cast people in the order of the shot
     * @param plan at the place of the shot
     * @throws IllegalArgumentException if the plates are not of this rig, or not of this shot
     */
    public static Suggestions of(
            LinearPlates plates, Cast cast, ShootPlan plan, Shot shot, Options options) {
        Search search = Search.of(plates, cast, plan, shot, options);
        Spread spread = Spread.of(search.distances(), options.count(), Spread.USUAL_EFFORT);
        List<Worked> chosen = spread.chosen().stream().map(search.compared()::get).toList();
        Look on = plan.look(options.lookOn().isEmpty() ? shot.look() : options.lookOn());
        StepOrder order =
                StepOrder.of(on, chosen.stream().map(Worked::look).toList(), plan.around().times());
        LookNames names = new LookNames(plan.looks().stream().map(Look::name).toList());
        List<Worked> named = new ArrayList<>();
        order.order().forEach(i -> named.add(named(chosen.get(i), names)));
        List<Suggestion> inPlace = new ArrayList<>();
        for (int i = 0; i < named.size(); i++) {
            inPlace.add(inPlace(plan, search, named, i, order.seconds().get(i)));
        }
        List<Suggestion> moved =
                options.moves() == 0
                        ? List.of()
                        : moved(plan, shot, named, search.seeds(), names, options);
        return new Suggestions(
                shot.id(),
                inPlace,
                moved,
                counts(search),
                new Quality(spread.least(), spread.mean(), spread.bound(), spread.proven()));
    }

    private static Counts counts(Search s) {
        Map<String, Integer> refused = new LinkedHashMap<>();
        s.refused().forEach((why, n) -> refused.put(why.words(), n));
        return new Counts(
                s.listed().possible(),
                s.listed().recipes().size(),
                s.listed().whole(),
                s.looked(),
                s.passed(),
                s.compared().size(),
                refused);
    }

    /** With a name of its own, unless it is the plan's. */
    private static Worked named(Worked w, LookNames names) {
        if (!w.look().name().isEmpty()) {
            return w;
        }
        String name = names.of(w.look(), w.levels().lights(), dark(w.passes()));
        return new Worked(renamed(w.look(), name), w.levels(), w.passes(), w.rgb(), w.point());
    }

    private static boolean dark(Passes passes) {
        return passes.faceStops() < Passes.SILHOUETTE_STOPS;
    }

    private static Look renamed(Look l, String name) {
        return new Look(name, l.camera(), l.fadeSeconds(), l.key(), l.lights(), l.moved());
    }

    private static Suggestion inPlace(
            ShootPlan plan, Search search, List<Worked> named, int at, double seconds) {
        Worked w = named.get(at);
        List<Worked> others = new ArrayList<>(search.seeds());
        others.addAll(named.subList(0, at));
        others.addAll(named.subList(at + 1, named.size()));
        Worked nearest = null;
        for (Worked o : others) {
            if (nearest == null
                    || Difference.between(w.point(), o.point())
                            < Difference.between(w.point(), nearest.point())) {
                nearest = o;
            }
        }
        Optional<Worked> to = Optional.ofNullable(nearest);
        return suggestion(
                plan,
                w,
                to.map(Worked::levels),
                to.map(
                                n ->
                                        new Suggestion.Nearest(
                                                n.look().name(),
                                                Difference.between(w.point(), n.point()),
                                                search.difference().ciede2000(w.rgb(), n.rgb())))
                        .orElse(new Suggestion.Nearest("", 0, 0)),
                seconds,
                Optional.empty());
    }

    private static List<Suggestion> moved(
            ShootPlan plan,
            Shot shot,
            List<Worked> named,
            List<Worked> seeds,
            LookNames names,
            Options options) {
        List<Look> against = new ArrayList<>();
        seeds.forEach(s -> against.add(s.look()));
        named.forEach(n -> against.add(n.look()));
        List<Suggestion> all = new ArrayList<>();
        for (OneMoved.Found f : OneMoved.of(plan, shot, against, options)) {
            Worked w = named(f.worked(), names);
            double seconds = plan.around().times().light();
            Optional<Look> nearest =
                    f.nearest() < 0 ? Optional.empty() : Optional.of(against.get(f.nearest()));
            against.add(w.look());
            all.add(
                    suggestion(
                            plan,
                            w,
                            nearest.map(n -> LookLevels.of(plan, n)),
                            new Suggestion.Nearest(
                                    nearest.map(Look::name).orElse(""),
                                    nearest.isEmpty() ? 0 : f.adds(),
                                    f.ciede2000()),
                            seconds,
                            Optional.of(
                                    new Suggestion.Moved(
                                            f.light(),
                                            "move ‘%s’ %s (about %s)"
                                                    .formatted(
                                                            f.light(),
                                                            f.place().words(),
                                                            PlanWords.length(seconds)),
                                            f.place().caution(),
                                            seconds))));
        }
        return all;
    }

    private static Suggestion suggestion(
            ShootPlan plan,
            Worked w,
            Optional<LookLevels> nearest,
            Suggestion.Nearest near,
            double seconds,
            Optional<Suggestion.Moved> moved) {
        boolean own = plan.looks().contains(w.look());
        return new Suggestion(
                w.look(),
                nearest.map(n -> Unlike.words(n, w.levels())).orElse("the only one"),
                lights(w.levels()),
                PlanWords.camera(w.look().camera()),
                near,
                w.passes(),
                seconds,
                moved,
                own ? w.look().name() : "");
    }

    private static List<Suggestion.LightLine> lights(LookLevels worked) {
        List<Suggestion.LightLine> lines = new ArrayList<>();
        for (int l = 0; l < worked.lights().size(); l++) {
            LightReport report = worked.lights().get(l);
            List<Double> emitters = new ArrayList<>();
            for (double level : worked.levels().of(l)) {
                emitters.add(level);
            }
            lines.add(
                    new Suggestion.LightLine(
                            report.light(),
                            List.copyOf(emitters),
                            report.given().map(g -> g.amount().lux()).orElse(0.0),
                            words(report)));
        }
        return lines;
    }

    private static String words(LightReport report) {
        return report.given()
                .map(
                        g ->
                                java.util.stream.Stream.of(
                                                LightWords.lux(g.amount().lux()),
                                                LightWords.stops(report),
                                                LightWords.colour(g.colour()))
                                        .filter(s -> !s.isEmpty())
                                        .collect(Collectors.joining(", ")))
                .orElse("off");
    }
}

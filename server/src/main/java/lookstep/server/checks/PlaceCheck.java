package lookstep.server.checks;

import java.time.Duration;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.server.plan.Location;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.ShootPlan;

/** When the places can be had: whether the window fits, and whether two are wanted at once. */
final class PlaceCheck {
    private PlaceCheck() {}

    static List<Finding> of(ShootPlan plan) {
        List<Finding> all = new ArrayList<>();
        Location here = plan.location();
        if (here.from().isPresent() && here.until().isPresent()) {
            all.add(fits(plan, here, here.from().get(), here.until().get()));
        }
        List<Location> places = plan.locations();
        for (int i = 0; i < places.size(); i++) {
            for (int j = i + 1; j < places.size(); j++) {
                overlap(places.get(i), places.get(j)).ifPresent(all::add);
            }
        }
        int made = plan.shots().size();
        if (made == 0) {
            all.add(
                    new Finding(
                            Kind.PLACE,
                            Weight.WRONG,
                            Subject.PLAN,
                            "no shot can be made at ‘" + here.name() + "’: its key is not there",
                            new Numbers().put("shots", made).all(),
                            Optional.of(
                                    Mend.words(
                                            "name the key's light in the lights of the place"))));
        }
        return all;
    }

    /** A place that is had over midnight ends the next day. */
    private static double seconds(LocalTime from, LocalTime until) {
        double s = Duration.between(from, until).toSeconds();
        return s <= 0 ? s + 24 * 3600 : s;
    }

    private static Finding fits(ShootPlan plan, Location here, LocalTime from, LocalTime until) {
        double had = seconds(from, until);
        boolean fits = had >= plan.windowSeconds();
        Numbers numbers =
                new Numbers()
                        .put("placeSeconds", had)
                        .put("windowSeconds", plan.windowSeconds())
                        .put("from", from.toString())
                        .put("until", until.toString());
        String says =
                Words.text(
                        "‘%s’ can be had from %s to %s, %s, and the window is %s",
                        here.name(),
                        from,
                        until,
                        PlanWords.length(had),
                        PlanWords.length(plan.windowSeconds()));
        return new Finding(
                Kind.PLACE,
                fits ? Weight.GOOD : Weight.WRONG,
                Subject.PLAN,
                fits ? says : says + ": it does not fit",
                numbers.all(),
                fits
                        ? Optional.empty()
                        : Optional.of(
                                new Mend(
                                        "a window of "
                                                + PlanWords.length(had)
                                                + ", or ask for more",
                                        List.of(
                                                new Change(
                                                        List.of("window"),
                                                        PlanWords.length(had))))));
    }

    private static Optional<Finding> overlap(Location a, Location b) {
        if (a.from().isEmpty()
                || a.until().isEmpty()
                || b.from().isEmpty()
                || b.until().isEmpty()) {
            return Optional.empty();
        }
        double startA = a.from().get().toSecondOfDay();
        double startB = b.from().get().toSecondOfDay();
        double endA = startA + seconds(a.from().get(), a.until().get());
        double endB = startB + seconds(b.from().get(), b.until().get());
        double both = Math.min(endA, endB) - Math.max(startA, startB);
        if (both <= 0) {
            return Optional.empty();
        }
        return Optional.of(
                new Finding(
                        Kind.PLACE,
                        Weight.LOOK,
                        Subject.PLAN,
                        Words.text(
                                "‘%s’ and ‘%s’ are to be had at the same time for %s: one crew is at"
                                        + " one of them",
                                a.name(), b.name(), PlanWords.length(both)),
                        new Numbers().put("overlapSeconds", both).all(),
                        Optional.of(Mend.words("agree on who goes where, and when"))));
    }
}

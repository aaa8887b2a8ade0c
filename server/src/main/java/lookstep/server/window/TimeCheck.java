package lookstep.server.window;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import lookstep.server.checks.Finding;
import lookstep.server.checks.Kind;
import lookstep.server.checks.Mend;
import lookstep.server.checks.Subject;
import lookstep.server.checks.Weight;
import lookstep.server.order.Dropped;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;

/** Whether a plan's shots fit its window, and what falls off. */
public final class TimeCheck {
    /** Less is no time to spare: people come late (common practice: a tenth). */
    private static final double SPARE_SHARE = 0.1;

    private TimeCheck() {}

    /** One finding about the order as it is written; a second where another order is better. */
    public static List<Finding> of(ShootPlan plan, PlannedOrder order) {
        List<Finding> all = new ArrayList<>();
        int shots = order.written().legs().size();
        int fitting = order.written().fitting();
        double spare = plan.windowSeconds() - order.written().secondsOfAll();
        Map<String, Object> numbers = new LinkedHashMap<>();
        numbers.put("windowSeconds", plan.windowSeconds());
        numbers.put("neededSeconds", order.written().secondsOfAll());
        numbers.put("shots", (double) shots);
        numbers.put("shotsWithin", (double) fitting);
        numbers.put("value", order.written().value());
        numbers.put("bestValue", order.best().value());
        if (fitting == shots) {
            boolean tight = spare < SPARE_SHARE * plan.windowSeconds();
            all.add(
                    new Finding(
                            Kind.TIME,
                            tight ? Weight.LOOK : Weight.GOOD,
                            Subject.PLAN,
                            "all %d shots fit: %s of %s"
                                    .formatted(
                                            shots,
                                            PlanWords.length(order.written().secondsOfAll()),
                                            PlanWords.length(plan.windowSeconds())),
                            numbers,
                            tight
                                    ? Optional.of(
                                            words(
                                                    "keep a tenth of the window free: people come late"))
                                    : Optional.empty()));
            return all;
        }
        all.add(
                new Finding(
                        Kind.TIME,
                        Weight.WRONG,
                        Subject.PLAN,
                        "as written %d of %d shots fit %s; %s would be needed. Behind the end: %s"
                                .formatted(
                                        fitting,
                                        shots,
                                        PlanWords.length(plan.windowSeconds()),
                                        PlanWords.length(order.written().secondsOfAll()),
                                        names(plan, order.written().fallsOff())),
                        numbers,
                        Optional.of(mend(plan, order))));
        return all;
    }

    private static Mend words(String says) {
        return new Mend(says, List.of());
    }

    /** The best order, written into the file; what it leaves out comes last. */
    private static Mend mend(ShootPlan plan, PlannedOrder order) {
        List<String> ids = order.best().ids();
        List<String> out = order.best().dropped().stream().map(Dropped::id).toList();
        boolean better = order.best().value() > order.written().value() + 1e-9;
        if (!better) {
            return words(
                    "no other order holds more: leave shots out, or ask for %s"
                            .formatted(PlanWords.length(order.written().secondsOfAll())));
        }
        return words(
                "this order holds %d: %s; left out: %s (a re-cut on the set does the same)"
                        .formatted(ids.size(), names(plan, ids), names(plan, out)));
    }

    private static String names(ShootPlan plan, List<String> ids) {
        return ids.stream()
                .map(id -> plan.shot(id).map(Shot::name).orElse(id))
                .collect(Collectors.joining(", "));
    }
}

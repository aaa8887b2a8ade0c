package lookstep.server.window;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.server.live.LiveState;
import lookstep.server.order.Changes;
import lookstep.server.order.Item;
import lookstep.server.order.Pace;
import lookstep.server.order.Situation;
import lookstep.server.order.Times;
import lookstep.server.order.Variety;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;

/**
 * Where the shoot stands at one moment.
 *
 * @param plan as it is in the state
 * @param made items of what needs not be made any more
 * @param left items of all else but the current shot, in the running order, then those that a
 *     re-cut left out
 * @param current the current shot's item; empty before the first
 * @param currentMade whether the current shot needs not be made any more
 * @param times how long changes take, by the plan
 * @param pace as learned in this shoot
 * @param leftSeconds until the window ends; may be below 0
 * @param currentSeconds what the current shot still takes, as far as can be said
 * @param variety how alike the shots are
 */
public record WindowNow(
        ShootPlan plan,
        List<Item> made,
        List<Item> left,
        Optional<Item> current,
        boolean currentMade,
        Times times,
        Pace pace,
        double leftSeconds,
        double currentSeconds,
        Variety variety) {

    /**
     * Looks at a state.
     *
     * @param plan as it is in the state
     * @param variety of all shots of the plan
     */
    public static WindowNow of(
            ShootPlan plan, LiveState state, Variety variety, long nowEpochMillis) {
        List<String> order = new ArrayList<>(state.course().order());
        order.addAll(state.course().leftOut());
        plan.shots().stream().map(Shot::id).filter(id -> !order.contains(id)).forEach(order::add);
        List<Item> made = new ArrayList<>();
        List<Item> left = new ArrayList<>();
        Optional<Item> current = Optional.empty();
        for (String id : order) {
            Optional<Shot> shot = plan.shot(id);
            if (shot.isEmpty()) {
                continue;
            }
            Item item = ShotItems.of(plan, shot.get());
            if (id.equals(state.shot())) {
                current = Optional.of(item);
            } else if (state.made(id)) {
                made.add(item);
            } else {
                left.add(item);
            }
        }
        Times times = ShotItems.times(plan);
        Pace pace = Pace.of(PastLegs.of(plan, state));
        boolean currentMade = current.isPresent() && state.made(state.shot());
        double windowSeconds = state.windowSeconds(plan);
        return new WindowNow(
                plan,
                made,
                left,
                current,
                currentMade,
                times,
                pace,
                windowSeconds - state.clock().elapsedMillis(nowEpochMillis) / 1000.0,
                currentMade || current.isEmpty()
                        ? 0
                        : rest(current.get(), state, times, pace, nowEpochMillis),
                variety);
    }

    /** What the current shot takes, less what has gone by since it became current. */
    private static double rest(
            Item current, LiveState state, Times times, Pace pace, long nowEpochMillis) {
        long since =
                state.timeline().since().isEmpty()
                        ? nowEpochMillis
                        : state.timeline()
                                .since()
                                .get(state.timeline().since().size() - 1)
                                .atEpochMillis();
        double whole =
                current.shootSeconds() * pace.shots()
                        + Changes.first(current, pace.at(times)).seconds();
        return Math.max(0, whole - Math.max(0, nowEpochMillis - since) / 1000.0);
    }

    /** As the running order asks for it, at the pace of this shoot; the current shot as made. */
    Situation situation() {
        List<Item> done = new ArrayList<>(made);
        current.ifPresent(done::add);
        return pace.at(new Situation(left, done, current));
    }

    /** The same, with only those that are in the running order, in that order. */
    Situation inOrder(List<String> order) {
        List<Item> done = new ArrayList<>(made);
        current.ifPresent(done::add);
        return pace.at(
                new Situation(
                        left.stream().filter(i -> order.contains(i.id())).toList(), done, current));
    }

    /** The changes at the pace of this shoot. */
    Times paced() {
        return pace.at(times);
    }

    /** The time for what comes behind the current shot; at least 0. */
    double afterCurrent() {
        return Math.max(0, leftSeconds - currentSeconds);
    }
}

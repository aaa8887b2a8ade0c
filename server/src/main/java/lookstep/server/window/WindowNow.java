package lookstep.server.window;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import lookstep.server.live.LiveState;
import lookstep.server.live.Timeline.Since;
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
        Set<String> order = new LinkedHashSet<>(state.course().order());
        order.addAll(state.course().leftOut());
        plan.shots().stream().map(Shot::id).forEach(order::add);
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
        double windowSeconds = state.windowSeconds(plan);
        return new WindowNow(
                plan,
                made,
                left,
                current,
                times,
                pace,
                windowSeconds - state.clock().elapsedMillis(nowEpochMillis) / 1000.0,
                current.map(c -> rest(plan, c, state, times, pace, nowEpochMillis)).orElse(0.0),
                variety);
    }

    /**
     * What the current shot still takes: from its first frame on the shot alone, before that its
     * change too, less what has gone by.
     */
    private static double rest(
            ShootPlan plan,
            Item current,
            LiveState state,
            Times times,
            Pace pace,
            long nowEpochMillis) {
        double shooting = current.shootSeconds() * pace.shots();
        OptionalLong first = PastLegs.firstFrame(state);
        if (first.isPresent()) {
            return Math.max(0, shooting - Math.max(0, nowEpochMillis - first.getAsLong()) / 1000.0);
        }
        List<Since> since = state.timeline().shots();
        int last = since.size() - 1;
        Optional<Item> before =
                last < 1
                        ? Optional.empty()
                        : plan.shot(since.get(last - 1).shot()).map(s -> ShotItems.of(plan, s));
        Times paced = pace.at(times);
        double changing =
                before.map(b -> Changes.between(b, current, paced))
                        .orElseGet(() -> Changes.first(current, paced))
                        .seconds();
        long stepped = last < 0 ? nowEpochMillis : since.get(last).atEpochMillis();
        return Math.max(0, changing + shooting - Math.max(0, nowEpochMillis - stepped) / 1000.0);
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

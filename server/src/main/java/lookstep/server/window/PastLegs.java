package lookstep.server.window;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import lookstep.server.live.CameraClock;
import lookstep.server.live.Frame;
import lookstep.server.live.LiveState;
import lookstep.server.live.Timeline.Since;
import lookstep.server.order.Change;
import lookstep.server.order.Changes;
import lookstep.server.order.Item;
import lookstep.server.order.PacedLeg;
import lookstep.server.order.Times;
import lookstep.server.plan.ShootPlan;

/**
 * What the shots and changes that are behind really took. From the step to the first frame is the
 * change; from there to the next step is the shot. Where no frame came in, only the sum is known.
 */
final class PastLegs {
    /**
     * Somebody went through the looks, took plates, or the shoot was left alone: nothing is learned
     * from it.
     */
    private static final double LEAST_SECONDS = 2;

    private static final double MOST_SECONDS = 600;

    private PastLegs() {}

    static List<PacedLeg> of(ShootPlan plan, LiveState state) {
        List<Since> since = state.timeline().shots();
        Times times = ShotItems.times(plan);
        CameraClock.All clocks = CameraClock.of(state.frames());
        List<PacedLeg> legs = new ArrayList<>();
        Optional<Item> before = Optional.empty();
        for (int i = 0; i < since.size(); i++) {
            Optional<Item> item =
                    plan.shot(since.get(i).shot()).map(shot -> ShotItems.of(plan, shot));
            if (item.isPresent() && i + 1 < since.size()) {
                long from = since.get(i).atEpochMillis();
                long to = since.get(i + 1).atEpochMillis();
                Change planned =
                        before.map(b -> Changes.between(b, item.get(), times))
                                .orElseGet(() -> Changes.first(item.get(), times));
                leg(state, clocks, item.get(), planned, from, to).ifPresent(legs::add);
            }
            before = item;
        }
        return legs;
    }

    /** When the current shot was first exposed since it was stepped to; empty if it was not. */
    static OptionalLong firstFrame(LiveState state) {
        List<Since> since = state.timeline().shots();
        if (since.isEmpty() || state.shot().isEmpty()) {
            return OptionalLong.empty();
        }
        long stepped = since.get(since.size() - 1).atEpochMillis();
        CameraClock.All clocks = CameraClock.of(state.frames());
        return state.frames().stream()
                .filter(f -> f.shot().equals(state.shot()))
                .mapToLong((Frame f) -> clocks.exposedEpochMillis(f))
                .filter(t -> t >= stepped)
                .min();
    }

    private static Optional<PacedLeg> leg(
            LiveState state,
            CameraClock.All clocks,
            Item item,
            Change planned,
            long from,
            long to) {
        double all = (to - from - state.clock().pausedMillis(from, to)) / 1000.0;
        if (all < LEAST_SECONDS || all > MOST_SECONDS || state.timeline().platesBetween(from, to)) {
            return Optional.empty();
        }
        List<Long> exposed =
                state.frames().stream()
                        .filter(f -> f.shot().equals(item.id()))
                        .map((Frame f) -> clocks.exposedEpochMillis(f))
                        .filter(t -> t >= from && t <= to)
                        .sorted()
                        .toList();
        if (exposed.isEmpty()) {
            return Optional.of(PacedLeg.sum(planned, item.shootSeconds(), all));
        }
        long first = exposed.get(0);
        double change = (first - from - state.clock().pausedMillis(from, first)) / 1000.0;
        return Optional.of(
                PacedLeg.timed(
                        planned,
                        item.shootSeconds(),
                        Math.max(0, change),
                        Math.max(0, all - change)));
    }
}

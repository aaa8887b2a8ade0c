package lookstep.server.window;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import lookstep.server.live.Event;
import lookstep.server.live.LiveState;
import lookstep.server.order.Order;
import lookstep.server.order.Recut;
import lookstep.server.plan.PlanWords;

/** Fits what is still to be made to the time that is left. */
public final class Cutting {
    /** The shortest and the longest that a press may ask for. */
    public static final double LEAST_SECONDS = 5;

    public static final double MOST_SECONDS = 4 * 3600;

    private Cutting() {}

    /**
     * The re-cut of a moment.
     *
     * @param seconds that are left from now on; empty for what the clock says
     */
    public static Event.Recut cut(
            WindowNow now, LiveState state, OptionalDouble seconds, long nowEpochMillis) {
        double left = Math.max(0, seconds.orElse(now.leftSeconds()));
        Recut recut =
                Recut.of(
                        now.situation(),
                        Math.max(0, left - now.currentSeconds()),
                        now.paced(),
                        now.variety());
        List<String> next = new ArrayList<>(recut.order().ids());
        if (next.isEmpty() && now.current().isEmpty()) {
            // There must be something to step to: the one shot that is to be made.
            recut.oneShot().ifPresent(next::add);
        }
        List<String> order = new ArrayList<>(behind(now, state));
        order.addAll(next);
        List<String> out =
                now.left().stream().map(i -> i.id()).filter(id -> !order.contains(id)).toList();
        long window =
                seconds.isPresent()
                        ? state.clock().elapsedMillis(nowEpochMillis) + Math.round(left * 1000)
                        : state.course().windowMillis();
        return new Event.Recut(order, out, window, says(left, recut.order(), out.size()));
    }

    /**
     * What is made stays before the current shot; what was passed by comes again or is left out.
     */
    private static List<String> behind(WindowNow now, LiveState state) {
        List<String> made = now.made().stream().map(i -> i.id()).toList();
        List<String> behind =
                new ArrayList<>(
                        state.course().order().stream()
                                .limit(state.position())
                                .filter(made::contains)
                                .toList());
        // made out of turn, and still to come in the old order
        made.stream().filter(id -> !behind.contains(id)).forEach(behind::add);
        now.current().ifPresent(c -> behind.add(c.id()));
        return behind;
    }

    private static String says(double left, Order order, int out) {
        int shots = order.legs().size();
        return "Re-cut to "
                + PlanWords.length(left)
                + ": "
                + (shots == 1 ? "1 shot" : shots + " shots")
                + (out == 0 ? ", all that is left" : ", " + out + " left out");
    }
}

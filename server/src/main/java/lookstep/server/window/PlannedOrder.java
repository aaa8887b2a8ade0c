package lookstep.server.window;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import lookstep.server.order.Effort;
import lookstep.server.order.FixedOrder;
import lookstep.server.order.Item;
import lookstep.server.order.Leg;
import lookstep.server.order.Order;
import lookstep.server.order.RunningOrder;
import lookstep.server.order.Situation;
import lookstep.server.order.Times;
import lookstep.server.order.Variety;
import lookstep.server.plan.ShootPlan;

/**
 * A plan's shots within its window, before anything is made: as they are written, and as they would
 * be best.
 *
 * @param written in the plan's own order
 * @param best the most that the window holds
 */
public record PlannedOrder(FixedOrder written, Order best) {
    /** Works both out. */
    public static PlannedOrder of(ShootPlan plan, Variety variety) {
        List<Item> items = ShotItems.of(plan);
        Times times = ShotItems.times(plan);
        Situation fresh = Situation.fresh(items);
        return new PlannedOrder(
                FixedOrder.within(fresh, plan.windowSeconds(), times, variety),
                RunningOrder.best(fresh, plan.windowSeconds(), times, variety, Effort.QUICK));
    }

    /** When each shot begins as they are written, seconds from the start of the window. */
    public Map<String, Double> startsAtSeconds() {
        Map<String, Double> starts = new LinkedHashMap<>();
        for (Leg leg : written.legs()) {
            starts.put(leg.id(), leg.startsAtSeconds());
        }
        return starts;
    }
}

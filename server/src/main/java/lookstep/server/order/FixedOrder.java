package lookstep.server.order;

import java.util.List;
import java.util.stream.IntStream;

/**
 * An order as somebody wrote it, within a window: they are made one after the other until the time
 * is over.
 *
 * @param legs all of them, also those behind the end of the window
 * @param fitting how many of the legs, from the first, are made within the window
 * @param value what those that fit add to the bag, see {@link RunningOrder}
 * @param secondsOfAll what all of them would take
 */
public record FixedOrder(List<Leg> legs, int fitting, double value, double secondsOfAll) {
    public FixedOrder {
        legs = List.copyOf(legs);
    }

    /**
     * What of it is made within the window.
     *
     * @param situation its shots that are left, in the order to look at
     * @param windowSeconds from now, 0 or more
     */
    public static FixedOrder within(
            Situation situation, double windowSeconds, Times times, Variety variety) {
        List<Integer> all = IntStream.range(0, situation.left().size()).boxed().toList();
        List<Leg> legs = RunningOrder.legs(situation, all, times);
        int window = Milliseconds.window(windowSeconds);
        int fitting = 0;
        while (fitting < legs.size()
                && Milliseconds.of(legs.get(fitting).endsAtSeconds()) <= window) {
            fitting++;
        }
        long value = Worth.of(Worth.gains(situation, variety), all.subList(0, fitting));
        return new FixedOrder(
                legs,
                fitting,
                Worth.inImportance(value),
                legs.isEmpty() ? 0 : legs.get(legs.size() - 1).endsAtSeconds());
    }

    /** The shots that do not fit, as they are written. */
    public List<String> fallsOff() {
        return legs.subList(fitting, legs.size()).stream().map(Leg::id).toList();
    }
}

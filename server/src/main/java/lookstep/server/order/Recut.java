package lookstep.server.order;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * The running order fitted to the time that is left, less or more than there was.
 *
 * @param order the new tail; without legs if nothing more fits
 * @param oneShot the one shot to make if the time is too short for any: the safe shot if it is not
 *     in the bag; otherwise the one that adds most for each second of change and shooting, of shots
 *     that need no others with them if there are such, and of equals the first as planned. Empty if
 *     the order has shots that fit, or nothing is left
 */
public record Recut(Order order, Optional<String> oneShot) {
    /** What one key may ask for: 30 s, 1, 2, 5 and 10 minutes. */
    public static final List<Integer> USUAL_SECONDS = List.of(30, 60, 120, 300, 600);

    /**
     * The best tail within what is left.
     *
     * @param leftSeconds from now, 0 or more
     */
    public static Recut of(Situation situation, double leftSeconds, Times times, Variety variety) {
        Order order = RunningOrder.best(situation, leftSeconds, times, variety, Effort.QUICK);
        boolean one = order.legs().isEmpty() || !order.fits();
        return new Recut(order, one ? oneShot(situation, times, variety) : Optional.empty());
    }

    private static Optional<String> oneShot(Situation situation, Times times, Variety variety) {
        List<Item> left = situation.left();
        Optional<Item> safe = left.stream().filter(Item::safe).findFirst();
        if (safe.isPresent()) {
            return safe.map(Item::id);
        }
        int[][] gains = Worth.gains(situation, variety);
        List<Item> alone =
                left.stream().filter(i -> i.group().isEmpty() || i.splittable()).toList();
        return (alone.isEmpty() ? left : alone)
                .stream()
                        .max(
                                Comparator.comparingDouble(
                                                (Item i) ->
                                                        Worth.of(gains, List.of(left.indexOf(i)))
                                                                / seconds(situation, i, times))
                                        .thenComparing(
                                                Comparator.comparingInt(left::indexOf).reversed()))
                        .map(Item::id);
    }

    private static double seconds(Situation situation, Item item, Times times) {
        return situation.changeTo(item, times).seconds() + item.shootSeconds();
    }
}

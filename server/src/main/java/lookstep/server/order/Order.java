package lookstep.server.order;

import java.util.List;
import java.util.OptionalDouble;

/**
 * The shots to make, and what they come to.
 *
 * @param legs in the order to be made; starts are from now
 * @param dropped the shots that are left to make and not in
 * @param value what the order adds to the bag, see {@link RunningOrder}
 * @param valueOfAll what making all that is left would add
 * @param bound no order within the window is worth more than this; empty if it was not computed
 * @param exact it is proven that no order within the window is worth more
 * @param seconds until the last shot is made
 * @param fits within the window; false only for a safe shot that is longer than the window
 */
public record Order(
        List<Leg> legs,
        List<Dropped> dropped,
        double value,
        double valueOfAll,
        OptionalDouble bound,
        boolean exact,
        double seconds,
        boolean fits) {
    public Order {
        legs = List.copyOf(legs);
        dropped = List.copyOf(dropped);
    }

    /** The shots' ids in the order to be made. */
    public List<String> ids() {
        return legs.stream().map(Leg::id).toList();
    }
}

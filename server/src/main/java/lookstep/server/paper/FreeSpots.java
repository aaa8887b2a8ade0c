package lookstep.server.paper;

import java.util.ArrayList;
import java.util.List;

/** What is written on a drawing already, so that nothing is written over it. */
final class FreeSpots {
    private final Spot bounds;
    private final List<Spot> taken = new ArrayList<>();

    /** A rectangle in points, y downwards. */
    record Spot(double x, double y, double width, double high) {
        private boolean touches(Spot o) {
            return x < o.x + o.width && o.x < x + width && y < o.y + o.high && o.y < y + high;
        }

        private boolean holds(Spot o) {
            return o.x >= x && o.y >= y && o.x + o.width <= x + width && o.y + o.high <= y + high;
        }
    }

    FreeSpots(Spot bounds) {
        this.bounds = bounds;
    }

    /** Takes the spot if nothing is there and it is on the drawing. */
    boolean take(Spot spot) {
        if (!bounds.holds(spot) || taken.stream().anyMatch(spot::touches)) {
            return false;
        }
        taken.add(spot);
        return true;
    }

    /** Takes it whatever is there. */
    void block(Spot spot) {
        taken.add(spot);
    }
}

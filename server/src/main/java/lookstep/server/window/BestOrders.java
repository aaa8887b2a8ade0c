package lookstep.server.window;

import java.util.List;
import lookstep.server.order.Item;
import lookstep.server.order.Pace;
import lookstep.server.order.Recut;
import lookstep.server.order.Times;
import lookstep.server.order.Variety;

/**
 * The best order for the time that is left, to hold the order that is followed against. Asked for
 * with each message, so the newest is kept, and the time goes in steps. Safe for any thread.
 */
public final class BestOrders {
    private static final double STEP_SECONDS = 5;

    private Key newest;
    private Recut best;

    /** What it hangs on. */
    private record Key(
            List<Item> made,
            List<Item> left,
            Item current,
            Times times,
            Pace pace,
            Variety variety,
            long steps) {}

    synchronized Recut of(WindowNow now) {
        long steps = (long) Math.floor(now.afterCurrent() / STEP_SECONDS);
        Key key =
                new Key(
                        now.made(),
                        now.left(),
                        now.current().orElse(null),
                        now.times(),
                        now.pace(),
                        now.variety(),
                        steps);
        if (!key.equals(newest)) {
            best = Recut.of(now.situation(), steps * STEP_SECONDS, now.paced(), now.variety());
            newest = key;
        }
        return best;
    }
}

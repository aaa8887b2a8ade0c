package lookstep.server.plan.edit;

import java.util.ArrayList;
import java.util.List;

/** The order of a list of which one item was moved. */
final class Order {
    private Order() {}

    /** Which item is where now: former indices. */
    static List<Integer> moved(int size, int from, int to) {
        List<Integer> out = new ArrayList<>();
        for (int i = 0; i < size; i++) {
            out.add(i);
        }
        out.add(to, out.remove(from));
        return out;
    }
}

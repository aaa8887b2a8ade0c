package lookstep.server.window;

import java.util.Set;
import lookstep.server.plan.PlanWords;

/** Ids for shots that are made up on the set. */
final class Ids {
    private static final int LONGEST = 50;

    private Ids() {}

    /** As ids of the plan are made from names; never empty. */
    static String slug(String name) {
        String plain = PlanWords.slug(name);
        return plain.isEmpty() ? "x" : plain.substring(0, Math.min(LONGEST, plain.length()));
    }

    /** This id, with a number behind it if it is taken. */
    static String free(String id, Set<String> taken) {
        String free = id;
        for (int n = 2; taken.contains(free); n++) {
            free = id + "-" + n;
        }
        return free;
    }
}

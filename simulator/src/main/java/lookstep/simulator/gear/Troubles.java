package lookstep.simulator.gear;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;

/** The last few things that ought not to have come, in plain words. Any thread. */
final class Troubles {
    private static final int MOST_NOTED = 20;

    private final Deque<String> noted = new ArrayDeque<>();

    synchronized void note(String trouble) {
        if (noted.size() == MOST_NOTED) {
            noted.remove();
        }
        noted.add(trouble);
    }

    synchronized List<String> noted() {
        return List.copyOf(noted);
    }
}

package lookstep.server.plan.edit;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;

/** What was edited here, to be taken back and made again; in memory. */
final class History {
    private static final int MOST = 200;

    private final Deque<Turn> done = new ArrayDeque<>();
    private final Deque<Turn> undone = new ArrayDeque<>();

    /**
     * One batch of edits.
     *
     * @param says what it was, for a label
     */
    record Turn(String says, String before, String after) {
        /** The way back: before is after, and after is before. */
        @SuppressWarnings("ArgumentSelectionDefectChecker")
        Turn back() {
            return new Turn(says, after, before);
        }
    }

    void made(Turn turn) {
        undone.clear();
        push(done, turn);
    }

    void takenBack(Turn turn) {
        done.pop();
        push(undone, turn);
    }

    void madeAgain(Turn turn) {
        undone.pop();
        push(done, turn);
    }

    private static void push(Deque<Turn> on, Turn turn) {
        on.push(turn);
        if (on.size() > MOST) {
            on.removeLast();
        }
    }

    Optional<Turn> lastDone() {
        return Optional.ofNullable(done.peek());
    }

    Optional<Turn> lastUndone() {
        return Optional.ofNullable(undone.peek());
    }
}

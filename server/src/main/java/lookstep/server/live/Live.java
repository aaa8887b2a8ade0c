package lookstep.server.live;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Consumer;
import java.util.function.LongSupplier;
import lookstep.server.live.Event.FileMark;
import lookstep.server.live.Journal.Entry;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The one holder of the state. Whoever asks for a change is answered when it is in the journal; a
 * change asked for from a position that is no longer the current one is not made, so two presses
 * for the same step make one step.
 */
public final class Live {
    private static final Logger LOG = LoggerFactory.getLogger(Live.class);

    private final Journal journal;
    private final List<String> order;
    private final LongSupplier epochMillis;
    private final List<Consumer<LiveState>> watchers = new CopyOnWriteArrayList<>();
    private volatile LiveState state;

    /**
     * Goes on where the journal ends.
     *
     * @param order the ids of the shots in the running order, at least one
     * @param epochMillis the wall clock
     */
    public Live(Journal journal, List<String> order, String planHash, LongSupplier epochMillis)
            throws IOException {
        this.journal = journal;
        this.order = List.copyOf(order);
        this.epochMillis = epochMillis;
        state = Journal.replay(journal.found());
        List<Event> events = new ArrayList<>();
        int place = placeOfCurrent();
        String shot = place == 0 ? "" : order.get(place - 1);
        if (place != state.position() || !shot.equals(state.shot())) {
            events.add(new Event.WentTo(place, shot));
        }
        events.add(new Event.Opened(planHash));
        record(events);
    }

    /**
     * Where the current shot stands now that the plan may have been edited; if it is gone, as near
     * as can be.
     */
    private int placeOfCurrent() {
        int byId = order.indexOf(state.shot()) + 1;
        return byId > 0 ? byId : Math.min(state.position(), order.size());
    }

    public LiveState state() {
        return state;
    }

    /** Called after each change, by the thread that made it, in order. */
    public void watch(Consumer<LiveState> watcher) {
        watchers.add(watcher);
    }

    /** One on, if {@code at} is still the position; the first step starts the clock. */
    public LiveState step(int at) throws IOException {
        return jump(at, at + 1);
    }

    /**
     * One back, if {@code at} is still the position; before the first shot is the end of it. The
     * clock goes on.
     */
    public synchronized LiveState back(int at) throws IOException {
        if (at != state.position() || at < 1) {
            return state;
        }
        return record(List.of(new Event.WentTo(at - 1, at == 1 ? "" : order.get(at - 2))));
    }

    /**
     * To any shot of the order, if {@code at} is still the position; the first starts the clock.
     */
    public synchronized LiveState jump(int at, int to) throws IOException {
        if (at != state.position() || to < 1 || to > order.size() || to == at) {
            return state;
        }
        List<Event> events = new ArrayList<>();
        if (state.clock().fresh()) {
            events.add(new Event.ClockStarted());
        }
        events.add(new Event.WentTo(to, order.get(to - 1)));
        return record(events);
    }

    /** The current shot once more, if {@code at} is still the position; a test ends. */
    public synchronized LiveState sameAgain(int at) throws IOException {
        return at != state.position() || at == 0 ? state : record(List.of(new Event.SameAgain()));
    }

    /** What the crew does to the light: the event that the state as it is now leads to. */
    @FunctionalInterface
    public interface Change {
        Event from(LiveState now) throws NotPossible;
    }

    /**
     * Changes the light, if {@code at} is still the position.
     *
     * @throws NotPossible if it cannot be done as things are; nothing has happened then
     */
    public synchronized LiveState light(int at, Change change) throws IOException, NotPossible {
        return at != state.position() ? state : record(List.of(change.from(state)));
    }

    /** The window's clock runs; no matter if it does already. */
    public synchronized LiveState startClock() throws IOException {
        return state.clock().running() ? state : record(List.of(new Event.ClockStarted()));
    }

    /** The window's clock stands; no matter if it does already. */
    public synchronized LiveState pauseClock() throws IOException {
        return state.clock().running() ? record(List.of(new Event.ClockPaused())) : state;
    }

    /** The words that let pages in: the ones from before, or else these. */
    public synchronized Event.KeysMade keys(Event.KeysMade fresh) throws IOException {
        if (state.keys().isEmpty()) {
            record(List.of(fresh));
        }
        return state.keys().orElseThrow();
    }

    /** Remembers, once, what was in the frames folder before the shoot. */
    public synchronized LiveState foundBefore(List<FileMark> files) throws IOException {
        return state.foundBefore().isPresent()
                ? state
                : record(List.of(new Event.FoundBefore(List.copyOf(files))));
    }

    /**
     * A frame came in whole: it counts for the shot that is current now. When it was exposed, by
     * the camera's clock, is kept beside it.
     */
    public synchronized LiveState frameTaken(FileMark file, String takenAt, String says)
            throws IOException {
        int number = state.frames().size() + 1;
        return record(List.of(new Event.FrameTaken(number, file, state.shot(), takenAt, says)));
    }

    /** What happened has happened, whatever a watcher makes of it. */
    private static void tell(Consumer<LiveState> watcher, LiveState next) {
        try {
            watcher.accept(next);
        } catch (RuntimeException fault) {
            LOG.error("after event {}: {}", next.revision(), fault.toString(), fault);
        }
    }

    private synchronized LiveState record(List<Event> events) throws IOException {
        long now = epochMillis.getAsLong();
        journal.append(events.stream().map(e -> new Entry(now, e)).toList());
        LiveState next = state;
        for (Event e : events) {
            next = next.after(e, now);
        }
        state = next;
        for (Consumer<LiveState> watcher : watchers) {
            tell(watcher, next);
        }
        return next;
    }
}

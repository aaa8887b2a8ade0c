package lookstep.server.live;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.LongSupplier;
import lookstep.server.live.Event.FileMark;
import lookstep.server.live.Journal.Entry;
import lookstep.server.plan.Job;
import lookstep.server.plan.Shot;
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
    private final Function<LiveState, List<String>> possible;
    private final LongSupplier epochMillis;
    private final List<Consumer<LiveState>> watchers = new CopyOnWriteArrayList<>();
    private volatile LiveState state;

    /**
     * Goes on where the journal ends, with a plan that has always the same shots.
     *
     * @param order the ids of the shots in the running order, at least one
     * @param epochMillis the wall clock
     */
    public Live(Journal journal, List<String> order, String planHash, LongSupplier epochMillis)
            throws IOException {
        this(journal, fixed(order), planHash, epochMillis);
    }

    private static Function<LiveState, List<String>> fixed(List<String> order) {
        List<String> ids = List.copyOf(order);
        return state -> ids;
    }

    /**
     * Goes on where the journal ends.
     *
     * @param possible the ids of the shots that the plan has in a state, in its order, at least one
     * @param epochMillis the wall clock
     */
    public Live(
            Journal journal,
            Function<LiveState, List<String>> possible,
            String planHash,
            LongSupplier epochMillis)
            throws IOException {
        this.journal = journal;
        this.possible = possible;
        this.epochMillis = epochMillis;
        state = Journal.replay(journal.found());
        List<Event> events = following(state);
        events.add(new Event.Opened(planHash));
        record(events);
    }

    /**
     * Something of the plan is called otherwise now: what was made up on the set follows.
     *
     * @param kind look or person
     */
    public synchronized LiveState renamed(String kind, String from, String to) throws IOException {
        return record(List.of(new Event.Renamed(kind, from, to)));
    }

    /** The plan was edited, or what is possible of it has changed. */
    public synchronized LiveState planChanged(String planHash) throws IOException {
        List<Event> events = following(state);
        if (!planHash.equals(state.planHash())) {
            events.add(new Event.Opened(planHash));
        }
        return events.isEmpty() ? state : record(events);
    }

    /**
     * What makes the order follow the plan. The current shot stays; if it is gone, the one that
     * stands there now is current.
     */
    private List<Event> following(LiveState now) {
        List<Event> events = new ArrayList<>();
        Course next =
                now.course()
                        .following(
                                possible.apply(now),
                                now.added().stream().map(Shot::id).toList(),
                                now.position(),
                                now::made);
        if (!next.equals(now.course())) {
            events.add(new Event.Ordered(next.order(), next.leftOut()));
        }
        int byId = next.order().indexOf(now.shot()) + 1;
        int behind =
                (int)
                        now.course().order().stream()
                                .limit(now.position())
                                .filter(next.order()::contains)
                                .count();
        int place =
                byId > 0 || now.position() == 0 ? byId : Math.min(behind + 1, next.order().size());
        String shot = place == 0 ? "" : next.order().get(place - 1);
        if (!shot.equals(now.shot())) {
            events.add(new Event.WentTo(place, shot));
        }
        return events;
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
        return record(List.of(new Event.WentTo(at - 1, at == 1 ? "" : order().get(at - 2))));
    }

    /**
     * To any shot of the order, if {@code at} is still the position; the first starts the clock.
     */
    public synchronized LiveState jump(int at, int to) throws IOException {
        if (at != state.position() || to < 1 || to > order().size() || to == at) {
            return state;
        }
        List<Event> events = new ArrayList<>();
        if (state.clock().fresh()) {
            events.add(new Event.ClockStarted());
        }
        events.add(new Event.WentTo(to, order().get(to - 1)));
        return record(events);
    }

    private List<String> order() {
        return state.course().order();
    }

    /**
     * To a shot by its id, if {@code at} is still the position. One that a re-cut left out comes in
     * behind what was made.
     *
     * @throws NotPossible if there is no such shot
     */
    public synchronized LiveState jump(int at, String shot) throws IOException, NotPossible {
        if (at != state.position() || shot.equals(state.shot())) {
            return state;
        }
        int place = order().indexOf(shot) + 1;
        if (place > 0) {
            return jump(at, place);
        }
        if (!possible.apply(state).contains(shot)) {
            throw new NotPossible("there is no shot '" + shot + "' here; reload the page");
        }
        Course with = state.course().with(List.of(shot), at);
        List<Event> events = new ArrayList<>();
        if (state.clock().fresh()) {
            events.add(new Event.ClockStarted());
        }
        events.add(new Event.Ordered(with.order(), with.leftOut()));
        events.add(new Event.WentTo(at + 1, shot));
        return record(events);
    }

    /**
     * Fits the running order to the time that is left, if {@code at} is still the position.
     *
     * @throws NotPossible if it cannot be done as things are; nothing has happened then
     */
    public synchronized LiveState recut(int at, Change change) throws IOException, NotPossible {
        return light(at, change);
    }

    /**
     * The order and the window as before the newest re-cut, if {@code at} is still the position.
     * What a round has added and nobody has stepped to is left out then.
     *
     * @throws NotPossible if there was none
     */
    public synchronized LiveState takeCutBack(int at) throws IOException, NotPossible {
        if (at != state.position()) {
            return state;
        }
        if (!state.course().cut()) {
            throw new NotPossible("there was no re-cut that could be taken back");
        }
        Course was = state.course().before().orElseThrow();
        List<String> order = state.course().backBehind(at);
        List<String> out = new ArrayList<>(was.leftOut());
        state.added().stream()
                .filter(s -> s.use().round() && !order.contains(s.id()) && !out.contains(s.id()))
                .forEach(s -> out.add(s.id()));
        Event back = new Event.CutTakenBack(order, out);
        LiveState then = state.after(back, epochMillis.getAsLong());
        List<Event> events = new ArrayList<>(List.of(back));
        events.addAll(following(then));
        return record(events);
    }

    /**
     * These shots come next, if {@code at} is still the position. It can be taken back as a re-cut
     * can; nothing happens if they come next already.
     *
     * @param ids in the order to be made
     * @param added those of them that the plan does not have, with ids of their own
     * @param says the same in words
     * @throws NotPossible if they cannot be made, because something of them is not there
     */
    public synchronized LiveState next(int at, List<String> ids, List<Shot> added, String says)
            throws IOException, NotPossible {
        if (at != state.position() || ids.isEmpty()) {
            return state;
        }
        Course next = with(state, ids, added);
        if (next.equals(state.course())) {
            return state;
        }
        List<Event> events = new ArrayList<>(more(added));
        long window = state.course().windowMillis();
        events.add(new Event.Recut(next.order(), next.leftOut(), window, says));
        return record(events);
    }

    private static List<Event> more(List<Shot> added) {
        return added.isEmpty() ? List.of() : List.of(new Event.ShotsAdded(added));
    }

    private Course with(LiveState now, List<String> ids, List<Shot> added) throws NotPossible {
        LiveState with = now;
        for (Event e : more(added)) {
            with = with.after(e, epochMillis.getAsLong());
        }
        if (!possible.apply(with).containsAll(ids)) {
            throw new NotPossible("this cannot be made here: its look or somebody on it is gone");
        }
        return with.course().with(ids, now.position());
    }

    /**
     * A second job, and it is for them from now on.
     *
     * @param shots of theirs, with ids of their own; they come next
     * @throws NotPossible if they cannot be made
     */
    public synchronized LiveState open(Job job, List<Shot> shots) throws IOException, NotPossible {
        List<Event> events = new ArrayList<>();
        events.add(new Event.JobOpened(job));
        events.add(new Event.JobSwitched(job.client()));
        LiveState with = state;
        for (Event e : events) {
            with = with.after(e, epochMillis.getAsLong());
        }
        if (!shots.isEmpty()) {
            Course next = with(with, shots.stream().map(Shot::id).toList(), shots);
            events.addAll(more(shots));
            events.add(new Event.Ordered(next.order(), next.leftOut()));
        }
        return record(events);
    }

    /** From now on it is for this client; empty for the plan's first. */
    public synchronized LiveState switchTo(String client) throws IOException {
        return state.jobs().current().equals(client)
                ? state
                : record(List.of(new Event.JobSwitched(client)));
    }

    /** The shoot goes on at another of the plan's places, and the order follows. */
    public synchronized LiveState moveTo(String place) throws IOException {
        if (state.place().equals(place)) {
            return state;
        }
        Event moved = new Event.MovedTo(place);
        List<Event> events = new ArrayList<>(List.of(moved));
        events.addAll(following(state.after(moved, epochMillis.getAsLong())));
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
     * A picture that came in whole, as it comes to the journal.
     *
     * @param file where the original lies
     * @param camera which camera, empty if unknown
     * @param takenAt when it was exposed by the camera's clock, ISO 8601 without zone, or empty
     * @param says its exposure in words
     * @param arrivedEpochMillis when it came in
     */
    public record Arrival(
            FileMark file, String camera, String takenAt, String says, long arrivedEpochMillis) {}

    /**
     * A frame came in whole. It is of the shot that was current when it was exposed; and where it
     * shows that the camera's clock is off by less than was thought, so are the ones before it.
     *
     * @param facts what there is to know of a shot, by its id
     */
    public synchronized LiveState frameTaken(Arrival arrival, Function<String, ShotFacts> facts)
            throws IOException {
        LiveState with =
                state.after(taken(arrival, "", ShotFacts.NONE), arrival.arrivedEpochMillis());
        CameraClock.All clocks = CameraClock.of(with.frames());
        Frame newest = with.newestFrame().orElseThrow();
        List<Event> events = new ArrayList<>();
        for (Frame frame : with.frames()) {
            long exposed = clocks.exposedEpochMillis(frame);
            String shot = state.timeline().shotOf(exposed);
            String plates = state.timeline().platesOf(exposed);
            ShotFacts of =
                    (shot.isEmpty() ? ShotFacts.NONE : facts.apply(shot))
                            .orFor(state.jobs().at(exposed));
            if (frame.number() == newest.number()) {
                events.add(0, taken(arrival, shot, of));
                ofPlates(frame.number(), plates).ifPresent(e -> events.add(1, e));
            } else if (clocks.together(frame, newest)
                    && !frame.byHand()
                    && !state.plates().use(frame.number())
                    && !(frame.shot().equals(shot) && frame.plates().equals(plates))) {
                events.add(belongs(frame.number(), shot, of, false));
                ofPlates(frame.number(), plates).ifPresent(events::add);
            }
        }
        return record(events);
    }

    private static Optional<Event> ofPlates(int number, String run) {
        return run.isEmpty() ? Optional.empty() : Optional.of(new Event.FrameOfPlates(number, run));
    }

    private Event.FrameTaken taken(Arrival arrival, String shot, ShotFacts of) {
        return new Event.FrameTaken(
                state.frames().size() + 1,
                arrival.file(),
                shot,
                arrival.takenAt(),
                arrival.says(),
                arrival.camera(),
                of.look(),
                of.people(),
                of.job(),
                arrival.arrivedEpochMillis());
    }

    private static Event belongs(int number, String shot, ShotFacts of, boolean byHand) {
        return new Event.FrameBelongs(number, shot, of.look(), of.people(), of.job(), byHand);
    }

    /** A frame is of this shot, whatever the clocks say; empty for none. */
    public synchronized LiveState frameBelongs(int number, String shot, ShotFacts of)
            throws IOException, NotPossible {
        ShotFacts whole = of.orFor(frame(number).job());
        return record(List.of(belongs(number, shot, whole, true)));
    }

    /** Another file of the same release as a frame. */
    public synchronized LiveState frameJoined(int number, Arrival more) throws IOException {
        return record(
                List.of(
                        new Event.FrameJoined(
                                number, more.file(), more.camera(), more.takenAt(), more.says())));
    }

    /** A file is no frame of its own, and is not to be looked at again. */
    public synchronized LiveState leftOut(FileMark file, String says) throws IOException {
        return record(List.of(new Event.FileLeftOut(file, says)));
    }

    /** The photographer keeps a frame, or not. */
    public synchronized LiveState mark(int number, Frame.Mark mark)
            throws IOException, NotPossible {
        return frame(number).mark() == mark
                ? state
                : record(List.of(new Event.FrameMarked(number, mark)));
    }

    /** A frame was looked at. */
    public synchronized LiveState frameChecked(Event.FrameChecked checked) throws IOException {
        return record(List.of(checked));
    }

    /** A file of a frame lies in its second place. */
    public synchronized LiveState frameCopied(Event.FrameCopied copied) throws IOException {
        return record(List.of(copied));
    }

    /**
     * Plates are taken from now on.
     *
     * @throws NotPossible if some are being taken already
     */
    public synchronized LiveState beginPlates(Event.PlatesBegun begun)
            throws IOException, NotPossible {
        if (state.plates().run().isPresent()) {
            throw new NotPossible("plates are being taken already; give them up first");
        }
        return record(List.of(begun, new Event.PlateShown(begun.id(), 0)));
    }

    /** A step has its frame, and the next that lacks one is lit; the run ends with the last. */
    public synchronized LiveState plateTaken(Event.PlateTaken taken) throws IOException {
        if (!state.plates().takes(taken.id())) {
            return state;
        }
        PlateRun with = state.plates().run().orElseThrow().taken(taken);
        return record(
                List.of(
                        taken,
                        with.missing()
                                .<Event>map(next -> new Event.PlateShown(taken.id(), next))
                                .orElseGet(() -> new Event.PlatesEnded(taken.id(), ""))));
    }

    /** A step is to be taken again: of the run that is on, or of the newest whole set. */
    public synchronized LiveState askPlate(Event.PlateAsked asked) throws IOException {
        TakenPlates after = state.plates().after(asked, state.place(), epochMillis.getAsLong());
        return after.equals(state.plates()) ? state : record(List.of(asked));
    }

    /** The run is given up. */
    public synchronized LiveState giveUpPlates(String id, String why) throws IOException {
        return state.plates().takes(id) ? record(List.of(new Event.PlatesEnded(id, why))) : state;
    }

    /** What somebody or something says of the newest whole set; no matter if it is gone. */
    private LiveState plates(Event said) throws IOException {
        TakenPlates after = state.plates().after(said, state.place(), epochMillis.getAsLong());
        return after.equals(state.plates()) ? state : record(List.of(said));
    }

    /** The newest whole set of plates no longer holds. */
    public synchronized LiveState platesStale(String id, String why) throws IOException {
        return plates(new Event.PlatesStale(id, why));
    }

    /** Nothing has moved since the newest whole set of plates. */
    public synchronized LiveState platesGood(String id) throws IOException {
        return plates(new Event.PlatesGood(id));
    }

    /** The newest whole set of plates is not to be used any more. */
    public synchronized LiveState forgetPlates(String id) throws IOException {
        return plates(new Event.PlatesForgotten(id));
    }

    /**
     * What the band gets to see from now on.
     *
     * @param seen the frame that they see now, 0 for none: it stays if they are to see no other
     */
    public synchronized LiveState show(Showing.Mode mode, int seen) throws IOException {
        Showing wanted = new Showing(mode, mode == Showing.Mode.HOLD ? seen : 0);
        return state.showing().mode() == mode
                ? state
                : record(List.of(new Event.ShowingChanged(wanted)));
    }

    private Frame frame(int number) throws NotPossible {
        return state.frame(number)
                .orElseThrow(
                        () -> new NotPossible("there is no frame " + number + "; reload the page"));
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

package lookstep.server.live;

import java.util.Optional;
import java.util.stream.Stream;

/**
 * The plates of a shoot.
 *
 * @param run that is being taken
 * @param set the newest whole one
 * @param gaveUp why the newest run came to nothing, in words; empty if it did not
 */
public record TakenPlates(Optional<PlateRun> run, Optional<PlateSet> set, String gaveUp) {
    /** Before any. */
    public static final TakenPlates NONE = new TakenPlates(Optional.empty(), Optional.empty(), "");

    /** Whether this is the run that is being taken. */
    boolean takes(String id) {
        return run.filter(r -> r.id().equals(id)).isPresent();
    }

    /** Whether this frame is the one of a step: what it is of is known by what it shows. */
    boolean use(int frame) {
        return Stream.concat(run.stream(), set.stream().map(PlateSet::run))
                .flatMap(r -> r.taken().values().stream())
                .anyMatch(t -> t.number() == frame);
    }

    /** What an event of plates makes of them; events of another run change nothing. */
    TakenPlates after(Event event, String place, long atEpochMillis) {
        if (event instanceof Event.PlatesBegun e) {
            return new TakenPlates(Optional.of(PlateRun.of(e, place, atEpochMillis)), set, "");
        } else if (event instanceof Event.PlateShown e) {
            return takes(e.id()) ? with(run.get().shown(e.step(), atEpochMillis)) : this;
        } else if (event instanceof Event.PlateTaken e) {
            return takes(e.id()) ? with(run.get().taken(e)) : this;
        } else if (event instanceof Event.PlateAsked e) {
            return asked(e, atEpochMillis);
        } else if (event instanceof Event.PlatesEnded e) {
            return takes(e.id()) ? ended(e.why(), atEpochMillis) : this;
        } else if (event instanceof Event.PlatesStale e) {
            return holds(e.id())
                    ? new TakenPlates(run, set.map(s -> s.stale(e.why())), gaveUp)
                    : this;
        } else if (event instanceof Event.PlatesGood e) {
            return holds(e.id())
                    ? new TakenPlates(run, set.map(s -> s.good(atEpochMillis)), gaveUp)
                    : this;
        } else if (event instanceof Event.PlatesForgotten e) {
            return holds(e.id()) ? new TakenPlates(run, Optional.empty(), gaveUp) : this;
        }
        throw new IllegalStateException("no case for " + event);
    }

    private boolean holds(String id) {
        return set.filter(s -> s.id().equals(id)).isPresent();
    }

    /** One step of a whole set may be asked for again: the set is then under way once more. */
    private TakenPlates asked(Event.PlateAsked e, long atEpochMillis) {
        if (takes(e.id())) {
            return with(run.get().asked(e, atEpochMillis));
        }
        return run.isEmpty() && holds(e.id())
                ? with(set.get().run().asked(e, atEpochMillis))
                : this;
    }

    private TakenPlates with(PlateRun next) {
        return new TakenPlates(Optional.of(next), set, gaveUp);
    }

    private TakenPlates ended(String why, long atEpochMillis) {
        return why.isEmpty()
                ? new TakenPlates(Optional.empty(), Optional.of(whole(atEpochMillis)), "")
                : gaveUp(why);
    }

    /** One step taken again says nothing of the others: what was wrong with them stays. */
    private PlateSet whole(long atEpochMillis) {
        return set.filter(s -> takes(s.id()))
                .map(s -> new PlateSet(run.get(), atEpochMillis, s.goodEpochMillis(), s.stale()))
                .orElseGet(() -> new PlateSet(run.get(), atEpochMillis, atEpochMillis, ""));
    }

    /** A look is called otherwise now. */
    TakenPlates renamed(String from, String to) {
        return new TakenPlates(
                run.map(r -> r.renamed(from, to)), set.map(s -> s.renamed(from, to)), gaveUp);
    }

    /** Without a run nothing is given up. */
    TakenPlates gaveUp(String why) {
        return run.isEmpty()
                ? this
                : new TakenPlates(
                        Optional.empty(),
                        set,
                        "given up at %d of %d: %s"
                                .formatted(
                                        run.get().taken().size() + 1,
                                        run.get().steps().size(),
                                        why));
    }

    /** The shoot is elsewhere: what was taken is of another place. */
    TakenPlates movedOn() {
        return new TakenPlates(
                run, set.map(s -> s.stale("the shoot went on at another place")), gaveUp);
    }
}

package lookstep.server.plates;

import java.io.IOException;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.BiFunction;
import java.util.function.Function;
import lookstep.server.lighting.Lighting;
import lookstep.server.lighting.Lightings;
import lookstep.server.live.Event.PlateTaken;
import lookstep.server.live.Frame;
import lookstep.server.live.Live;
import lookstep.server.live.LiveState;
import lookstep.server.live.PlateSet;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The plates that hold now. Works the newest whole set out on its own loop, again after a restart
 * from the kept frames, and says at once when what it hangs on was edited. Any thread may ask.
 */
public final class PlateBook {
    private static final Logger LOG = LoggerFactory.getLogger(PlateBook.class);
    private static final long STEP_NANOS = 100_000_000;
    private static final long TRY_AGAIN_NANOS = 2_000_000_000;

    private final Live live;
    private final Lightings lightings;
    private final Function<Frame, Optional<SeenPlate>> frames;
    private final BiFunction<PlateSet, Map<Integer, SeenPlate>, MeasuredSet> measuring;
    private final Runnable changed;
    private volatile Worked worked = Worked.NOTHING;

    /**
     * What came of the newest set.
     *
     * @param of its run's frames; tells whether it was taken anew
     * @param trouble why nothing came of it, in words; empty if something did
     * @param triedNanos when a frame could not be read; absent if all could be
     */
    private record Worked(
            Map<Integer, PlateTaken> of,
            Optional<MeasuredSet> set,
            String trouble,
            OptionalLong triedNanos) {
        static final Worked NOTHING =
                new Worked(Map.of(), Optional.empty(), "", OptionalLong.empty());

        /** A disk may be back, a file whole. */
        boolean worthAnother(long nowNanos) {
            return triedNanos.isPresent() && nowNanos - triedNanos.getAsLong() >= TRY_AGAIN_NANOS;
        }

        /** A look that is called otherwise makes no other set; this one if it is not. */
        Worked on(String look) {
            return set.isEmpty() || set.get().look().equals(look)
                    ? this
                    : new Worked(of, set.map(s -> s.on(look)), trouble, triedNanos);
        }
    }

    /** How the plates stand. */
    public enum Standing {
        NONE,
        TAKING,
        WORKING,
        READY,
        /** They were good, and no longer hold. */
        STALE,
        /** All frames are there, and nothing comes of them. */
        USELESS
    }

    /**
     * @param frames the pixels of a frame
     * @param measuring what the frames of a set, by the step, come to; may throw an
     *     IllegalArgumentException that says why nothing does
     * @param changed is called when they stand otherwise
     */
    public PlateBook(
            Live live,
            Lightings lightings,
            Function<Frame, Optional<SeenPlate>> frames,
            BiFunction<PlateSet, Map<Integer, SeenPlate>, MeasuredSet> measuring,
            Runnable changed) {
        this.live = live;
        this.lightings = lightings;
        this.frames = frames;
        this.measuring = measuring;
        this.changed = changed;
    }

    /** The set that holds now; empty if there is none, or it is stale. */
    public Optional<MeasuredSet> current() {
        LiveState state = live.state();
        return state.plates().set().filter(s -> s.stale().isEmpty()).isPresent()
                ? worked(state).set()
                : Optional.empty();
    }

    /** The set whose light a look can be summed from; empty if there is none. */
    public Optional<MeasuredSet> currentFor(Lighting lighting, String look) {
        return current()
                .filter(s -> lighting.hangsOn(look).filter(s.hangsOn()::equals).isPresent());
    }

    /** How the plates stand. */
    public Standing standing() {
        LiveState state = live.state();
        if (state.plates().run().isPresent()) {
            return Standing.TAKING;
        }
        Optional<PlateSet> set = state.plates().set();
        if (set.isEmpty()) {
            return Standing.NONE;
        }
        Worked now = worked(state);
        if (!set.get().stale().isEmpty()) {
            return Standing.STALE;
        }
        return now.set().isPresent()
                ? Standing.READY
                : now.trouble().isEmpty() ? Standing.WORKING : Standing.USELESS;
    }

    /** Why nothing came of the frames, in words; empty if something did. */
    public String trouble() {
        return worked(live.state()).trouble();
    }

    private Worked worked(LiveState state) {
        Worked now = worked;
        return state.plates().set().filter(s -> s.run().taken().equals(now.of())).isPresent()
                ? now
                : Worked.NOTHING;
    }

    /** One step of the loop; returns when it wants the next. */
    public long doWork(long nowNanos) {
        LiveState state = live.state();
        Optional<PlateSet> set = state.plates().set();
        try {
            if (set.isEmpty()) {
                worked = Worked.NOTHING;
                return nowNanos + STEP_NANOS;
            }
            Optional<String> edited =
                    set.get().stale().isEmpty()
                            ? lightings.of(state).edited(set.get().run().begun())
                            : Optional.empty();
            if (edited.isPresent()) {
                live.platesStale(set.get().id(), edited.get() + " since they were taken");
            } else if (!set.get().run().taken().equals(worked.of())
                    || worked.worthAnother(nowNanos)) {
                worked = work(state, set.get(), nowNanos);
                changed.run();
            } else {
                worked = worked.on(set.get().run().begun().look());
            }
        } catch (IOException full) {
            LOG.error("plates wait: {}", full.getMessage());
            return nowNanos + TRY_AGAIN_NANOS;
        }
        return nowNanos + STEP_NANOS;
    }

    private Worked work(LiveState state, PlateSet set, long nowNanos) {
        Map<Integer, PlateTaken> taken = set.run().taken();
        Map<Integer, SeenPlate> seen = new HashMap<>();
        for (PlateTaken one : taken.values()) {
            Optional<SeenPlate> frame = state.frame(one.number()).flatMap(frames);
            if (frame.isEmpty()) {
                return new Worked(
                        taken,
                        Optional.empty(),
                        "frame %d, %s, cannot be read and is tried again every 2 s: is its file still in the folder? If it stays so, take that one again"
                                .formatted(one.number(), set.run().steps().get(one.step()).name()),
                        OptionalLong.of(nowNanos));
            }
            seen.put(one.step(), frame.get());
        }
        try {
            return new Worked(
                    taken, Optional.of(measuring.apply(set, seen)), "", OptionalLong.empty());
        } catch (RuntimeException why) {
            LOG.warn("nothing comes of the plates: {}", why.toString(), why);
            return new Worked(
                    taken,
                    Optional.empty(),
                    why.getMessage() == null
                            ? "these frames do not come to plates: take them again"
                            : why.getMessage(),
                    OptionalLong.empty());
        }
    }
}

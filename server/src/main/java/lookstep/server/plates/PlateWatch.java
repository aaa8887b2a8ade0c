package lookstep.server.plates;

import java.io.IOException;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.LongSupplier;
import lookstep.server.lighting.Lighting;
import lookstep.server.lighting.Lightings;
import lookstep.server.lighting.Shown;
import lookstep.server.live.CameraClock;
import lookstep.server.live.Frame;
import lookstep.server.live.Live;
import lookstep.server.live.LiveState;
import lookstep.server.live.PlateSet;
import lookstep.server.look.RigLevels;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Holds the frames that come later against the plates: what has moved since shows in any picture of
 * the same shot that was taken with the same lens. The plates are stale then, and somebody may say
 * that they are good all the same. Only a frame of which it is known in what light it was taken
 * counts: shot and levels have been the same from before its exposure until it is looked at.
 */
public final class PlateWatch {
    private static final Logger LOG = LoggerFactory.getLogger(PlateWatch.class);
    private static final double SAME_LENS = 0.02;
    private static final long STEP_NANOS = 200_000_000;

    /** Lamps follow within some packets. */
    private static final long SETTLE_MILLIS = 400;

    /** To this the moment of exposure is known, if the camera says it. */
    private static final long CLOCK_MILLIS = 700;

    /** So long a frame may be on its way of which the camera does not say when it was taken. */
    private static final long WAY_MILLIS = 15_000;

    private static final long TRY_AGAIN_NANOS = 2_000_000_000;

    private final Live live;
    private final Lightings lightings;
    private final PlateBook book;
    private final Function<Frame, Optional<SeenPlate>> frames;
    private final Function<Later, Optional<String>> changed;
    private final LongSupplier epochMillis;
    private Optional<Light> light = Optional.empty();
    private int looked;

    /**
     * What has been on.
     *
     * @param steady whether it is a shot's look, and no test, plate or work light
     * @param sinceEpochMillis when it was first seen to be wanted
     * @param fadeMillis how long it takes until it is there
     */
    private record Light(
            String shot, boolean steady, RigLevels levels, long sinceEpochMillis, long fadeMillis) {
        static Light of(Lighting lighting, LiveState state, long nowEpochMillis) {
            Shown shown = lighting.shown(state);
            return new Light(
                    state.shot(),
                    shown.what() == Shown.What.LOOK,
                    shown.levels(),
                    nowEpochMillis,
                    Math.round(shown.fadeSeconds() * 1000));
        }

        boolean same(Light other) {
            return shot.equals(other.shot) && steady == other.steady && levels.equals(other.levels);
        }

        /** Whether it was there when a frame was taken, for certain. */
        boolean was(Frame frame, long exposedEpochMillis) {
            long uncertain = frame.takenAt().isEmpty() ? WAY_MILLIS : CLOCK_MILLIS;
            return steady
                    && frame.shot().equals(shot)
                    && exposedEpochMillis - uncertain
                            >= sinceEpochMillis + fadeMillis + SETTLE_MILLIS;
        }
    }

    /**
     * A frame, and what the plates say of the light it was taken in.
     *
     * @param plan with every light where the shot's look has it
     * @param shot that the frame is of
     * @param levels of its look, with what was changed on the set
     */
    public record Later(
            SeenPlate frame, MeasuredSet set, ShootPlan plan, Shot shot, RigLevels levels) {}

    /**
     * @param frames the pixels of a frame
     * @param changed what a frame shows to have changed, in words; empty if nothing has
     * @param epochMillis the wall clock
     */
    public PlateWatch(
            Live live,
            Lightings lightings,
            PlateBook book,
            Function<Frame, Optional<SeenPlate>> frames,
            Function<Later, Optional<String>> changed,
            LongSupplier epochMillis) {
        this.live = live;
        this.lightings = lightings;
        this.book = book;
        this.frames = frames;
        this.changed = changed;
        this.epochMillis = epochMillis;
        looked = live.state().frames().size();
    }

    /** One step of the loop; returns when it wants the next. */
    public long doWork(long nowNanos) {
        LiveState state = live.state();
        Light now = Light.of(lightings.of(state), state, epochMillis.getAsLong());
        if (light.filter(now::same).isEmpty()) {
            light = Optional.of(now);
        }
        Optional<MeasuredSet> set = book.current();
        if (set.isEmpty()) {
            // what came before they were taken says nothing of them
            looked =
                    state.plates().set().filter(s -> s.stale().isEmpty()).isPresent()
                            ? looked
                            : state.frames().size();
            return nowNanos + STEP_NANOS;
        }
        while (looked < state.frames().size()) {
            Frame frame = state.frames().get(looked);
            try {
                Optional<String> why = look(state, frame, set.get());
                if (why.isPresent()) {
                    live.platesStale(
                            set.get().id(), "frame %d: %s".formatted(frame.number(), why.get()));
                }
            } catch (IOException full) {
                LOG.error("plates wait: {}", full.getMessage());
                return nowNanos + TRY_AGAIN_NANOS;
            } catch (RuntimeException fault) {
                LOG.warn("frame {} against the plates: {}", frame.number(), fault.toString());
            }
            looked = frame.number();
        }
        return nowNanos + STEP_NANOS;
    }

    private Optional<String> look(LiveState state, Frame frame, MeasuredSet set) {
        Lighting lighting = lightings.of(state);
        Optional<Shot> shot =
                lighting.plan().shot(frame.shot()).filter(s -> s.id().equals(set.shot()));
        boolean comparable =
                !frame.ofPlates()
                        && frame.mark() != Frame.Mark.OUT
                        && light.get()
                                .was(
                                        frame,
                                        CameraClock.of(state.frames()).exposedEpochMillis(frame))
                        && shot.filter(
                                        s ->
                                                lighting.hangsOn(s.look())
                                                        .filter(set.hangsOn()::equals)
                                                        .isPresent())
                                .isPresent();
        if (!comparable) {
            return Optional.empty();
        }
        return frames.apply(frame)
                .filter(seen -> sameLens(seen, plate(state)))
                .flatMap(
                        seen ->
                                changed.apply(
                                        new Later(
                                                seen,
                                                set,
                                                lighting.plan()
                                                        .placed(lighting.look(state, shot.get())),
                                                shot.get(),
                                                lighting.levels(state, shot.get()))));
    }

    /** Of the frame with the house only. */
    private Optional<SeenPlate> plate(LiveState state) {
        return state.plates()
                .set()
                .map(PlateSet::run)
                .map(run -> run.taken().get(0))
                .flatMap(taken -> state.frame(taken.number()))
                .flatMap(frames);
    }

    /** By what the camera says; a lens that says nothing is taken for the same. */
    private static boolean sameLens(SeenPlate frame, Optional<SeenPlate> plate) {
        double now = frame.exif().focalMillimetres().orElse(0);
        double was = plate.map(p -> p.exif().focalMillimetres().orElse(0)).orElse(0.0);
        return now == 0 || was == 0 || Math.abs(now / was - 1) <= SAME_LENS;
    }
}

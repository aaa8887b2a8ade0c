package lookstep.server.plates;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.function.LongPredicate;
import java.util.function.LongSupplier;
import java.util.stream.DoubleStream;
import lookstep.server.lighting.Lighting;
import lookstep.server.lighting.Lightings;
import lookstep.server.live.CameraClock;
import lookstep.server.live.Event.PlateAsked;
import lookstep.server.live.Event.PlateTaken;
import lookstep.server.live.Frame;
import lookstep.server.live.Live;
import lookstep.server.live.LiveState;
import lookstep.server.live.PlateRun;
import lookstep.server.live.PlateStep;
import lookstep.server.look.RigPackets;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Shot;
import lookstep.server.plates.PlateChecks.Known;
import lookstep.simulator.model.plates.CodedPicture;
import lookstep.simulator.model.plates.Registration.Motion;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Takes the plates of a run, one step after the other: waits until the light of the step is there
 * and steady, has the frame taken, waits for it, looks at it, and goes on. What is wrong is asked
 * for again, twice by itself and then by somebody's press. Goes on where it was after a restart.
 */
public final class PlateTaker {
    private static final Logger LOG = LoggerFactory.getLogger(PlateTaker.class);

    /** From the last packet of the fade: lamps follow within some packets, people breathe out. */
    static final long SETTLE_NANOS = 400_000_000;

    /** From the release to the frame: a raw file over a slow network. */
    static final long PATIENCE_NANOS = 15_000_000_000L;

    /** How often something is asked again before somebody has to say so. */
    static final int BY_ITSELF = 2;

    /**
     * By so much a frame may seem to be earlier than it was, where the camera writes fractions of a
     * second: its clock drifts. The way of the quickest frame makes it seem later.
     */
    static final long CLOCK_MILLIS = 200;

    /** The same where it writes none: half a second more. */
    static final long WHOLE_SECONDS_MILLIS = 700;

    private static final long STEP_NANOS = 20_000_000;
    private static final long IDLE_NANOS = 200_000_000;
    private static final long TRY_AGAIN_NANOS = 2_000_000_000;

    private final Live live;
    private final Lightings lightings;
    private final LongPredicate arrived;
    private final Optional<Shutter> shutter;
    private final Function<Frame, Optional<SeenPlate>> frames;
    private final BiFunction<CodedPicture, CodedPicture, Motion> moved;
    private final LongSupplier epochMillis;
    private final Runnable changed;
    private final Map<Integer, Known> known = new HashMap<>();
    private PlateChecks checks;
    private String checksOf = "";
    private Attempt attempt;
    private volatile Taking taking = Taking.NOTHING;

    /**
     * How it is going.
     *
     * @param says what is being done or waited for, in words; empty when nothing is taken
     * @param byHand whether somebody has to release the camera now
     * @param waits whether nothing goes on until somebody presses something
     * @param rejected the newest frame of the step that was found wrong, 0 for none
     * @param canBeUsed whether that frame may be used all the same
     */
    public record Taking(
            String says, boolean byHand, boolean waits, int rejected, boolean canBeUsed) {
        static final Taking NOTHING = new Taking("", false, false, 0, false);

        Taking says(String words, boolean hand, boolean waiting) {
            return new Taking(words, hand, waiting, rejected, canBeUsed);
        }
    }

    private enum Phase {
        FADING,
        SETTLING,
        WAITING,
        STUCK
    }

    /** One try for one step. */
    private static final class Attempt {
        final String run;
        final int step;
        final int asked;
        Phase phase = Phase.FADING;
        long sinceNanos;
        long litEpochMillis;
        boolean released;
        int passed;

        Attempt(PlateRun run, int framesSoFar, long nowNanos) {
            this.run = run.id();
            step = run.at();
            asked = run.asked().size();
            passed = framesSoFar;
            sinceNanos = nowNanos;
        }

        boolean is(PlateRun now) {
            return now.id().equals(run) && now.at() == step && now.asked().size() == asked;
        }
    }

    /**
     * @param arrived whether the light that was wanted last is there, at a time of {@link
     *     System#nanoTime}
     * @param shutter releases the camera, where that can be done from here
     * @param frames the pixels of a frame, once they can be read
     * @param moved how far the second picture has moved against the first
     * @param epochMillis the wall clock
     * @param changed is called when there is more to say
     */
    public PlateTaker(
            Live live,
            Lightings lightings,
            LongPredicate arrived,
            Optional<Shutter> shutter,
            Function<Frame, Optional<SeenPlate>> frames,
            BiFunction<CodedPicture, CodedPicture, Motion> moved,
            LongSupplier epochMillis,
            Runnable changed) {
        this.live = live;
        this.lightings = lightings;
        this.arrived = arrived;
        this.shutter = shutter;
        this.frames = frames;
        this.moved = moved;
        this.epochMillis = epochMillis;
        this.changed = changed;
    }

    /** How it is going. */
    public Taking taking() {
        return taking;
    }

    /** One step of the loop; returns when it wants the next. */
    public long doWork(long nowNanos) {
        try {
            return work(nowNanos);
        } catch (IOException full) {
            LOG.error("plates wait: {}", full.getMessage());
            say(taking.says("waits: " + full.getMessage(), false, true));
            return nowNanos + TRY_AGAIN_NANOS;
        }
    }

    private long work(long nowNanos) throws IOException {
        LiveState state = live.state();
        Optional<PlateRun> run = state.plates().run();
        if (run.isEmpty()) {
            attempt = null;
            known.clear();
            say(Taking.NOTHING);
            return nowNanos + IDLE_NANOS;
        }
        Lighting lighting = lightings.of(state);
        Optional<String> edited = lighting.edited(run.get().begun());
        if (edited.isPresent()) {
            live.giveUpPlates(run.get().id(), edited.get());
            return nowNanos;
        }
        if (!prepare(run.get(), lighting)) {
            live.giveUpPlates(run.get().id(), "their shot or its look is no longer in the plan");
            return nowNanos;
        }
        if (attempt == null || !attempt.is(run.get())) {
            begin(run.get(), state, nowNanos);
        }
        light(run.get(), nowNanos);
        frames(run.get(), state, nowNanos);
        return nowNanos + STEP_NANOS;
    }

    /** What frames are held against; made once for a run. */
    private boolean prepare(PlateRun run, Lighting lighting) {
        if (!checksOf.equals(run.id())) {
            Optional<Shot> shot = lighting.plan().shot(run.begun().shot());
            Optional<Look> look = look(run, lighting);
            if (shot.isEmpty() || look.isEmpty()) {
                return false;
            }
            known.clear();
            checks =
                    new PlateChecks(
                            ModelledPlates.of(
                                    lighting.plan(),
                                    shot.get(),
                                    look.get(),
                                    run.begun().camera(),
                                    run.begun().standIn()),
                            run.begun().camera(),
                            moved);
            checksOf = run.id();
        }
        return true;
    }

    /** Where the lights stand; if it is gone, another that has them there. */
    private static Optional<Look> look(PlateRun run, Lighting lighting) {
        List<Look> all = lighting.plan().looks();
        return all.stream()
                .filter(l -> l.name().equals(run.begun().look()))
                .findFirst()
                .or(
                        () ->
                                all.stream()
                                        .filter(
                                                l ->
                                                        lighting.hangsOn(l.name())
                                                                .filter(
                                                                        run.begun().hangsOn()
                                                                                ::equals)
                                                                .isPresent())
                                        .findFirst());
    }

    private void begin(PlateRun run, LiveState state, long nowNanos) {
        boolean again = attempt != null && attempt.run.equals(run.id()) && attempt.step == run.at();
        attempt = new Attempt(run, state.frames().size(), nowNanos);
        Taking fresh = again ? taking : Taking.NOTHING;
        say(fresh.says("light for " + run.step().name(), false, false));
    }

    private void light(PlateRun run, long nowNanos) {
        if (attempt.phase == Phase.FADING && arrived.test(nowNanos)) {
            attempt.phase = Phase.SETTLING;
            attempt.sinceNanos = nowNanos;
        }
        if (attempt.phase == Phase.SETTLING && nowNanos - attempt.sinceNanos >= SETTLE_NANOS) {
            attempt.phase = Phase.WAITING;
            attempt.sinceNanos = nowNanos;
            attempt.litEpochMillis = epochMillis.getAsLong();
            release(run);
        }
    }

    private void release(PlateRun run) {
        Optional<Shutter> from = shutter.filter(Shutter::canRelease);
        attempt.released = from.isPresent();
        if (attempt.released) {
            say(taking.says("taking " + run.step().name(), false, false));
            from.get().release();
        } else {
            say(taking.says("take a frame now", true, false));
        }
    }

    private void frames(PlateRun run, LiveState state, long nowNanos) throws IOException {
        Optional<Frame> next =
                state.frames().stream()
                        .skip(attempt.passed)
                        .filter(f -> f.plates().equals(run.id()))
                        .findFirst();
        if (next.isPresent()) {
            frame(run, state, next.get(), nowNanos);
        } else if (attempt.phase == Phase.WAITING
                && attempt.released
                && nowNanos - attempt.sinceNanos >= PATIENCE_NANOS) {
            ask(
                    run,
                    new PlateVerdict(
                            "no frame came: is the camera awake, and is there room on its card?",
                            false,
                            1,
                            ""),
                    0);
        }
    }

    private void frame(PlateRun run, LiveState state, Frame frame, long nowNanos)
            throws IOException {
        boolean lit = attempt.phase == Phase.WAITING || attempt.phase == Phase.STUCK;
        long exposed = CameraClock.of(state.frames()).exposedEpochMillis(frame);
        long uncertain = wholeSeconds(frame) ? WHOLE_SECONDS_MILLIS : CLOCK_MILLIS;
        if (!lit || exposed + uncertain < attempt.litEpochMillis) {
            attempt.passed = frame.number();
            if (attempt.phase == Phase.WAITING && !attempt.released) {
                say(taking.says("that was too early: take a frame now", true, false));
            }
            LOG.info("frame {} came before its light was there", frame.number());
            return;
        }
        Optional<SeenPlate> seen = frames.apply(frame);
        if (seen.isEmpty() && nowNanos - attempt.sinceNanos < PATIENCE_NANOS) {
            return;
        }
        attempt.passed = frame.number();
        Known now = seen.map(s -> checks.known(run.step(), s)).orElse(null);
        PlateVerdict verdict =
                now == null
                        ? PlateVerdict.useless("its picture cannot be read")
                        : checks.of(now, house(run, state), before(run, state));
        if (verdict.good() && !attempt.released && wholeSeconds(frame)) {
            verdict = house(run, state).flatMap(h -> ramp(run, state, now, h)).orElse(verdict);
        }
        if (verdict.good()) {
            take(run, frame.number(), verdict.doubt());
        } else {
            ask(run, verdict, frame.number());
        }
    }

    private static boolean wholeSeconds(Frame frame) {
        return !frame.takenAt().isEmpty() && frame.takenAt().indexOf('.') < 0;
    }

    /** Of a camera that writes no fractions the clock does not tell a frame of the fade. */
    private Optional<PlateVerdict> ramp(PlateRun run, LiveState state, Known now, Known house) {
        if (run.step().share() <= 0) {
            return Optional.empty();
        }
        List<Known> others =
                run.taken().keySet().stream()
                        .filter(step -> step != run.at() && run.steps().get(step).share() > 0)
                        .flatMap(step -> of(run, state, step).stream())
                        .toList();
        return checks.ramp(now, house, others);
    }

    private void take(PlateRun run, int number, String doubt) throws IOException {
        taking = Taking.NOTHING;
        live.plateTaken(new PlateTaken(run.id(), run.at(), number, doubt));
    }

    private Optional<Known> house(PlateRun run, LiveState state) {
        return run.step().house() ? Optional.empty() : of(run, state, 0);
    }

    /** The frame before; for the house, taken again in a set, any other. */
    private Optional<Known> before(PlateRun run, LiveState state) {
        return run.at() > 0
                ? of(run, state, run.at() - 1)
                : run.taken().keySet().stream()
                        .filter(step -> step > 0)
                        .min(Integer::compare)
                        .flatMap(step -> of(run, state, step));
    }

    /** The frame of another step; read again after a restart. */
    private Optional<Known> of(PlateRun run, LiveState state, int step) {
        PlateTaken taken = run.taken().get(step);
        if (taken == null) {
            return Optional.empty();
        }
        Known kept = known.get(step);
        if (kept != null && kept.seen().number() == taken.number()) {
            return Optional.of(kept);
        }
        Optional<Known> read =
                state.frame(taken.number())
                        .flatMap(frames)
                        .map(seen -> checks.known(run.steps().get(step), seen));
        known.keySet().removeIf(s -> s != 0 && s != step);
        read.ifPresent(k -> known.put(step, k));
        return read;
    }

    /** Twice by itself; then it waits for somebody, and still takes a good frame that comes. */
    private void ask(PlateRun run, PlateVerdict verdict, int number) throws IOException {
        Taking wrong = new Taking("", false, false, number, number > 0 && verdict.canBeUsed());
        if (run.askedByItself(run.at()) < BY_ITSELF) {
            taking = wrong;
            live.askPlate(
                    new PlateAsked(
                            run.id(), run.at(), verdict.wrong(), false, levels(run, verdict)));
            return;
        }
        attempt.phase = Phase.STUCK;
        say(wrong.says(verdict.wrong(), false, true));
    }

    private List<List<Double>> levels(PlateRun run, PlateVerdict verdict) {
        return verdict.factor() == 1
                ? List.of()
                : scaled(lightings.of(live.state()).plan().rig(), run.step(), verdict.factor());
    }

    private static List<List<Double>> scaled(List<Light> rig, PlateStep step, double factor) {
        List<List<Double>> all = new ArrayList<>();
        for (int l = 0; l < rig.size(); l++) {
            double[] levels =
                    step.levels().get(l).stream()
                            .mapToDouble(level -> Math.min(1, level * factor))
                            .toArray();
            all.add(DoubleStream.of(RigPackets.throughSlots(rig.get(l), levels)).boxed().toList());
        }
        return all;
    }

    private void say(Taking now) {
        if (!now.equals(taking)) {
            taking = now;
            changed.run();
        }
    }
}

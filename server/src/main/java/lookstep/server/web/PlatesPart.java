package lookstep.server.web;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import lookstep.server.lighting.Lighting;
import lookstep.server.live.LiveState;
import lookstep.server.live.PlateRun;
import lookstep.server.live.PlateSet;
import lookstep.server.plan.Shot;
import lookstep.server.plates.PlateBeginning;
import lookstep.server.plates.PlateQuestion;
import lookstep.server.plates.PlatesNow;

/**
 * Frames with known light.
 *
 * @param state none, taking, working, ready, stale or useless
 * @param id of the run that is being taken, or of the newest set; empty for neither
 * @param says the same in words; empty if there is nothing to say
 * @param frames how many would be taken now
 * @param seconds about how long that takes
 * @param lit what is lit while they are taken; empty otherwise
 * @param at the step that is lit, 1 for the first; 0 if none is
 * @param byHand whether somebody has to release the camera now
 * @param waits whether nothing goes on until somebody presses something
 * @param canUse whether the frame that was found wrong may be used all the same
 * @param steps of the run or of the set
 * @param shot the name of the shot that they are for, or would be now
 * @param taken when, such as 21:04; empty if they are not
 * @param standIn one person in the middle instead of those of the shot
 * @param doubts what is uncertain about them
 * @param question why somebody should say whether anything has moved; empty if nobody need
 */
public record PlatesPart(
        String state,
        String id,
        String says,
        int frames,
        double seconds,
        String lit,
        int at,
        boolean byHand,
        boolean waits,
        boolean canUse,
        List<StepPart> steps,
        String shot,
        String taken,
        boolean standIn,
        List<String> doubts,
        String question) {
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

    /**
     * One frame of them.
     *
     * @param frame its number; 0 if it is not there
     * @param says what is to be said of it, or why it is asked again
     */
    public record StepPart(String name, int frame, String says) {}

    static PlatesPart of(
            LiveState state, Lighting lighting, PlatesNow now, long nowEpochMillis, ZoneId zone) {
        Optional<PlateRun> on = state.plates().run();
        Optional<PlateSet> set = state.plates().set();
        Optional<PlateRun> run = on.or(() -> set.map(PlateSet::run));
        int frames = PlateBeginning.frames(lighting, state);
        String shot =
                run.map(r -> r.begun().shot())
                        .flatMap(lighting.plan()::shot)
                        .map(Shot::name)
                        .orElseGet(() -> run.isPresent() ? "" : lighting.shot(state).name());
        return new PlatesPart(
                now.standing().name().toLowerCase(Locale.ROOT),
                run.map(PlateRun::id).orElse(""),
                says(state, now),
                frames,
                PlateBeginning.seconds(frames),
                on.map(r -> r.step().name()).orElse(""),
                on.map(r -> r.at() + 1).orElse(0),
                now.taking().byHand(),
                now.taking().waits(),
                now.taking().canBeUsed(),
                run.map(PlatesPart::steps).orElse(List.of()),
                shot,
                on.isPresent()
                        ? ""
                        : set.map(
                                        s ->
                                                TIME.format(
                                                        Instant.ofEpochMilli(s.doneEpochMillis())
                                                                .atZone(zone)))
                                .orElse(""),
                run.map(r -> r.begun().standIn()).orElse(false),
                now.doubts(),
                PlateQuestion.of(state, lighting, nowEpochMillis).orElse(""));
    }

    private static String says(LiveState state, PlatesNow now) {
        return switch (now.standing()) {
            case NONE -> state.plates().gaveUp();
            case TAKING -> now.taking().says();
            case WORKING -> "working out what the frames come to";
            case READY -> state.plates().gaveUp();
            case STALE -> state.plates().set().map(PlateSet::stale).orElse("");
            case USELESS -> now.trouble();
        };
    }

    private static List<StepPart> steps(PlateRun run) {
        List<StepPart> steps = new ArrayList<>();
        for (int i = 0; i < run.steps().size(); i++) {
            int step = i;
            steps.add(
                    new StepPart(
                            run.steps().get(i).name(),
                            run.taken().containsKey(i) ? run.taken().get(i).number() : 0,
                            run.taken().containsKey(i)
                                    ? run.taken().get(i).says()
                                    : run.newestAsked(step).map(a -> a.why()).orElse("")));
        }
        return steps;
    }
}

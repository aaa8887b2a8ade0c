package lookstep.server.checks;

import java.util.List;
import java.util.Optional;
import lookstep.server.plan.Circuit;
import lookstep.server.plan.PlanWords;
import lookstep.simulator.model.optics.Scales;
import lookstep.simulator.model.optics.Scales.Mark;

/**
 * Whether the exposure takes in whole pulses of light. Lamps on the mains vary at twice its
 * frequency: 100 Hz or 120 Hz, so a multiple of 1/100 s or 1/120 s sees no difference. Of a light 1
 * + m cos 2 pi F t an exposure of time t keeps m |sin(pi F t) / (pi F t)|. Lights that dim by
 * pulses (PWM) at F give F t pulses; one more or less is log2((n + 1) / n) stops.
 */
final class FlickerCheck {
    /** Depth of what mains lamps vary by (figure of our own; lamps differ from 0.05 to 1). */
    private static final double DEPTH = 0.3;

    private static final double SEEN_STOPS = 0.1;

    /** Fewer pulses than this may show as bands (common practice). */
    private static final double FEWEST_PULSES = 10;

    /** Dimming by pulses slower than this is not rare among lights (from memory). */
    private static final double SLOW_PULSES_HERTZ = 1000;

    private FlickerCheck() {}

    static List<Finding> of(Staged s) {
        double seconds = s.look().camera().seconds();
        double mean = s.faces().stream().mapToDouble(FaceLight::lux).average().orElse(0);
        double share = mean > 0 ? s.scene().houseLux() / mean : 0;
        double fifty = swing(100, seconds, share);
        double sixty = swing(120, seconds, share);
        boolean known = !s.plan().location().circuits().isEmpty();
        boolean hundredTwenty =
                s.plan().location().circuits().stream().mapToDouble(Circuit::volts).max().orElse(0)
                        < 160;
        // Mains of 200 V and more are at 50 Hz in most of the world (from memory).
        double here = known ? (hundredTwenty ? sixty : fifty) : Math.max(fifty, sixty);
        double pulses = SLOW_PULSES_HERTZ * seconds;
        double onePulse = Words.log2((Math.floor(pulses) + 1) / Math.max(1, Math.floor(pulses)));
        Numbers numbers =
                new Numbers()
                        .put("seconds", seconds)
                        .put("houseShareOfTheLight", share)
                        .put("swingStopsAt50Hertz", fifty)
                        .put("swingStopsAt60Hertz", sixty)
                        .put("assumedDepth", DEPTH)
                        .put("pulseHertzForTenInOneExposure", FEWEST_PULSES / seconds)
                        .put("stopsOfOnePulseAt1000Hertz", onePulse);
        boolean few = pulses < FEWEST_PULSES * 0.95 && dimmed(s);
        if (here < SEEN_STOPS && !few) {
            return List.of(
                    new Finding(
                            Kind.FLICKER,
                            Weight.GOOD,
                            Subject.shot(s),
                            Words.text(
                                    "%s s takes in %s pulses of lamps on 50 Hz mains, %s on 60 Hz:"
                                            + " less than %.1f stop from frame to frame",
                                    PlanWords.time(seconds),
                                    PlanWords.number(Math.round(1000 * seconds) / 10.0),
                                    PlanWords.number(Math.round(1200 * seconds) / 10.0),
                                    SEEN_STOPS),
                            numbers.all(),
                            Optional.empty()));
        }
        double wanted = known && hundredTwenty ? 1 / 120.0 : 1 / 100.0;
        String time = known && hundredTwenty ? "1/60 or 1/120" : "1/50 or 1/100";
        Mark mark = Scales.nearestTime(wanted);
        String says =
                here >= SEEN_STOPS
                        ? Words.text(
                                "%s s under house light that varies with the mains: up to %.2f stop"
                                        + " from frame to frame, and bands",
                                PlanWords.time(seconds), here)
                        : Words.text(
                                "%s s is fewer than ten pulses of a light that dims below %.0f Hz:"
                                        + " look for bands in a test frame, lights dimmed",
                                PlanWords.time(seconds), FEWEST_PULSES / seconds);
        return List.of(
                new Finding(
                        Kind.FLICKER,
                        Weight.LOOK,
                        Subject.shot(s),
                        says,
                        numbers.all(),
                        Optional.of(mend(s, time, known && !hundredTwenty, mark))));
    }

    /** At 60 Hz no mark of the dial is exact enough to be written. */
    private static Mend mend(Staged s, String times, boolean fiftyHertz, Mark time) {
        String words = times + " s takes in whole pulses; or turn the house light off";
        if (!fiftyHertz) {
            return Mend.words(words);
        }
        double cost = Words.log2(s.camera().seconds() / time.exact());
        Optional<Mark> iso = PayingIso.of(s.camera(), cost);
        String change =
                Words.text(
                        "; %s s is %s %s",
                        time.text(), Words.stops(cost), cost < 0 ? "more light" : "less light");
        return iso.map(
                        i ->
                                new Mend(
                                        words + change + ": ISO " + i.text() + " exposes as before",
                                        List.of(
                                                new Change(
                                                        Paths.camera(s.look().name(), "time"),
                                                        time.text()),
                                                new Change(
                                                        Paths.camera(s.look().name(), "iso"),
                                                        i.nominal()))))
                .orElseGet(
                        () ->
                                Mend.words(
                                        words
                                                + change
                                                + ", and no ISO of the dial makes up for it"));
    }

    private static boolean dimmed(Staged s) {
        return s.levels().lights().stream()
                .flatMap(l -> l.given().stream())
                .anyMatch(g -> g.amount().lux() < 0.9 * g.amount().mostLux());
    }

    /** Stops from the brightest to the darkest frame. */
    static double swing(double hertz, double seconds, double share) {
        double x = Math.PI * hertz * seconds;
        double left = DEPTH * share * Math.abs(Math.sin(x) / x);
        return Words.log2((1 + left) / (1 - left));
    }
}

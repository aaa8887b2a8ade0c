package lookstep.server.checks;

import java.util.List;
import java.util.Optional;
import lookstep.server.plan.PlanWords;
import lookstep.simulator.model.optics.Scales;
import lookstep.simulator.model.optics.Scales.Mark;

/**
 * Whether the exposure time stops the hand and people who stand still: no longer than one over the
 * focal length for a camera in the hand, counted on 36 x 24 mm (the reciprocal rule, common
 * practice), and for posed people 1/60 s at the longest, better 1/100 (common practice).
 */
final class ShutterCheck {
    private static final double LONGEST = 1 / 60.0;
    private static final double BETTER = 1 / 100.0;

    /** How fast a head moves on somebody who tries to stand still (from memory, an estimate). */
    private static final double HEAD_METRES_PER_SECOND = 0.1;

    private static final double ROUNDING = 1.07;

    private ShutterCheck() {}

    static List<Finding> of(Staged s) {
        double seconds = s.look().camera().seconds();
        double lens = s.shot().lensMillimetres();
        double hand = 1 / (lens * s.plan().around().sensor().cropFactor());
        double smear =
                HEAD_METRES_PER_SECOND
                        * s.camera().seconds()
                        * lens
                        / (s.shot().distanceMetres() - lens / 1000);
        Numbers numbers =
                new Numbers()
                        .put("seconds", seconds)
                        .put("longestInTheHandSeconds", hand)
                        .put("longestOfPeopleSeconds", LONGEST)
                        .put("headMetresPerSecond", HEAD_METRES_PER_SECOND)
                        .put("smearMillimetres", smear)
                        .put("circleMillimetres", s.circleMillimetres());
        boolean people = seconds <= LONGEST * ROUNDING;
        boolean still = seconds <= BETTER * ROUNDING;
        boolean held = seconds <= hand * ROUNDING;
        if (still && held) {
            return List.of();
        }
        double wanted = Math.min(hand, BETTER);
        Mark mark =
                Scales.times().stream()
                        .filter(m -> m.nominal() <= wanted * ROUNDING)
                        .findFirst()
                        .orElseThrow();
        double cost = Words.log2(s.camera().seconds() / mark.exact());
        Optional<Mark> iso = PayingIso.of(s.camera(), cost);
        numbers.put("secondsMend", mark.nominal()).put("costStops", cost);
        String why =
                !people
                        ? "longer than people hold still (1/60 s; common practice)"
                        : !held
                                ? Words.text(
                                        "longer than a hand holds %s mm (1/%.0f s by the reciprocal"
                                                + " rule); on a tripod it may stay",
                                        PlanWords.number(lens), 1 / hand)
                                : "people stand still at 1/60 s with luck, at 1/100 s as a rule"
                                        + " (common practice)";
        return List.of(
                new Finding(
                        Kind.SHUTTER,
                        people ? Weight.LOOK : Weight.WRONG,
                        Subject.shot(s),
                        PlanWords.time(seconds) + " s is " + why,
                        numbers.all(),
                        Optional.of(mend(s, mark, cost, iso))));
    }

    private static Mend mend(Staged s, Mark time, double cost, Optional<Mark> iso) {
        String costs = Words.text("%s s costs %s", time.text(), Words.stops(cost));
        return iso.map(
                        i ->
                                new Mend(
                                        costs + ": ISO " + i.text() + " pays for it",
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
                                        costs
                                                + ", and no ISO of the dial pays for it: more light"
                                                + " or a lower f-number, or put the camera on a"
                                                + " tripod"));
    }
}

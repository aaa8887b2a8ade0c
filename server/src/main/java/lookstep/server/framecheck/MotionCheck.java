package lookstep.server.framecheck;

import java.util.Optional;
import lookstep.simulator.model.optics.Scales;

/**
 * Whether something will have moved, by the exposure time alone. Common practice: a hand holds a
 * lens of f millimetres still for 1/f s, and people who stand still want 1/125 s. A third of a stop
 * more is let pass (1/100 s goes with lamps on 50 Hz mains); from a stop and a half on, 1/45 s,
 * somebody will have moved.
 */
final class MotionCheck {
    private static final double STANDING_SECONDS = 1.0 / 128;
    private static final double LET_PASS_STOPS = 0.4;
    private static final double SURE_STOPS = 1.4;

    private MotionCheck() {}

    static Optional<Remark> check(Taken taken) {
        if (taken.exif().seconds().isEmpty()) {
            return Optional.empty();
        }
        double seconds = Scales.exactSeconds(taken.exif().seconds().getAsDouble());
        double people = Say.log2(seconds / STANDING_SECONDS);
        double hand = Say.log2(seconds * taken.lensMillimetres());
        boolean asPlanned = seconds <= 1.01 * Scales.exactSeconds(taken.look().camera().seconds());
        String time = Scales.formatTime(seconds);
        String lens = "%.0f mm".formatted(taken.lensMillimetres());
        if (people > LET_PASS_STOPS) {
            boolean sure = people > SURE_STOPS;
            String says =
                    time
                            + (sure ? ": somebody will have moved" : ": somebody may have moved")
                            + (hand > LET_PASS_STOPS ? ", and the hand with " + lens + " too" : "")
                            + "; set 1/125 s or shorter";
            return Optional.of(
                    new Remark(
                            Kind.MOTION,
                            sure && !asPlanned ? Weight.WRONG : Weight.LOOK,
                            says,
                            seconds));
        }
        if (hand > LET_PASS_STOPS) {
            String says =
                    "%s with %s from the hand may shake; set %s or shorter, or use a stand"
                            .formatted(time, lens, shorter(1 / taken.lensMillimetres()));
            return Optional.of(new Remark(Kind.MOTION, Weight.LOOK, says, seconds));
        }
        return Optional.empty();
    }

    private static String shorter(double seconds) {
        return Scales.times().stream()
                .filter(m -> m.nominal() <= 1.01 * seconds)
                .findFirst()
                .map(m -> m.text() + " s")
                .orElse("a shorter time");
    }
}

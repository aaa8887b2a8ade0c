package lookstep.server.framecheck;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import lookstep.server.plan.Shot;
import lookstep.server.prediction.ShotNumbers;
import lookstep.simulator.model.optics.DepthOfField;
import lookstep.simulator.model.optics.Scales;
import lookstep.simulator.model.scene.Positions;
import lookstep.simulator.model.space.Vec3;

/**
 * Whether the f-number of the frame holds everybody sharp where the plan has them: thin lens, the
 * focus at the nearest face, circle of confusion that of the sensor, a face itself {@link
 * ShotNumbers#FACE_METRES} deep. The lens is what the camera says, the distance is the plan's.
 * Nothing is said if the camera does not say its f-number.
 */
final class DepthCheck {
    /** Within this of the needed f-number nobody sees it: a sixth of a stop. */
    private static final double NEAR_ENOUGH = Math.pow(2, 1.0 / 12);

    private DepthCheck() {}

    /**
     * @param circle of confusion, millimetres
     */
    static Optional<Remark> check(Taken taken, double circle) {
        if (taken.exif().fNumber().isEmpty()) {
            return Optional.empty();
        }
        Shot shot = taken.shot();
        double f = Scales.exactFNumber(taken.exif().fNumber().getAsDouble());
        double lens = taken.lensMillimetres();
        double near = shot.distanceMetres();
        int people = shot.people().size();
        double deep =
                Positions.of(shot.arrangement(), people).stream()
                                .mapToDouble(Vec3::y)
                                .max()
                                .orElse(0)
                        + ShotNumbers.FACE_METRES;
        double needed = DepthOfField.fNumberFocusOnNearest(lens, near, deep, circle);
        if (f * NEAR_ENOUGH >= needed) {
            return Optional.empty();
        }
        double sharp = DepthOfField.of(lens, f, near, circle).farMetres() - near;
        boolean asPlanned = f >= Scales.exactFNumber(taken.look().camera().fNumber()) / NEAR_ENOUGH;
        if (people == 1 && asPlanned) {
            // One face with soft ears is what solos are planned for.
            return Optional.empty();
        }
        String says =
                String.format(
                        Locale.ROOT,
                        "%s with %s %.2f m deep: %.2f m is sharp with the focus at the nearest"
                                + " face (circle of confusion %.3f mm); %s",
                        Scales.formatFNumber(f),
                        Say.people(people),
                        deep,
                        sharp,
                        circle,
                        mend(needed, people));
        return Optional.of(
                new Remark(Kind.DEPTH, asPlanned ? Weight.LOOK : Weight.WRONG, says, sharp));
    }

    private static String mend(double needed, int people) {
        String closer = people == 1 ? "" : ", or bring them closer together";
        List<Scales.Mark> marks = Scales.fNumbers();
        return marks.stream()
                .filter(m -> m.exact() * NEAR_ENOUGH >= needed)
                .findFirst()
                .map(
                        m ->
                                "f/"
                                        + m.text()
                                        + " would hold "
                                        + (people == 1 ? "all of it" : "them")
                                        + closer)
                .orElse("no f-number holds that" + closer);
    }
}

package lookstep.server.checks;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.server.plan.CameraSettings;
import lookstep.server.prediction.ShotNumbers;
import lookstep.simulator.model.optics.DepthOfField;
import lookstep.simulator.model.optics.Scales;
import lookstep.simulator.model.optics.Scales.Mark;

/**
 * Which f-number holds everybody sharp, for the depth that people really stand in: thin lens, the
 * focus left on the nearest face as cameras leave it, a face itself {@link ShotNumbers#FACE_METRES}
 * deep, circle of confusion 0.020 mm on 36 x 24 mm and smaller as the sensor's diagonal is.
 */
final class DepthCheck {
    /** A nominal f-number is up to a sixth of a stop from the exact one. */
    private static final double NEAR_ENOUGH = 1.03;

    private DepthCheck() {}

    static List<Finding> of(Staged s) {
        double lens = s.shot().lensMillimetres();
        double near = s.shot().distanceMetres();
        double deep = s.depthMetres() + ShotNumbers.FACE_METRES;
        double circle = s.circleMillimetres();
        double front = DepthOfField.fNumberFocusOnNearest(lens, near, deep, circle);
        double third = needed(lens, near, deep, near + deep / 3, circle);
        double best = DepthOfField.fNumberBestFocus(lens, near, deep, circle);
        double at = DepthOfField.bestFocusMetres(near, deep);
        CameraSettings set = s.look().camera();
        double f = s.camera().fNumber();
        DepthOfField sharp = DepthOfField.of(lens, f, near, circle);
        Numbers numbers =
                new Numbers()
                        .put("depthMetres", deep)
                        .put("distanceMetres", near)
                        .put("lensMillimetres", lens)
                        .put("circleMillimetres", circle)
                        .put("fNumberSet", set.fNumber())
                        .put("fNumberFocusOnNearest", front)
                        .put("fNumberFocusAThirdIn", third)
                        .put("fNumberBestFocus", best)
                        .put("bestFocusMetres", at)
                        .put("sharpFromMetres", sharp.nearMetres())
                        .put("sharpToMetres", sharp.farMetres());
        if (s.shot().solo()) {
            return List.of(
                    new Finding(
                            Kind.DEPTH_OF_FIELD,
                            Weight.GOOD,
                            Subject.shot(s),
                            Words.text(
                                    "focus on the eyes, %.2f m behind them is sharp at %s; the"
                                            + " whole face needs f/%.1f",
                                    sharp.farMetres() - near,
                                    Scales.formatFNumber(set.fNumber()),
                                    front),
                            numbers.all(),
                            Optional.empty()));
        }
        boolean held = front <= f * NEAR_ENOUGH;
        Weight weight = held ? Weight.GOOD : best <= f * NEAR_ENOUGH ? Weight.LOOK : Weight.WRONG;
        String says =
                Words.text(
                        "%.2f m deep needs f/%.1f, %s is set: %s",
                        deep,
                        front,
                        Scales.formatFNumber(set.fNumber()),
                        held
                                ? "all sharp"
                                : Words.text(
                                        "only the nearest %.2f m is; focused a third of the way"
                                                + " in f/%.1f would do, at %.2f m f/%.1f",
                                        sharp.farMetres() - near, third, at, best));
        if (held) {
            double over = 2 * Words.log2(f / front);
            numbers.put("stopsToSpare", over);
            return List.of(finding(s, weight, says, numbers, Optional.empty()));
        }
        return List.of(finding(s, weight, says, numbers, mend(s, front, best, at, numbers)));
    }

    private static Finding finding(
            Staged s, Weight weight, String says, Numbers numbers, Optional<Mend> mend) {
        return new Finding(Kind.DEPTH_OF_FIELD, weight, Subject.shot(s), says, numbers.all(), mend);
    }

    /** The f-number that keeps nearest and farthest within the circle, focused between them. */
    private static double needed(
            double lens, double near, double deep, double focus, double circle) {
        double a = Math.abs(DepthOfField.discMillimetres(lens, 1, focus, near));
        double b = Math.abs(DepthOfField.discMillimetres(lens, 1, focus, near + deep));
        return Math.max(a, b) / circle;
    }

    private static Optional<Mend> mend(
            Staged s, double front, double best, double at, Numbers numbers) {
        CameraSettings set = s.look().camera();
        Optional<Mark> mark =
                Scales.fNumbers().stream()
                        .filter(m -> m.exact() * NEAR_ENOUGH >= front)
                        .findFirst();
        if (mark.isEmpty()) {
            return Optional.of(
                    Mend.words(
                            "no f-number of the dial holds that: bring them closer together, or go"
                                    + " farther away"));
        }
        double cost = 2 * Words.log2(mark.get().exact() / s.camera().fNumber());
        double iso = PayingIso.wanted(s.camera(), cost);
        Optional<Mark> paying = PayingIso.of(s.camera(), cost);
        double slower = s.camera().seconds() * Math.pow(2, cost);
        numbers.put("fNumberMend", mark.get().nominal())
                .put("costStops", cost)
                .put("isoThatPays", iso)
                .put("secondsThatPay", slower);
        List<Change> changes = new ArrayList<>();
        if (paying.isPresent()) {
            changes.add(new Change(Paths.camera(set(s), "f"), mark.get().nominal()));
            changes.add(new Change(Paths.camera(set(s), "iso"), paying.get().nominal()));
        }
        String focus =
                best <= s.camera().fNumber() * NEAR_ENOUGH
                        ? Words.text(
                                "; or keep %s and set the focus to %.2f m",
                                Scales.formatFNumber(set.fNumber()), at)
                        : "";
        return Optional.of(
                new Mend(
                        Words.text(
                                "f/%s costs %s: ISO %s or %s pays for it%s",
                                mark.get().text(),
                                Words.stops(cost),
                                paying.map(Mark::text).orElse(Words.text("%.0f", iso)),
                                Scales.formatTime(slower),
                                focus),
                        changes));
    }

    private static String set(Staged s) {
        return s.look().name();
    }
}

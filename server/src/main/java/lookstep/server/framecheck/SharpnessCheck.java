package lookstep.server.framecheck;

import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Predicate;
import lookstep.server.plan.ShootPlan;
import lookstep.server.prediction.Staging;
import lookstep.simulator.model.optics.DepthOfField;

/**
 * Whether front and back row, or left and right, are equally sharp: the width of the edges in and
 * around the faces that were found, in the original where there is one and else in the preview, in
 * which only coarse differences are left. Sharpness is one over that width on the sensor, to which
 * the circle of confusion is added (as squares), because less than that is not seen as blur, and
 * {@link #FINEST_PIXELS}, because in a small picture less than that is not seen at all.
 *
 * <p>What this cannot know: motion blur from a missed focus, and a soft face from one with few
 * edges (hair over it, fog before it).
 */
final class SharpnessCheck {
    private static final double LOOK_BELOW = 0.65;
    private static final double WRONG_BELOW = 0.45;

    /** People less deep than this stand in one row. */
    private static final double ONE_ROW_METRES = 0.15;

    /** The middle of the picture belongs to no side. */
    private static final double SIDE = 0.12;

    /**
     * Twice the looser circle of the handbooks (0.030 mm): then nothing is sharp, if it is more
     * than {@link #BLURRED_PIXELS} as well. On 36 x 24 mm, and as the circle is on others.
     */
    private static final double NOTHING_SHARP_MILLIMETRES = 0.06;

    /** Edges of a sharp face are two to three pixels wide in a picture of 1200 (measured). */
    private static final double BLURRED_PIXELS = 5;

    private static final int MOST_PIXELS = 700;

    /** A blur of fewer pixels cannot be told from the pixels. */
    private static final double FINEST_PIXELS = 1.5;

    /** A head of fewer pixels across shows no difference. */
    private static final int LEAST_PIXELS = 40;

    /**
     * @param disc of the blur, millimetres on the sensor
     * @param pixel of the picture in which it was measured, likewise
     * @param circle of confusion, likewise
     */
    private record Measured(Face face, double disc, double pixel, double circle) {
        double seen() {
            return Math.hypot(disc, Math.hypot(circle, FINEST_PIXELS * pixel));
        }
    }

    private SharpnessCheck() {}

    static Optional<Remark> check(Taken taken, Seen seen, ShootPlan plan) {
        List<Measured> measured = new ArrayList<>();
        boolean fromDetail = false;
        if (taken.detail().isPresent()) {
            DetailSource detail = taken.detail().get();
            int longSide = Math.max(detail.width(), detail.height());
            measured = measure(plan, seen, longSide, face -> detailOf(detail, face));
            fromDetail = !measured.isEmpty();
        }
        if (!fromDetail) {
            BufferedImage preview = taken.preview();
            int longSide = Math.max(preview.getWidth(), preview.getHeight());
            measured = measure(plan, seen, longSide, face -> partOf(preview, face));
        }
        if (measured.isEmpty()) {
            return Optional.empty();
        }
        String where = fromDetail ? "" : " (seen in the preview only: look at 100 %)";
        double sharpest = measured.stream().mapToDouble(Measured::disc).min().orElse(0);
        double pixel = measured.get(0).pixel();
        double nothing =
                measured.get(0).circle()
                        * NOTHING_SHARP_MILLIMETRES
                        / DepthOfField.DEFAULT_CIRCLE_MILLIMETRES;
        if (fromDetail && sharpest > Math.max(nothing, BLURRED_PIXELS * pixel)) {
            return Optional.of(
                    new Remark(
                            Kind.SHARPNESS,
                            Weight.WRONG,
                            String.format(
                                    Locale.ROOT,
                                    "no face is sharp: the sharpest, %s, has a blur of %.2f mm on"
                                            + " the sensor; focus again, mind the time",
                                    measured.stream()
                                            .filter(m -> m.disc == sharpest)
                                            .findFirst()
                                            .orElseThrow()
                                            .face
                                            .name(),
                                    sharpest),
                            0));
        }
        double deep = seen.faces().stream().mapToDouble(SharpnessCheck::behind).max().orElse(0);
        Optional<Remark> rows =
                deep < ONE_ROW_METRES
                        ? Optional.empty()
                        : softer(
                                measured,
                                "the front row",
                                m -> behind(m.face) <= deep / 3,
                                "the back row",
                                m -> behind(m.face) >= deep * 2 / 3,
                                "a higher f-number, or closer rows",
                                "focus on the nearest face again",
                                where);
        Optional<Remark> sides =
                softer(
                        measured,
                        "the left",
                        m -> m.face.metre().centreX() < 0.5 - SIDE,
                        "the right",
                        m -> m.face.metre().centreX() > 0.5 + SIDE,
                        "stand square to the row, see where the focus lies",
                        "stand square to the row, see where the focus lies",
                        where);
        Optional<Remark> worse =
                rows.isPresent() && sides.isPresent()
                        ? (rows.get().value() <= sides.get().value() ? rows : sides)
                        : rows.or(() -> sides);
        if (worse.isPresent() || measured.size() < Math.max(2, seen.found().size())) {
            return worse;
        }
        return Optional.of(
                new Remark(Kind.SHARPNESS, Weight.GOOD, "the faces are equally sharp" + where, 1));
    }

    private static double behind(Face face) {
        return face.place().behindMetres();
    }

    private static Optional<Remark> softer(
            List<Measured> all,
            String oneName,
            Predicate<Measured> one,
            String otherName,
            Predicate<Measured> other,
            String mendOther,
            String mendOne,
            String where) {
        List<Measured> a = all.stream().filter(one).toList();
        List<Measured> b = all.stream().filter(other).toList();
        if (a.isEmpty() || b.isEmpty()) {
            return Optional.empty();
        }
        double ratio = sharpness(b) / sharpness(a);
        boolean otherSofter = ratio <= 1;
        double share = otherSofter ? ratio : 1 / ratio;
        // Pixels wider than the circle show only what is gross.
        boolean coarse = all.get(0).pixel() > all.get(0).circle();
        if (share >= (coarse ? WRONG_BELOW : LOOK_BELOW)) {
            return Optional.empty();
        }
        String says =
                String.format(
                        Locale.ROOT,
                        "%s (%s) is softer than %s: %.1f of its sharpness%s; %s",
                        otherSofter ? otherName : oneName,
                        Say.names((otherSofter ? b : a).stream().map(m -> m.face.name()).toList()),
                        otherSofter ? oneName : otherName,
                        share,
                        where,
                        otherSofter ? mendOther : mendOne);
        return Optional.of(
                new Remark(
                        Kind.SHARPNESS,
                        share < WRONG_BELOW ? Weight.WRONG : Weight.LOOK,
                        says,
                        share));
    }

    private static double sharpness(List<Measured> faces) {
        return faces.stream().mapToDouble(m -> 1 / m.seen()).average().orElse(Double.NaN);
    }

    /** The picture around a face. */
    private interface Patch {
        Optional<BufferedImage> of(Face face);
    }

    private static List<Measured> measure(ShootPlan plan, Seen seen, int longSide, Patch patch) {
        double pixel = plan.around().sensor().longMillimetres() / longSide;
        double circle = Staging.circleMillimetres(plan);
        List<Measured> out = new ArrayList<>();
        for (Face face : seen.found()) {
            patch.of(face)
                    .map(EdgeBlur::discPixels)
                    .filter(OptionalDouble::isPresent)
                    .ifPresent(
                            disc ->
                                    out.add(
                                            new Measured(
                                                    face,
                                                    disc.getAsDouble() * pixel,
                                                    pixel,
                                                    circle)));
        }
        return out;
    }

    private static Optional<BufferedImage> detailOf(DetailSource detail, Face face) {
        int[] b = pixels(face.head(), detail.width(), detail.height());
        return b == null ? Optional.empty() : detail.region(b[0], b[1], b[2], b[3]);
    }

    private static Optional<BufferedImage> partOf(BufferedImage picture, Face face) {
        int[] b = pixels(face.head(), picture.getWidth(), picture.getHeight());
        return b == null
                ? Optional.empty()
                : Optional.of(picture.getSubimage(b[0], b[1], b[2], b[3]));
    }

    /** Left, top, width, height inside a picture; null if too little of it is there. */
    private static int[] pixels(Box box, int width, int height) {
        double w = Math.min(MOST_PIXELS, box.width() * width);
        double h = Math.min(MOST_PIXELS, box.height() * height);
        int left = (int) Math.max(0, Math.round(box.centreX() * width - w / 2));
        int top = (int) Math.max(0, Math.round(box.centreY() * height - h / 2));
        int right = (int) Math.min(width, Math.round(box.centreX() * width + w / 2));
        int bottom = (int) Math.min(height, Math.round(box.centreY() * height + h / 2));
        return right - left < LEAST_PIXELS || bottom - top < LEAST_PIXELS
                ? null
                : new int[] {left, top, right - left, bottom - top};
    }
}

package lookstep.server.framecheck;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * What is so bright that a channel is full, faces first. A gloss on a cheek is usual and a tenth of
 * a face is not; in the whole picture a twentieth is remarked. What the plan's own picture clips (a
 * saturated light, a lamp in the picture) counts as meant.
 */
final class ClippingCheck {
    private static final double FACE_LOOK = 0.03;
    private static final double FACE_WRONG = 0.10;
    private static final double PICTURE_LOOK = 0.05;

    private ClippingCheck() {}

    static Optional<Remark> check(Seen seen) {
        List<String> names = new ArrayList<>();
        double worst = 0;
        for (int i = 0; i < seen.faces().size(); i++) {
            Face face = seen.faces().get(i);
            if (!face.found()) {
                continue;
            }
            int at = i;
            double meant =
                    seen.planned()
                            .map(p -> p.fields().clippedShare(p.faces().get(at).skin()))
                            .orElse(0.0);
            double share = seen.fields().clippedShare(face.skin());
            if (share - meant >= FACE_LOOK) {
                names.add(face.name() + " " + Say.percent(share));
                worst = Math.max(worst, share);
            }
        }
        if (!names.isEmpty()) {
            return Optional.of(
                    new Remark(
                            Kind.CLIPPING,
                            worst >= FACE_WRONG ? Weight.WRONG : Weight.LOOK,
                            "clipped in the face: "
                                    + String.join(", ", names)
                                    + "; less light on them, or a shorter time",
                            worst));
        }
        Box all = new Box(0, 0, 1, 1);
        double share = seen.fields().clippedShare(all);
        double meant = seen.planned().map(p -> p.fields().clippedShare(all)).orElse(0.0);
        if (share - meant < PICTURE_LOOK) {
            return Optional.empty();
        }
        return Optional.of(
                new Remark(
                        Kind.CLIPPING,
                        Weight.LOOK,
                        Say.percent(share)
                                + " of the picture is clipped"
                                + (seen.planned().isPresent()
                                        ? ", by the plan " + Say.percent(meant)
                                        : "")
                                + ": find what is too bright",
                        share));
    }
}

package lookstep.server.framecheck;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Faces in the fold of a spread: the middle {@link #GUTTER} of the width, which is a centimetre and
 * a half of a spread 42 cm wide (common practice: keep faces out by one or two). The fold is taken
 * to be in the middle of the picture as it was taken.
 */
final class FoldCheck {
    static final double GUTTER = 0.04;

    private FoldCheck() {}

    static Optional<Remark> check(Taken taken, Seen seen) {
        if (!taken.shot().framing().toLowerCase(Locale.ROOT).contains("spread")) {
            return Optional.empty();
        }
        List<String> names = new ArrayList<>();
        boolean seenThere = false;
        for (Face face : seen.faces()) {
            Box head = face.head();
            if (head.x() < 0.5 + GUTTER / 2 && head.x() + head.width() > 0.5 - GUTTER / 2) {
                names.add(face.found() ? face.name() : face.name() + " (by the plan; not found)");
                seenThere |= face.found();
            }
        }
        if (names.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(
                new Remark(
                        Kind.FOLD,
                        seenThere ? Weight.WRONG : Weight.LOOK,
                        Say.names(names)
                                + (names.size() == 1 ? " stands" : " stand")
                                + " in the fold: a step to the side, or aim a little aside",
                        names.size()));
    }
}

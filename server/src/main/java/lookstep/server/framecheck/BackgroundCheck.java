package lookstep.server.framecheck;

import java.util.List;
import java.util.Optional;

/**
 * How many stops the background is under the faces, against the predicted picture. Background is
 * what lies above the chins and beside the heads. Seven stops under and more is black either way.
 */
final class BackgroundCheck {
    private static final double LOOK_STOPS = 1;
    private static final double BLACK_STOPS = 7;
    private static final double BESIDE_METRES = 0.45;

    private BackgroundCheck() {}

    static Optional<Remark> check(Seen seen) {
        if (seen.planned().isEmpty() || seen.found().isEmpty()) {
            return Optional.empty();
        }
        Seen.Planned planned = seen.planned().get();
        List<Face> meantFaces =
                seen.found().stream()
                        .map(f -> planned.faces().get(seen.faces().indexOf(f)))
                        .toList();
        double is = stopsUnder(seen.fields(), seen.found(), seen.faces());
        double meant = stopsUnder(planned.fields(), meantFaces, planned.faces());
        double more = is - meant;
        if (!(Math.abs(more) >= LOOK_STOPS)) {
            return Optional.empty();
        }
        String says =
                "the background is %s under the faces, by the plan %s: %s"
                        .formatted(
                                Say.stops(is),
                                Say.stops(meant),
                                more < 0
                                        ? "see what light falls on it"
                                        : "see which light behind is missing");
        return Optional.of(new Remark(Kind.BACKGROUND, Weight.LOOK, says, more));
    }

    private static double stopsUnder(LinearFields picture, List<Face> lit, List<Face> all) {
        double faces =
                lit.stream()
                        .mapToDouble(f -> picture.meanLuminance(f.skin()))
                        .average()
                        .orElse(Double.NaN);
        double chin =
                all.stream().mapToDouble(f -> f.head().y() + f.head().height()).max().orElse(0);
        List<Box> heads =
                all.stream().map(f -> f.metre().times(BESIDE_METRES, BESIDE_METRES)).toList();
        double sum = 0;
        int n = 0;
        for (int y = 0; y < Math.min(picture.height(), chin * picture.height()); y++) {
            for (int x = 0; x < picture.width(); x++) {
                double px = (x + 0.5) / picture.width();
                double py = (y + 0.5) / picture.height();
                if (heads.stream().noneMatch(h -> h.holds(px, py))) {
                    sum += picture.luminance(y * picture.width() + x);
                    n++;
                }
            }
        }
        return n == 0
                ? Double.NaN
                : Math.min(BLACK_STOPS, Say.log2(faces / Math.max(1e-6, sum / n)));
    }
}

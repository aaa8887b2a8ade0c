package lookstep.server.framecheck;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import lookstep.simulator.model.optics.Scales;

/**
 * How light the faces are against the predicted picture: mean linear luminance over each face in
 * both, in stops. Without a prediction it is against the skin's reflectance in the plan, which a
 * metered exposure shows as it is. Where no face was found, or the plan means the faces to be dark,
 * it is the middle of the picture (half its width, three fifths of its height) that is compared,
 * and the words say so.
 *
 * <p>What this cannot know: how dark a person's skin is beyond the plan's four words for it (half a
 * stop either way, from memory), or that somebody turned away from the light on purpose.
 */
final class ExposureCheck {
    private static final double GOOD_STOPS = 0.34;
    private static final double WRONG_STOPS = 0.95;

    /** One person alone may be so far from the others' difference. */
    private static final double ONE_ALONE_STOPS = 0.65;

    /** Settings explain a difference that they come this near to. */
    private static final double EXPLAINED_STOPS = 0.5;

    private static final Box MIDDLE = Box.around(0.5, 0.5, 0.5, 0.6);

    /** Ten stops under white there is noise alone. */
    private static final double BLACK = 1.0 / 1024;

    private ExposureCheck() {}

    static Optional<Remark> check(Taken taken, Seen seen) {
        List<Face> found = seen.found();
        if (2 * found.size() < seen.faces().size() && seen.planned().isPresent()) {
            return seen.planned().map(planned -> middle(taken, seen, planned));
        }
        if (found.isEmpty()) {
            return Optional.empty();
        }
        double[] off = new double[found.size()];
        for (int i = 0; i < off.length; i++) {
            off[i] = stopsOff(seen, found.get(i));
        }
        double[] sorted = off.clone();
        Arrays.sort(sorted);
        double median = (sorted[(sorted.length - 1) / 2] + sorted[sorted.length / 2]) / 2;
        String than = seen.planned().isPresent() ? "the plan" : "a metered exposure";
        if (Math.abs(median) >= GOOD_STOPS) {
            return Optional.of(
                    new Remark(
                            Kind.EXPOSURE,
                            Math.abs(median) >= WRONG_STOPS ? Weight.WRONG : Weight.LOOK,
                            "faces %s %s %s%s: %s"
                                    .formatted(
                                            Say.stops(median),
                                            median < 0 ? "under" : "over",
                                            than,
                                            missing(seen),
                                            why(taken, median)),
                            median));
        }
        List<String> alone = new ArrayList<>();
        double farthest = 0;
        for (int i = 0; i < off.length; i++) {
            if (Math.abs(off[i]) >= ONE_ALONE_STOPS) {
                alone.add(
                        "%s %s %s"
                                .formatted(
                                        found.get(i).name(),
                                        Say.stops(off[i]),
                                        off[i] < 0 ? "under" : "over"));
                farthest = Math.abs(off[i]) > Math.abs(farthest) ? off[i] : farthest;
            }
        }
        if (!alone.isEmpty()) {
            return Optional.of(
                    new Remark(
                            Kind.EXPOSURE,
                            Weight.LOOK,
                            String.join(", ", alone)
                                    + " "
                                    + than
                                    + ", the others as planned: see who stands in whose light",
                            farthest));
        }
        double most = Arrays.stream(off).map(Math::abs).max().orElse(0);
        return Optional.of(
                new Remark(
                        Kind.EXPOSURE,
                        Weight.GOOD,
                        (found.size() == seen.faces().size() ? "all faces" : "the faces found")
                                + " within "
                                + Say.stops(Math.max(0.3, Math.ceil(most * 10 - 1e-9) / 10))
                                + " of "
                                + than
                                + missing(seen),
                        median));
    }

    /** Stops of a face over what the plan means. */
    private static double stopsOff(Seen seen, Face face) {
        double is = seen.fields().meanLuminance(face.skin());
        double meant =
                seen.planned()
                        .map(
                                p ->
                                        p.fields()
                                                .meanLuminance(
                                                        p.faces()
                                                                .get(seen.faces().indexOf(face))
                                                                .skin()))
                        .orElse(face.place().skin());
        return Say.log2(Math.max(BLACK, is) / Math.max(BLACK, meant));
    }

    private static Remark middle(Taken taken, Seen seen, Seen.Planned planned) {
        double off =
                Say.log2(
                        Math.max(BLACK, seen.fields().meanLuminance(MIDDLE))
                                / Math.max(BLACK, planned.fields().meanLuminance(MIDDLE)));
        String because =
                seen.meantDark()
                        ? "the look keeps the faces dark; "
                        : seen.found().isEmpty()
                                ? "no face was found where the plan has them; "
                                : "most faces were not found where the plan has them; ";
        if (Math.abs(off) < GOOD_STOPS) {
            return new Remark(
                    Kind.EXPOSURE,
                    Weight.GOOD,
                    because + "the middle of the picture is within 0.3 stop of the plan",
                    off);
        }
        return new Remark(
                Kind.EXPOSURE,
                Math.abs(off) >= WRONG_STOPS ? Weight.WRONG : Weight.LOOK,
                because
                        + "the middle of the picture is "
                        + Say.stops(off)
                        + (off < 0 ? " under" : " over")
                        + " the plan: "
                        + why(taken, off),
                off);
    }

    private static String missing(Seen seen) {
        List<String> names = seen.faces().stream().filter(f -> !f.found()).map(Face::name).toList();
        return names.isEmpty() ? "" : " (" + Say.names(names) + " not found)";
    }

    private static String why(Taken taken, double stops) {
        double settings = SettingsCheck.stopsMore(taken);
        if (Math.abs(settings) >= GOOD_STOPS && Math.abs(settings - stops) <= EXPLAINED_STOPS) {
            return "as the camera's settings say; set them as the look wants them";
        }
        double rest = stops - settings;
        return (Math.abs(settings) >= GOOD_STOPS
                        ? "the settings make " + Scales.formatStops(settings) + " of it; "
                        : "the settings do not explain it; ")
                + (rest < 0
                        ? "is every light on, and is something before one?"
                        : "is a light brighter or nearer than planned?");
    }
}

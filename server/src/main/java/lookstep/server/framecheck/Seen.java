package lookstep.server.framecheck;

import java.awt.image.BufferedImage;
import java.util.List;
import java.util.Optional;
import lookstep.server.plan.ShootPlan;

/**
 * A frame and what the plan means by it, side by side, with the faces found in the one and placed
 * in the other.
 *
 * @param fields the frame
 * @param faces in the frame, one for each person
 * @param planned the predicted picture
 */
record Seen(LinearFields fields, List<Face> faces, Optional<Planned> planned) {
    /**
     * @param fields the predicted picture
     * @param faces in it, in the same order
     */
    record Planned(LinearFields fields, List<Face> faces) {}

    /**
     * Zone II: a face that is meant to be darker than this shows next to nothing (common practice),
     * and its colour leads nowhere.
     */
    private static final double DARK = 0.18 / 8;

    static Seen of(ShootPlan plan, Taken taken, Optional<BufferedImage> predicted) {
        LinearFields fields = LinearFields.of(taken.preview());
        Optional<Planned> planned =
                predicted.map(
                        picture -> {
                            LinearFields p = LinearFields.of(picture);
                            return new Planned(p, meant(plan, taken, p));
                        });
        List<FacePlace> places =
                FacePlace.of(plan, taken.shot(), taken.look(), fields.width(), fields.height());
        boolean dark = planned.map(Seen::meantDark).orElse(false);
        List<double[]> colours = planned.map(p -> colours(p.fields(), p.faces())).orElse(List.of());
        List<Face> faces =
                dark
                        ? places.stream().map(Face::asPlanned).toList()
                        : FaceSearch.find(
                                SkinMap.of(fields, colours),
                                places,
                                fields.width(),
                                fields.height(),
                                taken.lensMillimetres() / taken.shot().lensMillimetres());
        return new Seen(fields, faces, planned);
    }

    private static List<Face> meant(ShootPlan plan, Taken taken, LinearFields picture) {
        int w = picture.width();
        int h = picture.height();
        List<FacePlace> places = FacePlace.of(plan, taken.shot(), taken.look(), w, h);
        List<Face> there = places.stream().map(Face::asPlanned).toList();
        return FaceSearch.findAsPlanned(SkinMap.of(picture, colours(picture, there)), places, w, h);
    }

    private static List<double[]> colours(LinearFields picture, List<Face> faces) {
        return faces.stream().map(f -> picture.mean(f.skin())).toList();
    }

    private static boolean meantDark(Planned p) {
        double[] light =
                p.faces().stream()
                        .mapToDouble(f -> p.fields().meanLuminance(f.skin()))
                        .sorted()
                        .toArray();
        return light[light.length / 2] < DARK;
    }

    /** True if the plan means the faces to be dark. */
    boolean meantDark() {
        return planned.map(Seen::meantDark).orElse(false);
    }

    /** The faces that were found. */
    List<Face> found() {
        return faces.stream().filter(Face::found).toList();
    }
}

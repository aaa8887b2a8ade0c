package lookstep.server.framecheck;

import java.util.ArrayList;
import java.util.List;

/**
 * Looks for the faces around where the plan has them: first for all together (the camera is never
 * aimed quite as planned, nor zoomed), then for each alone. A face is a patch of its size that may
 * be skin, with little of that beside and above it.
 *
 * <p>What this cannot know: who it is (two people who changed places keep each other's names), and
 * whether a patch of skin colour is a face at all (a hand, a guitar's body). People who stand more
 * than {@link #REACH_METRES} away from their place relative to the others, or turn their backs, are
 * not found, and a look that keeps the faces dark shows none.
 */
final class FaceSearch {
    /** How far from its place among the others a face is looked for. */
    static final double REACH_METRES = 0.22;

    /** How far the picture as a whole may be aimed aside, in shares of its longer side. */
    private static final double AIM_REACH = 0.12;

    private static final double[] SIZES = {0.85, 0.92, 1, 1.08, 1.18};

    /** So much of a face's patch must be of skin's colour. */
    private static final double LEAST_SKIN = 0.6;

    /** And so much more than beside it: a wall of skin's colour is no face. */
    private static final double LEAST_SCORE = 0.35;

    /** What lies beside a face counts against it. */
    private static final double BESIDE = 0.75;

    /** And so does the way from where it should be; for the whole reach. */
    private static final double FAR = 0.35;

    /** Two faces are not nearer to each other than this. */
    private static final double LEAST_APART_METRES = 0.09;

    private final SkinMap skin;
    private final List<FacePlace> places;
    private final double stepX;
    private final double stepY;

    private record Aim(double size, double dx, double dy, double score) {}

    private FaceSearch(SkinMap skin, List<FacePlace> places, int width, int height) {
        this.skin = skin;
        this.places = places;
        stepX = 1.0 / width;
        stepY = 1.0 / height;
    }

    /**
     * One for each place, in their order.
     *
     * @param width fields of the picture that the map was made from
     * @param height likewise
     * @param zoom the lens that was used against the planned one
     */
    static List<Face> find(
            SkinMap skin, List<FacePlace> places, int width, int height, double zoom) {
        return new FaceSearch(skin, places, width, height).find(zoom);
    }

    /**
     * The same in a picture that was made as planned: nothing is aimed aside, so that what is
     * measured is measured at the same spot of each face.
     */
    static List<Face> findAsPlanned(SkinMap skin, List<FacePlace> places, int width, int height) {
        FaceSearch search = new FaceSearch(skin, places, width, height);
        return search.each(new Aim(1, 0, 0, 0));
    }

    private List<Face> find(double zoom) {
        // Zoomed in, or stepped back with a longer lens: both are tried.
        Aim aim = aim(1);
        if (Math.abs(Math.log(zoom)) > 0.05) {
            Aim zoomed = aim(zoom);
            aim = zoomed.score > aim.score ? zoomed : aim;
        }
        return each(aim);
    }

    private List<Face> each(Aim aim) {
        List<Face> faces = new ArrayList<>();
        List<Double> scores = new ArrayList<>();
        for (FacePlace place : places) {
            Box from = moved(place.metre(), aim);
            Face face = near(place, from);
            faces.add(face);
            scores.add(face.found() ? score(face.metre()) : -1);
        }
        for (int i = 0; i < faces.size(); i++) {
            for (int j = 0; j < i; j++) {
                if (faces.get(i).found()
                        && faces.get(j).found()
                        && same(faces.get(i), faces.get(j))) {
                    int weaker = scores.get(i) < scores.get(j) ? i : j;
                    FacePlace place = places.get(weaker);
                    faces.set(weaker, new Face(place, false, moved(place.metre(), aim)));
                }
            }
        }
        return faces;
    }

    private Aim aim(double zoom) {
        Aim best = new Aim(zoom, 0, 0, Double.NEGATIVE_INFINITY);
        double reachX = AIM_REACH * stepX / Math.min(stepX, stepY);
        double reachY = AIM_REACH * stepY / Math.min(stepX, stepY);
        for (double size : SIZES) {
            for (double dx = -reachX; dx <= reachX; dx += 3 * stepX) {
                for (double dy = -reachY; dy <= reachY; dy += 3 * stepY) {
                    double off = Math.hypot(dx / reachX, dy / reachY);
                    Aim aim = new Aim(size * zoom, dx, dy, 0);
                    double score = -0.05 * off * off - 0.1 * Math.abs(Math.log(size));
                    for (FacePlace place : places) {
                        score += Math.max(0, score(moved(place.metre(), aim))) / places.size();
                    }
                    if (score > best.score) {
                        best = new Aim(size * zoom, dx, dy, score);
                    }
                }
            }
        }
        return best;
    }

    private Face near(FacePlace place, Box from) {
        double reachX = REACH_METRES * from.width();
        double reachY = REACH_METRES * from.height();
        Box best = from;
        double most = Double.NEGATIVE_INFINITY;
        for (double dx = -reachX; dx <= reachX; dx += stepX) {
            for (double dy = -reachY; dy <= reachY; dy += stepY) {
                double off = Math.hypot(dx / reachX, dy / reachY);
                Box there =
                        Box.around(
                                from.centreX() + dx,
                                from.centreY() + dy,
                                from.width(),
                                from.height());
                double score = score(there) - FAR * off * off;
                if (score > most) {
                    most = score;
                    best = there;
                }
            }
        }
        Face face = new Face(place, true, best);
        boolean like =
                face.skin().seen() > 0.9
                        && skin.share(face.skin()) >= LEAST_SKIN
                        && score(best) >= LEAST_SCORE;
        return like ? face : new Face(place, false, from);
    }

    private static Box moved(Box metre, Aim aim) {
        return Box.around(
                0.5 + (metre.centreX() - 0.5) * aim.size + aim.dx,
                0.5 + (metre.centreY() - 0.5) * aim.size + aim.dy,
                metre.width() * aim.size,
                metre.height() * aim.size);
    }

    /** Skin in the patch, less that to its left, to its right and above. */
    private double score(Box metre) {
        Box face = metre.times(0.12, 0.16);
        double w = face.width();
        double h = face.height();
        double left = skin.share(new Box(face.x() - 0.5 * w, face.y(), 0.4 * w, h));
        double right = skin.share(new Box(face.x() + 1.1 * w, face.y(), 0.4 * w, h));
        double above = skin.share(new Box(face.x(), face.y() - 0.6 * h, w, 0.4 * h));
        return skin.share(face) - BESIDE * (left + right + above) / 3;
    }

    private static boolean same(Face a, Face b) {
        double dx = (a.metre().centreX() - b.metre().centreX()) / a.metre().width();
        double dy = (a.metre().centreY() - b.metre().centreY()) / a.metre().height();
        return Math.hypot(dx, dy) < LEAST_APART_METRES;
    }
}

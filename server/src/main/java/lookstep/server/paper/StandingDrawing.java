package lookstep.server.paper;

import java.util.List;
import java.util.Locale;
import lookstep.server.paper.FreeSpots.Spot;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.Shot;
import lookstep.simulator.model.scene.Positions;
import lookstep.simulator.model.space.Vec3;

/** How the people of a shot stand, from above, the camera below. */
final class StandingDrawing {
    static final double WIDTH = 158;

    private static final double SHOULDER_METRES = 0.23;
    private static final double MOST_POINTS_PER_METRE = 46;
    private static final double MOST_DEEP = 88;
    private static final double TO_CAMERA = 38;
    private static final double LETTERS = 7.5;
    private static final double LEAST_LETTERS = 6;

    private final List<Vec3> places;
    private final Shot shot;
    private final double scale;
    private final double deepMetres;

    StandingDrawing(Shot shot) {
        this.shot = shot;
        places = Positions.of(shot.arrangement(), shot.people().size());
        double half = places.stream().mapToDouble(p -> Math.abs(p.x())).max().orElse(0);
        deepMetres = places.stream().mapToDouble(Vec3::y).max().orElse(0);
        scale =
                Math.min(
                        MOST_POINTS_PER_METRE,
                        Math.min(
                                (WIDTH - 4) / (2 * (half + SHOULDER_METRES)),
                                MOST_DEEP / (deepMetres + 2 * SHOULDER_METRES)));
    }

    double high() {
        return (deepMetres + 2 * SHOULDER_METRES) * scale + TO_CAMERA;
    }

    /** With its upper left corner there. */
    void draw(Ink ink, Lettering letters, double left, double top) {
        FreeSpots spots = new FreeSpots(new Spot(left, top, WIDTH, high()));
        double middle = left + WIDTH / 2;
        double near = top + (deepMetres + SHOULDER_METRES) * scale;
        double radius = SHOULDER_METRES * scale;
        camera(ink, letters, middle, near + radius);
        List<String> names = ShortNames.of(shot.people());
        for (int i = 0; i < places.size(); i++) {
            double x = middle + places.get(i).x() * scale;
            double y = near - places.get(i).y() * scale;
            ink.disc(x, y, radius, 0.8, 1);
        }
        for (int i = 0; i < places.size(); i++) {
            double x = middle + places.get(i).x() * scale;
            double y = near - places.get(i).y() * scale;
            if (!name(ink, letters, spots, x, y, radius, names.get(i))) {
                name(ink, letters, spots, x, y, radius, String.valueOf(i + 1));
            }
        }
    }

    private static boolean name(
            Ink ink,
            Lettering letters,
            FreeSpots spots,
            double x,
            double y,
            double radius,
            String name) {
        String shown = letters.shown(Face.BOLD, name);
        for (double size = LETTERS; size >= LEAST_LETTERS; size -= 0.5) {
            double width = letters.width(Face.BOLD, size, shown);
            double high = size * 1.17;
            boolean inside = Math.hypot(width / 2, size * 0.36) <= radius;
            if (inside
                    && spots.take(new Spot(x - width / 2 - 0.5, y - high / 2, width + 1, high))) {
                ink.text(Face.BOLD, size, x - width / 2, y + size * 0.36, shown);
                return true;
            }
        }
        return false;
    }

    private void camera(Ink ink, Lettering letters, double x, double near) {
        double lens = near + 20;
        ink.dashed(x, near + 2, x, lens, 0.7, 0.35);
        ink.triangle(x - 6, lens + 12, x + 6, lens + 12, x, lens, 0);
        String distance = PlanWords.number(shot.distanceMetres()) + " m";
        ink.text(Face.PLAIN, 8.5, x + 8, near + 13, distance);
        ink.text(
                Face.PLAIN,
                8.5,
                x + 9,
                lens + 11,
                letters.fitted(
                        Face.PLAIN,
                        8.5,
                        WIDTH / 2 - 10,
                        PlanWords.number(shot.lensMillimetres()) + " mm"));
        if (places.size() > 1) {
            String spacing =
                    String.format(
                            Locale.ROOT,
                            "%s m apart",
                            PlanWords.number(shot.arrangement().spacingMetres()));
            ink.text(
                    Face.PLAIN,
                    8.5,
                    x - 8 - letters.width(Face.PLAIN, 8.5, spacing),
                    near + 13,
                    spacing);
        }
    }
}

package lookstep.simulator.model.scene;

import java.util.ArrayList;
import java.util.List;
import lookstep.simulator.model.space.Vec3;

/**
 * Where people stand in an arrangement: left to right as the camera sees it (rows: front row
 * first), the middle at x = 0, the nearest person at y = 0 and the others behind.
 */
public final class Positions {
    /** Between a wing and the plane of the picture (common practice). */
    public static final double WING_DEGREES = 30;

    private static final double[] LOOSE = {0.45, 0, 0.8, 0.15, 0.65, 0.05, 0.9, 0.3};

    private Positions() {}

    /**
     * One place for each person, z = 0.
     *
     * @throws IllegalArgumentException if the arrangement does not fit that many people
     */
    public static List<Vec3> of(Arrangement arrangement, int people) {
        if (people < 1) {
            throw new IllegalArgumentException("an arrangement needs at least one person");
        }
        double s = arrangement.spacingMetres();
        List<Vec3> places =
                switch (arrangement.kind()) {
                    case SOLO -> {
                        if (people > 1) {
                            throw new IllegalArgumentException(
                                    "solo is for one person, not " + people + "; choose line");
                        }
                        yield List.of(new Vec3(0, 0, 0));
                    }
                    case LINE -> line(people, s, 0);
                    case WEDGE -> wedge(people, s, arrangement.apexNear());
                    case ZIGZAG -> zigzag(people, s);
                    case ROWS -> rows(arrangement, people);
                    case CLUSTER -> cluster(arrangement, people);
                };
        return nearestAtZero(places);
    }

    private static List<Vec3> line(int n, double step, double y) {
        List<Vec3> places = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            places.add(new Vec3((i - (n - 1) / 2.0) * step, y, 0));
        }
        return places;
    }

    /** Steps from the middle: 0 for the one or two in the middle. */
    private static int stepsOut(int i, int n) {
        return (Math.abs(2 * i - (n - 1)) - (n % 2 == 0 ? 1 : 0)) / 2;
    }

    private static List<Vec3> wedge(int n, double s, boolean apexNear) {
        double dx = s * Math.cos(Math.toRadians(WING_DEGREES));
        double dy = s * Math.sin(Math.toRadians(WING_DEGREES));
        int most = stepsOut(0, n);
        List<Vec3> places = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            int steps = stepsOut(i, n);
            double side = Math.signum(2.0 * i - (n - 1));
            double x = side * (steps * dx + (n % 2 == 0 ? s / 2 : 0));
            places.add(new Vec3(x, dy * (apexNear ? steps : most - steps), 0));
        }
        return places;
    }

    /** A W: each wing a zigzag out from the middle, mirrored. */
    private static List<Vec3> zigzag(int n, double s) {
        double dx = s * Math.cos(Math.toRadians(WING_DEGREES));
        double dy = s * Math.sin(Math.toRadians(WING_DEGREES));
        // Long rows get legs of two steps, so that the W keeps its four legs.
        int leg = Math.max(1, (n - 1) / 4);
        boolean middleNear = n == 3;
        List<Vec3> places = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            int phase = stepsOut(i, n) % (2 * leg);
            int fromMiddle = phase <= leg ? phase : 2 * leg - phase;
            double y = dy * (middleNear ? fromMiddle : leg - fromMiddle);
            places.add(new Vec3((i - (n - 1) / 2.0) * dx, y, 0));
        }
        return places;
    }

    private static List<Vec3> rows(Arrangement arrangement, int people) {
        List<Integer> rows = arrangement.rows();
        int sum = rows.stream().mapToInt(Integer::intValue).sum();
        if (sum != people) {
            throw new IllegalArgumentException(
                    "rows " + rows + " hold " + sum + " people, but there are " + people);
        }
        double s = arrangement.spacingMetres();
        List<Vec3> places = new ArrayList<>();
        for (int r = 0; r < rows.size(); r++) {
            // Equal rows are shifted a quarter step each way, so that heads stand in the gaps.
            boolean even =
                    (r > 0 && rows.get(r).equals(rows.get(r - 1)))
                            || (r + 1 < rows.size() && rows.get(r).equals(rows.get(r + 1)));
            double shift = even ? (r % 2 == 0 ? -s / 4 : s / 4) : 0;
            for (Vec3 p : line(rows.get(r), s, r * arrangement.rowMetres())) {
                places.add(new Vec3(p.x() + shift, p.y(), 0));
            }
        }
        return places;
    }

    /** Close together and uneven: three quarters of the spacing, depths from a fixed list. */
    private static List<Vec3> cluster(Arrangement arrangement, int people) {
        double s = arrangement.spacingMetres();
        double depth = arrangement.rowMetres() > 0 ? arrangement.rowMetres() : s;
        List<Vec3> places = new ArrayList<>();
        for (Vec3 p : line(people, 0.75 * s, 0)) {
            places.add(new Vec3(p.x(), depth * LOOSE[places.size() % LOOSE.length], 0));
        }
        return places;
    }

    private static List<Vec3> nearestAtZero(List<Vec3> places) {
        double nearest = places.stream().mapToDouble(Vec3::y).min().orElse(0);
        return places.stream().map(p -> new Vec3(p.x(), p.y() - nearest, 0)).toList();
    }
}

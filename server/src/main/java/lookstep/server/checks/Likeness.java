package lookstep.server.checks;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import lookstep.server.plan.ShootPlan;
import lookstep.server.prediction.Formats;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.Ciede2000;
import lookstep.simulator.model.colour.Lab;
import lookstep.simulator.model.colour.Srgb;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.scene.Finish;
import lookstep.simulator.model.scene.Reflectance;
import lookstep.simulator.model.space.Vec3;

/**
 * How alike the planned pictures are: 1 is the same picture, 0 has nothing in common. The product
 * of three: who is in it, where they are in the format and how large, and how the light looks on
 * grey cards held at the faces (turned to the camera, left, right and up) and on the background, by
 * CIEDE2000. The weights are figures of our own.
 *
 * @param shots ids, in the plan's order
 * @param alike symmetric, in the order of the ids; 1 on the diagonal
 */
public record Likeness(List<String> shots, List<List<Double>> alike) {
    /** From here on two pictures are taken for one (figure of our own). */
    public static final double SAME = 0.8;

    /** A shift of a tenth of the picture is seen as another picture, half and half. */
    private static final double SHIFT = 0.15;

    /** Half a stop in size too: {@code e^-1} at this many doublings. */
    private static final double DOUBLINGS = 0.5;

    /** Cards that differ by this much are another light: {@code e^-1} there. */
    private static final double DIFFERENCE_E = 12;

    private static final Reflectance CARD = Reflectance.grey(0.18);

    public Likeness {
        shots = List.copyOf(shots);
        alike = alike.stream().map(List::copyOf).toList();
    }

    /** Of every shot with every other. */
    public static Likeness of(ShootPlan plan) {
        return ofLooks(plan.shots().stream().map(s -> Appearance.of(Staged.of(plan, s))).toList());
    }

    static Likeness ofLooks(List<Appearance> all) {
        List<List<Double>> rows = new ArrayList<>();
        for (Appearance a : all) {
            List<Double> row = new ArrayList<>();
            for (Appearance b : all) {
                row.add(a.shot().equals(b.shot()) ? 1.0 : between(a, b));
            }
            rows.add(row);
        }
        return new Likeness(all.stream().map(Appearance::shot).toList(), rows);
    }

    /**
     * How alike two shots are, 0..1.
     *
     * @throws IllegalArgumentException if a shot is not one of these
     */
    public double of(String one, String other) {
        int i = shots.indexOf(one);
        int j = shots.indexOf(other);
        if (i < 0 || j < 0) {
            throw new IllegalArgumentException(
                    "no likeness of '" + one + "' and '" + other + "': the shots are " + shots);
        }
        return alike.get(i).get(j);
    }

    /** What a shot looks like, in few figures. */
    record Appearance(String shot, double format, Map<String, Vec3> places, List<Lab> cards) {
        static Appearance of(Staged s) {
            Frame frame = Frame.of(s);
            Map<String, Vec3> places = new LinkedHashMap<>();
            Vec3 sum = new Vec3(0, 0, 0);
            List<Figure> figures = s.scene().figures();
            for (int i = 0; i < figures.size(); i++) {
                Figure f = figures.get(i);
                double size =
                        Math.abs(frame.y(f.face()) - frame.y(f.face().minus(new Vec3(0, 0, 0.2))));
                places.put(s.name(i), new Vec3(frame.x(f.face()) / 2, frame.y(f.face()) / 2, size));
                sum = sum.plus(f.face());
            }
            Vec3 middle = sum.times(1.0 / figures.size());
            SeenLight light = new SeenLight(s);
            Vec3 d = middle.minus(frame.eye()).unit();
            List<Lab> cards = new ArrayList<>();
            for (Vec3 n :
                    List.of(
                            new Vec3(0, -1, 0),
                            new Vec3(-1, 0, 0),
                            new Vec3(1, 0, 0),
                            new Vec3(0, 0, 1))) {
                // A hand's breadth out, so that the head is not in the way of its own card.
                Vec3 p = middle.plus(n.times(0.15));
                cards.add(lab(light.colour(p, n, d, Finish.MATT, CARD, -1)));
            }
            Vec3 back = new Vec3(middle.x(), s.scene().room().backgroundMetres(), middle.z());
            cards.add(lab(light.background(back, d)));
            return new Appearance(s.shot().id(), Formats.aspect(s.shot().framing()), places, cards);
        }

        private static Lab lab(double[] rgb) {
            double[] c = new double[3];
            for (int i = 0; i < 3; i++) {
                c[i] = Math.min(1, Math.max(0, rgb[i]));
            }
            return Lab.of(Srgb.toXyz(c[0], c[1], c[2]), Chromaticity.D65);
        }
    }

    private static double between(Appearance a, Appearance b) {
        List<String> both = a.places().keySet().stream().filter(b.places()::containsKey).toList();
        if (both.isEmpty()) {
            return 0;
        }
        double any = (double) a.places().size() + b.places().size() - both.size();
        double shift = 0;
        double size = 0;
        for (String who : both) {
            Vec3 p = a.places().get(who);
            Vec3 q = b.places().get(who);
            shift += Math.hypot(p.x() - q.x(), p.y() - q.y()) / both.size();
            size += Math.abs(Words.log2(p.z() / q.z())) / both.size();
        }
        double format = Math.abs(Words.log2(a.format() / b.format()));
        double light = 0;
        for (int i = 0; i < a.cards().size(); i++) {
            light += Ciede2000.difference(a.cards().get(i), b.cards().get(i)) / a.cards().size();
        }
        return both.size()
                / any
                * Math.exp(-shift / SHIFT - (size + format / 2) / DOUBLINGS - light / DIFFERENCE_E);
    }
}

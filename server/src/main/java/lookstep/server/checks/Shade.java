package lookstep.server.checks;

import java.util.ArrayList;
import java.util.List;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.space.Vec3;

/** People as upright rods with round ends, to stand in the way of light and of looks. */
final class Shade {
    /** Legs, trunk, head: from, to, radius, in shares of the height. */
    private static final double[][] RODS = {
        {0.05, 0.45, 0.07}, {0.48, 0.78, 0.095}, {0.90, 0.94, 0.055}
    };

    private record Rod(int figure, double x, double y, double low, double high, double radius) {}

    private final List<Rod> rods = new ArrayList<>();

    Shade(List<Figure> figures) {
        for (int i = 0; i < figures.size(); i++) {
            Figure f = figures.get(i);
            for (double[] r : RODS) {
                rods.add(
                        new Rod(
                                i,
                                f.feet().x(),
                                f.feet().y(),
                                r[0] * f.heightMetres(),
                                r[1] * f.heightMetres(),
                                r[2] * f.heightMetres()));
            }
        }
    }

    /**
     * Share 0..1 of a lamp that is seen.
     *
     * @param l unit direction to it
     * @param size its diameter
     * @param self whose skin the point is on; -1 for nobody's
     */
    double visible(Vec3 p, Vec3 l, double distance, double size, int self) {
        double share = 1;
        for (Rod rod : rods) {
            double[] near = nearest(rod, p, l, distance);
            if (rod.figure() == self && clear(rod, p) < 0.06) {
                continue;
            }
            double width = Math.max(0.006, size / 2 / distance) * Math.max(0.05, near[1]);
            double c = Math.max(-1, Math.min(1, near[0] / width));
            share *= 0.25 * (1 + c) * (1 + c) * (2 - c);
        }
        return share;
    }

    /** The nearest person that a look along {@code d} meets beyond a distance; -1 for nobody. */
    int met(Vec3 from, Vec3 d, double beyond, int self) {
        int who = -1;
        double least = Double.POSITIVE_INFINITY;
        for (Rod rod : rods) {
            if (rod.figure() == self) {
                continue;
            }
            double[] near = nearest(rod, from, d, 50);
            if (near[0] < 0 && near[1] > beyond && near[1] < least) {
                least = near[1];
                who = rod.figure();
            }
        }
        return who;
    }

    private static double clear(Rod rod, Vec3 p) {
        double z = Math.max(rod.low(), Math.min(rod.high(), p.z()));
        return p.minus(new Vec3(rod.x(), rod.y(), z)).length() - rod.radius();
    }

    /** Least clearance of a rod along a ray, and how far along. */
    private static double[] nearest(Rod rod, Vec3 p, Vec3 d, double most) {
        // Two lines: the ray, and the upright axis through the rod.
        double ox = p.x() - rod.x();
        double oy = p.y() - rod.y();
        double flat = d.x() * d.x() + d.y() * d.y();
        double t = flat < 1e-9 ? 0 : -(ox * d.x() + oy * d.y()) / flat;
        t = Math.max(0, Math.min(most, t));
        double z = p.z() + t * d.z();
        if (z < rod.low() || z > rod.high()) {
            Vec3 end = new Vec3(rod.x(), rod.y(), z < rod.low() ? rod.low() : rod.high());
            t = Math.max(0, Math.min(most, end.minus(p).dot(d)));
            z = p.z() + t * d.z();
        }
        Vec3 at = p.plus(d.times(t));
        Vec3 axis = new Vec3(rod.x(), rod.y(), Math.max(rod.low(), Math.min(rod.high(), z)));
        return new double[] {at.minus(axis).length() - rod.radius(), t};
    }
}

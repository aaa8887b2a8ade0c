package lookstep.simulator.model.picture;

import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.space.Vec3;

/** A body where it stands: what a ray hits of it and how much light it lets by. */
final class StandIn {
    private static final int STEPS = 96;

    /** How far beside a body its soft shadow is looked for. */
    private static final double PENUMBRA = 0.08;

    final Body body;
    private final DistanceGrid grid;
    private final double radius;
    private final double feetX;
    private final double feetY;
    private final double feetZ;

    StandIn(Figure figure) {
        body = new Body(figure);
        grid = new DistanceGrid(body);
        double[] box = grid.tight;
        radius = Math.hypot(Math.max(-box[0], box[3]), Math.max(-box[1], box[4]));
        feetX = figure.feet().x();
        feetY = figure.feet().y();
        feetZ = figure.feet().z();
    }

    /** A point of the set in the body's coordinates. */
    Vec3 local(double x, double y, double z) {
        double px = x - feetX;
        double py = y - feetY;
        return new Vec3(body.localX(px, py), body.localY(px, py), z - feetZ);
    }

    /**
     * Where a ray meets the body.
     *
     * @param d unit direction
     * @return distance along the ray, or infinity if it passes by or the body is beyond {@code
     *     most}
     */
    double trace(Vec3 o, Vec3 d, double most) {
        if (passes(o.x(), o.y(), d, 0)) {
            return Double.POSITIVE_INFINITY;
        }
        double ox = body.localX(o.x() - feetX, o.y() - feetY);
        double oy = body.localY(o.x() - feetX, o.y() - feetY);
        double oz = o.z() - feetZ;
        double dx = body.localX(d.x(), d.y());
        double dy = body.localY(d.x(), d.y());
        double dz = d.z();
        double from = enter(ox, oy, oz, dx, dy, dz, 0, most, 0);
        double to = leave;
        if (from > to) {
            return Double.POSITIVE_INFINITY;
        }
        double t = from + 1e-4;
        for (int i = 0; i < STEPS && t < to; i++) {
            double h = grid.distance(ox + t * dx, oy + t * dy, oz + t * dz);
            if (h < 0.008) {
                // Near: ask the body itself, and go on if the ray only grazes it.
                double e = body.distance(ox + t * dx, oy + t * dy, oz + t * dz);
                if (e < 8e-4) {
                    return t + e;
                }
                t += Math.max(8e-4, e * 0.92);
            } else {
                t += h * 0.9;
            }
        }
        return Double.POSITIVE_INFINITY;
    }

    /**
     * Share 0..1 of a round lamp that is seen past this body. The least clearance along the ray,
     * against the width of the lamp's cone there, tells how much of the lamp is covered, as for a
     * straight edge across the disc.
     *
     * @param x where the light arrives, with y and z
     * @param d unit direction to the middle of the lamp
     * @param start how far from the surface to begin
     * @param distance to the lamp
     * @param spread radius of the lamp over its distance
     */
    double visible(
            double x, double y, double z, Vec3 d, double start, double distance, double spread) {
        if (passes(x, y, d, PENUMBRA)) {
            return 1;
        }
        double ox = body.localX(x - feetX, y - feetY);
        double oy = body.localY(x - feetX, y - feetY);
        double oz = z - feetZ;
        double dx = body.localX(d.x(), d.y());
        double dy = body.localY(d.x(), d.y());
        double dz = d.z();
        double from = enter(ox, oy, oz, dx, dy, dz, start, distance, PENUMBRA);
        double to = leave;
        if (from > to) {
            return 1;
        }
        double least = 1;
        double t = from;
        for (int i = 0; i < STEPS && t < to; i++) {
            double h = grid.distance(ox + t * dx, oy + t * dy, oz + t * dz);
            least = Math.min(least, h / (spread * t));
            if (least < -1) {
                return 0;
            }
            t += Math.max(0.02, Math.min(Math.abs(h), 0.3));
        }
        // Share of a disc on one side of a chord, by a cubic that is within 2 % of it.
        double c = Math.max(-1, least);
        return 0.25 * (1 + c) * (1 + c) * (2 - c);
    }

    /** True if a ray, seen from above, goes by the upright cylinder around the body. */
    private boolean passes(double x, double y, Vec3 d, double margin) {
        double px = feetX - x;
        double py = feetY - y;
        double reach = radius + margin;
        double cross = px * d.y() - py * d.x();
        double square = d.x() * d.x() + d.y() * d.y();
        if (cross * cross > reach * reach * square) {
            return true;
        }
        return px * d.x() + py * d.y() < 0 && px * px + py * py > reach * reach;
    }

    /** Distance from a point of the set to the body, at most {@code most}. */
    double clearance(double x, double y, double z, double most) {
        double px = body.localX(x - feetX, y - feetY);
        double py = body.localY(x - feetX, y - feetY);
        double pz = z - feetZ;
        return grid.contains(px, py, pz) ? Math.min(most, grid.distance(px, py, pz)) : most;
    }

    // Second result of enter; a renderer is used by one thread.
    private double leave;

    private double enter(
            double ox,
            double oy,
            double oz,
            double dx,
            double dy,
            double dz,
            double a,
            double b,
            double margin) {
        double from = a;
        double to = b;
        double ix = 1 / dx;
        double t1 = (grid.tight[0] - margin - ox) * ix;
        double t2 = (grid.tight[3] + margin - ox) * ix;
        from = Math.max(from, Math.min(t1, t2));
        to = Math.min(to, Math.max(t1, t2));
        double iy = 1 / dy;
        t1 = (grid.tight[1] - margin - oy) * iy;
        t2 = (grid.tight[4] + margin - oy) * iy;
        from = Math.max(from, Math.min(t1, t2));
        to = Math.min(to, Math.max(t1, t2));
        double iz = 1 / dz;
        t1 = (grid.tight[2] - margin - oz) * iz;
        t2 = (grid.tight[5] + margin - oz) * iz;
        from = Math.max(from, Math.min(t1, t2));
        to = Math.min(to, Math.max(t1, t2));
        leave = to;
        return from;
    }
}

package lookstep.simulator.model.picture;

import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.space.Vec3;

/** A body where it stands: what a ray hits of it and how much light it lets by. */
final class StandIn {
    private static final int STEPS = 96;

    /** A ray this near to the surface has met it, metres. */
    private static final double CLOSE = 1e-3;

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
        double lastT = t;
        double last = Double.NaN;
        for (int i = 0; i < STEPS && t < to; i++) {
            double rough = grid.atLeast(ox + t * dx, oy + t * dy, oz + t * dz);
            if (rough > 0.02) {
                t += rough;
                continue;
            }
            double h = grid.distance(ox + t * dx, oy + t * dy, oz + t * dz);
            if (h > 0.008) {
                t += h * 0.9;
                last = Double.NaN;
                continue;
            }
            // Near: ask the body itself, and go on if the ray only grazes it.
            double e = body.distance(ox + t * dx, oy + t * dy, oz + t * dz);
            if (e < -CLOSE && last > 0) {
                // A step too far: the surface lies between the two.
                return lastT + (t - lastT) * last / (last - e);
            }
            if (e < CLOSE) {
                return t + e;
            }
            // The second step knows how steeply the ray comes in.
            double slope = (last - e) / (t - lastT);
            lastT = t;
            last = e;
            t += slope > 0.4 && slope < 1 ? e / slope : Math.max(CLOSE, e * 0.95);
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
            double rough = grid.atLeast(ox + t * dx, oy + t * dy, oz + t * dz);
            if (rough > 0.03 && rough > spread * t) {
                // Clear of the lamp's cone here.
                t += rough;
                continue;
            }
            double h = grid.distance(ox + t * dx, oy + t * dy, oz + t * dz);
            double width = spread * t;
            if (h < least * width) {
                least = h / width;
                if (least < -1) {
                    return 0;
                }
            }
            double step = h < 0 ? -h : h;
            t += step < 0.02 ? 0.02 : step;
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
        for (int axis = 0; axis < 3; axis++) {
            double o = axis == 0 ? ox : axis == 1 ? oy : oz;
            double d = axis == 0 ? dx : axis == 1 ? dy : dz;
            double t1 = (grid.tight[axis] - margin - o) / d;
            double t2 = (grid.tight[axis + 3] + margin - o) / d;
            double near = t1 < t2 ? t1 : t2;
            double far = t1 < t2 ? t2 : t1;
            from = from < near ? near : from;
            to = to > far ? far : to;
        }
        leave = to;
        return from;
    }
}

package lookstep.simulator.model.picture;

import java.util.Arrays;

/**
 * Ellipsoids and limbs grown together, given by a signed distance: negative inside. Numbers lie in
 * flat arrays because a picture asks for this distance tens of millions of times.
 */
final class Solid {
    /** Beyond this, a lower bound does: more than any rounding between neighbours. */
    static final double NEAR = 0.06;

    static final double FAR = 0.3;

    private static final int LIMB = 9;
    private static final int ELLIPSOID = 6;

    private final double round;
    private double[] limbs = {};
    private double[] ellipsoids = {};
    private double minX = Double.MAX_VALUE;
    private double minY = Double.MAX_VALUE;
    private double minZ = Double.MAX_VALUE;
    private double maxX = -Double.MAX_VALUE;
    private double maxY = -Double.MAX_VALUE;
    private double maxZ = -Double.MAX_VALUE;

    /**
     * @param round over how many metres neighbours melt together
     */
    Solid(double round) {
        this.round = round;
    }

    private void include(double x, double y, double z, double rx, double ry, double rz) {
        minX = Math.min(minX, x - rx);
        minY = Math.min(minY, y - ry);
        minZ = Math.min(minZ, z - rz);
        maxX = Math.max(maxX, x + rx);
        maxY = Math.max(maxY, y + ry);
        maxZ = Math.max(maxZ, z + rz);
    }

    /** Two balls of radii {@code ra} and {@code rb}, and what lies between them. */
    void limb(
            double ax,
            double ay,
            double az,
            double ra,
            double bx,
            double by,
            double bz,
            double rb) {
        double dx = bx - ax;
        double dy = by - ay;
        double dz = bz - az;
        double perSquare = 1 / (dx * dx + dy * dy + dz * dz);
        include(ax, ay, az, ra, ra, ra);
        include(bx, by, bz, rb, rb, rb);
        limbs = append(limbs, ax, ay, az, ra, dx, dy, dz, rb - ra, perSquare);
    }

    /** A stretched ball. */
    void ellipsoid(double cx, double cy, double cz, double rx, double ry, double rz) {
        include(cx, cy, cz, rx, ry, rz);
        ellipsoids = append(ellipsoids, cx, cy, cz, rx, ry, rz);
    }

    /** Signed distance; further than {@link #NEAR} only a lower bound of it. */
    double distance(double x, double y, double z) {
        double away = outside(minX - x, x - maxX);
        away = outside(away, outside(minY - y, y - maxY));
        away = outside(away, outside(minZ - z, z - maxZ));
        if (away > NEAR) {
            // Nothing here grows out to a neighbour from so far; an empty solid is far from all.
            return Math.min(away, FAR);
        }
        double d = Double.MAX_VALUE;
        double[] l = limbs;
        for (int i = 0; i + LIMB <= l.length; i += LIMB) {
            double px = x - l[i];
            double py = y - l[i + 1];
            double pz = z - l[i + 2];
            double t = (px * l[i + 4] + py * l[i + 5] + pz * l[i + 6]) * l[i + 8];
            t = t < 0 ? 0 : t > 1 ? 1 : t;
            px -= t * l[i + 4];
            py -= t * l[i + 5];
            pz -= t * l[i + 6];
            double e = Math.sqrt(px * px + py * py + pz * pz) - l[i + 3] - t * l[i + 7];
            d = join(d, e, round);
        }
        double[] b = ellipsoids;
        for (int i = 0; i + ELLIPSOID <= b.length; i += ELLIPSOID) {
            double e = ellipsoid(x, y, z, b[i], b[i + 1], b[i + 2], b[i + 3], b[i + 4], b[i + 5]);
            d = join(d, e, round);
        }
        return d;
    }

    private static double outside(double a, double b) {
        return a > b ? a : b;
    }

    /** Distance to one stretched ball: exact at its surface, close to it elsewhere. */
    static double ellipsoid(
            double x,
            double y,
            double z,
            double cx,
            double cy,
            double cz,
            double rx,
            double ry,
            double rz) {
        double px = (x - cx) / rx;
        double py = (y - cy) / ry;
        double pz = (z - cz) / rz;
        double k0 = Math.sqrt(px * px + py * py + pz * pz);
        px /= rx;
        py /= ry;
        pz /= rz;
        double k1 = Math.sqrt(px * px + py * py + pz * pz);
        return k1 < 1e-9 ? -Math.min(rx, Math.min(ry, rz)) : k0 * (k0 - 1) / k1;
    }

    static double ball(double x, double y, double z, double cx, double cy, double cz, double r) {
        return Math.sqrt((x - cx) * (x - cx) + (y - cy) * (y - cy) + (z - cz) * (z - cz)) - r;
    }

    /** The lesser of two distances, rounded over {@code k} metres where they meet. */
    static double join(double a, double b, double k) {
        // Plain comparisons: Math.min minds NaN and signed zero, which costs a tenth of a picture.
        double least = a < b ? a : b;
        double h = k - (a < b ? b - a : a - b);
        return h <= 0 ? least : least - h * h / (4 * k);
    }

    /** The greater of two distances, rounded over {@code k} metres where they meet. */
    static double meet(double a, double b, double k) {
        double most = a > b ? a : b;
        double h = k - (a < b ? b - a : a - b);
        return h <= 0 ? most : most + h * h / (4 * k);
    }

    private static double[] append(double[] to, double... more) {
        double[] r = Arrays.copyOf(to, to.length + more.length);
        System.arraycopy(more, 0, r, to.length, more.length);
        return r;
    }
}

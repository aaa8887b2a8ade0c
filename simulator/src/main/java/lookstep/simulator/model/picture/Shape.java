package lookstep.simulator.model.picture;

/** A solid given by its signed distance: negative inside, metres. */
sealed interface Shape {
    double distance(double x, double y, double z);

    /** Stretched sphere; the distance is a close lower estimate away from the surface. */
    record Ellipsoid(double cx, double cy, double cz, double rx, double ry, double rz)
            implements Shape {
        @Override
        public double distance(double x, double y, double z) {
            double px = (x - cx) / rx;
            double py = (y - cy) / ry;
            double pz = (z - cz) / rz;
            double k0 = Math.sqrt(px * px + py * py + pz * pz);
            if (k0 < 1e-6) {
                return -Math.min(rx, Math.min(ry, rz));
            }
            px /= rx;
            py /= ry;
            pz /= rz;
            double k1 = Math.sqrt(px * px + py * py + pz * pz);
            return k0 * (k0 - 1) / k1;
        }
    }

    /** A limb: two balls and what lies between them. */
    record Limb(
            double ax, double ay, double az, double ra, double bx, double by, double bz, double rb)
            implements Shape {
        @Override
        public double distance(double x, double y, double z) {
            double dx = bx - ax;
            double dy = by - ay;
            double dz = bz - az;
            double px = x - ax;
            double py = y - ay;
            double pz = z - az;
            double t = (px * dx + py * dy + pz * dz) / (dx * dx + dy * dy + dz * dz);
            t = t < 0 ? 0 : t > 1 ? 1 : t;
            px -= t * dx;
            py -= t * dy;
            pz -= t * dz;
            return Math.sqrt(px * px + py * py + pz * pz) - (ra + t * (rb - ra));
        }
    }

    /** The lesser of two distances, rounded over {@code k} metres where they meet. */
    static double join(double a, double b, double k) {
        double h = k - Math.abs(a - b);
        return h <= 0 ? Math.min(a, b) : Math.min(a, b) - h * h / (4 * k);
    }

    /** The greater of two distances, rounded over {@code k} metres where they meet. */
    static double meet(double a, double b, double k) {
        double h = k - Math.abs(a - b);
        return h <= 0 ? Math.max(a, b) : Math.max(a, b) + h * h / (4 * k);
    }
}

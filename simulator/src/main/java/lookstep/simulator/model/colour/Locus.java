package lookstep.simulator.model.colour;

/**
 * The Planckian locus in CIE 1960 uv, fast: between points 5 mired apart it is a cubic with the
 * true slope at both ends, which differs from the sum over the spectrum by less than 1e-8.
 */
final class Locus {
    /** Least mired: the hottest black body that is taken. */
    static final double LOW = Mired.of(Planck.MAX_KELVIN);

    /** Most mired: the coolest. */
    static final double HIGH = Mired.of(Planck.MIN_KELVIN);

    private static final int STEPS = 192;
    private static final double STEP = (HIGH - LOW) / STEPS;
    private static final double[][] NODES = nodes();

    private Locus() {}

    /**
     * Where the locus is, and how it goes on.
     *
     * @param du slope of u for each mired; towards red
     * @param bendU how the slope changes for each mired
     */
    record Point(double u, double v, double du, double dv, double bendU, double bendV) {}

    /** The point of a mired value, taken into {@link #LOW} to {@link #HIGH}. */
    static Point at(double mired) {
        double place = Math.min(STEPS, Math.max(0, (mired - LOW) / STEP));
        int i = Math.min(STEPS - 1, (int) place);
        double t = place - i;
        double[] p = NODES[i];
        double[] q = NODES[i + 1];
        double[] r = new double[6];
        for (int k = 0; k < 2; k++) {
            double from = p[k];
            double rise = q[k] - from;
            double m0 = p[k + 2] * STEP;
            double m1 = q[k + 2] * STEP;
            double c = 3 * rise - 2 * m0 - m1;
            double d = m0 + m1 - 2 * rise;
            r[k] = from + t * (m0 + t * (c + t * d));
            r[k + 2] = (m0 + t * (2 * c + t * 3 * d)) / STEP;
            r[k + 4] = (2 * c + t * 6 * d) / (STEP * STEP);
        }
        return new Point(r[0], r[1], r[2], r[3], r[4], r[5]);
    }

    /** The mired value of the point nearest to a colour; an end if that is the nearest. */
    static double nearest(double u, double v) {
        int best = 0;
        for (int i = 1; i <= STEPS; i++) {
            if (square(NODES[i], u, v) < square(NODES[best], u, v)) {
                best = i;
            }
        }
        // Where the line to the point stands square on the locus, the distance has its minimum:
        // Newton on that, kept between the neighbours.
        double lo = LOW + STEP * Math.max(0, best - 1);
        double hi = LOW + STEP * Math.min(STEPS, best + 1);
        double mired = LOW + STEP * best;
        for (int turn = 0; turn < 60 && hi - lo > 1e-9; turn++) {
            Point p = at(mired);
            double along = (p.u() - u) * p.du() + (p.v() - v) * p.dv();
            double bend =
                    p.du() * p.du()
                            + p.dv() * p.dv()
                            + (p.u() - u) * p.bendU()
                            + (p.v() - v) * p.bendV();
            if (along > 0) {
                hi = mired;
            } else {
                lo = mired;
            }
            double next = mired - along / bend;
            if (!(next > lo && next < hi)) {
                next = (lo + hi) / 2;
            }
            if (Math.abs(next - mired) < 1e-9) {
                return next;
            }
            mired = next;
        }
        return mired;
    }

    private static double square(double[] p, double u, double v) {
        return (p[0] - u) * (p[0] - u) + (p[1] - v) * (p[1] - v);
    }

    /** u, v and their slopes for each mired, from the spectra. */
    private static double[][] nodes() {
        double[][] nodes = new double[STEPS + 1][];
        for (int i = 0; i <= STEPS; i++) {
            double mired = LOW + STEP * i;
            Xyz c = Cie1931.of(nm -> Math.pow(560 / nm, 5) / Math.expm1(rate(nm) * mired));
            Xyz slope =
                    Cie1931.of(
                            nm -> {
                                double more = Math.expm1(rate(nm) * mired);
                                return -Math.pow(560 / nm, 5) * rate(nm) * (more + 1) / more / more;
                            });
            double down = c.x() + 15 * c.y() + 3 * c.z();
            double downSlope = slope.x() + 15 * slope.y() + 3 * slope.z();
            double u = 4 * c.x() / down;
            double v = 6 * c.y() / down;
            nodes[i] =
                    new double[] {
                        u,
                        v,
                        (4 * slope.x() - u * downSlope) / down,
                        (6 * slope.y() - v * downSlope) / down
                    };
        }
        return nodes;
    }

    /** What stands before the mired value in Planck's exponent. */
    private static double rate(double nanometres) {
        return Planck.C2 / (nanometres * 1e-9) * 1e-6;
    }
}

package lookstep.simulator.model.colour;

/**
 * Correlated colour temperature and how far off the Planckian locus a chromaticity lies.
 *
 * @param kelvin temperature of the nearest point of the locus in CIE 1960 uv, within 1000..25000
 * @param duv distance to it in CIE 1960 uv; positive is above the locus (greenish), negative below
 *     (pinkish). Beyond 0.05 the temperature says little (CIE 15:2004, from memory)
 */
public record ColourTemperature(double kelvin, double duv) {
    private static final int STEPS = 192;
    private static final double LOW = Mired.of(Planck.MAX_KELVIN);
    private static final double HIGH = Mired.of(Planck.MIN_KELVIN);
    private static final double[][] LOCUS = locus();

    /** The nearest point of the locus; one of its ends if that is the nearest. */
    public static ColourTemperature of(Chromaticity c) {
        double u = c.u();
        double v = c.v();
        int best = 0;
        for (int i = 1; i <= STEPS; i++) {
            if (square(LOCUS[i], u, v) < square(LOCUS[best], u, v)) {
                best = i;
            }
        }
        // Between the neighbours the distance has one minimum: golden section.
        double lo = mired(Math.max(0, best - 1));
        double hi = mired(Math.min(STEPS, best + 1));
        double g = (Math.sqrt(5) - 1) / 2;
        double a = hi - g * (hi - lo);
        double b = lo + g * (hi - lo);
        double fa = square(at(a), u, v);
        double fb = square(at(b), u, v);
        while (hi - lo > 1e-5) {
            if (fa < fb) {
                hi = b;
                b = a;
                fb = fa;
                a = hi - g * (hi - lo);
                fa = square(at(a), u, v);
            } else {
                lo = a;
                a = b;
                fa = fb;
                b = lo + g * (hi - lo);
                fb = square(at(b), u, v);
            }
        }
        double mired = (lo + hi) / 2;
        double[] p = at(mired);
        double distance = Math.sqrt(square(p, u, v));
        // The locus runs from blue at the low-v end to red; above it is the side of greater v.
        return new ColourTemperature(Mired.kelvin(mired), v >= p[1] ? distance : -distance);
    }

    private static double mired(int i) {
        return LOW + (HIGH - LOW) * i / STEPS;
    }

    private static double[] at(double mired) {
        double kelvin = Mired.kelvin(mired);
        Chromaticity c =
                Planck.chromaticity(
                        Math.min(Planck.MAX_KELVIN, Math.max(Planck.MIN_KELVIN, kelvin)));
        return new double[] {c.u(), c.v()};
    }

    private static double square(double[] p, double u, double v) {
        return (p[0] - u) * (p[0] - u) + (p[1] - v) * (p[1] - v);
    }

    private static double[][] locus() {
        double[][] points = new double[STEPS + 1][];
        for (int i = 0; i <= STEPS; i++) {
            points[i] = at(mired(i));
        }
        return points;
    }
}

package lookstep.simulator.model.colour;

/**
 * CIE 1976 L*a*b* (CIE 15:2004).
 *
 * @param lightness L*, 0..100
 * @param a green to red
 * @param b blue to yellow
 */
public record Lab(double lightness, double a, double b) {
    /** A colour seen beside a white of the given chromaticity whose Y is 1. */
    public static Lab of(Xyz c, Chromaticity white) {
        Xyz w = white.toXyz(1);
        double fx = f(c.x() / w.x());
        double fy = f(c.y() / w.y());
        double fz = f(c.z() / w.z());
        return new Lab(116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz));
    }

    private static double f(double t) {
        double d = 6.0 / 29;
        return t > d * d * d ? Math.cbrt(t) : t / (3 * d * d) + 4.0 / 29;
    }
}

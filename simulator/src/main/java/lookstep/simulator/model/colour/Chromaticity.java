package lookstep.simulator.model.colour;

/**
 * CIE 1931 chromaticity.
 *
 * @param x 0..1
 * @param y above 0, at most 1
 */
public record Chromaticity(double x, double y) {
    /** CIE standard illuminant D65, the white of sRGB (IEC 61966-2-1). */
    public static final Chromaticity D65 = new Chromaticity(0.3127, 0.3290);

    public Chromaticity {
        if (!(y > 0) || !Double.isFinite(x) || !Double.isFinite(y)) {
            throw new IllegalArgumentException(
                    "chromaticity (" + x + ", " + y + "): y must be above 0");
        }
    }

    /** Tristimulus values of this chromaticity with the given {@code Y}. */
    public Xyz toXyz(double luminance) {
        return new Xyz(luminance * x / y, luminance, luminance * (1 - x - y) / y);
    }

    /** CIE 1960 u, the diagram in which colour temperature is defined. */
    public double u() {
        return 4 * x / (-2 * x + 12 * y + 3);
    }

    /** CIE 1960 v. */
    public double v() {
        return 6 * y / (-2 * x + 12 * y + 3);
    }

    /** CIE 1976 u', the same as {@link #u()}. */
    public double uPrime() {
        return u();
    }

    /** CIE 1976 v', one and a half times {@link #v()}. */
    public double vPrime() {
        return 1.5 * v();
    }

    /** Distance in the CIE 1976 u'v' diagram. */
    public double distanceUvPrime(Chromaticity o) {
        return Math.hypot(uPrime() - o.uPrime(), vPrime() - o.vPrime());
    }

    /** From CIE 1960 coordinates. */
    public static Chromaticity ofUv1960(double u, double v) {
        double d = 2 * u - 8 * v + 4;
        return new Chromaticity(3 * u / d, 2 * v / d);
    }
}

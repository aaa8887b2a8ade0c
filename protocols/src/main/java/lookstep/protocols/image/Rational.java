package lookstep.protocols.image;

/**
 * An unsigned fraction as Exif stores it.
 *
 * @param numerator 0..2^32-1
 * @param denominator 0..2^32-1
 */
record Rational(long numerator, long denominator) {
    /** By Exif's rule for distances. */
    static final Rational INFINITE = new Rational(0xFFFFFFFFL, 1);

    private static final long MOST = 0xFFFFFFFEL;
    private static final double CLOSE = 1e-9;

    /** The simplest fraction within a billionth of a value above 0: 0.008 gives 1/125. */
    static Rational nearest(double value) {
        // continued fraction: p/q are its successive convergents
        double rest = value;
        long p = 1;
        long q = 0;
        long pBefore = 0;
        long qBefore = 1;
        while (true) {
            double floor = Math.floor(rest);
            double pNext = floor * p + pBefore;
            double qNext = floor * q + qBefore;
            if (pNext > MOST || qNext > MOST) {
                break;
            }
            pBefore = p;
            qBefore = q;
            p = (long) pNext;
            q = (long) qNext;
            double part = rest - floor;
            if (part < CLOSE || Math.abs((double) p / q - value) <= value * CLOSE) {
                break;
            }
            rest = 1 / part;
        }
        // too large or too small to hold: the nearest that can be
        if (q == 0) {
            return new Rational(MOST, 1);
        }
        return p == 0 ? new Rational(1, MOST) : new Rational(p, q);
    }
}

package lookstep.simulator.model.colour;

import java.util.List;

/**
 * The most light of one chromaticity that a set of emitters can give.
 *
 * <p>Why it is exact: with levels l between 0 and 1, having the chromaticity of the target (X', Y',
 * Z') is two linear conditions, sum l (X Y' - Y X') = 0 and sum l (Z Y' - Y Z') = 0, and the output
 * sum l Y is linear too. A linear function over a bounded polytope has its maximum at a vertex, and
 * at a vertex the columns of the levels that are neither 0 nor 1 are linearly independent, so there
 * are at most two of them. All vertices are tried: every choice of none, one or two free levels
 * with every 0 or 1 for the others.
 *
 * <p>If the target lies outside of what the emitters enclose, the nearest chromaticity on the edge
 * in CIE 1976 u'v' is used. Two emitters enclose only the straight line between them, which sags
 * below the Planckian locus; a wanted white then means the mix with the same correlated colour
 * temperature: the line is cut with the isotherm of the target (the perpendicular to the locus in
 * CIE 1960 uv), which is exact by the definition of that temperature. Targets further than 0.05 uv
 * from the locus have no useful temperature and take the nearest point instead.
 */
public final class Mixing {
    /**
     * Closer than this in u'v' counts as reached: wide enough for the sag of a 2700 to 6500 K
     * bi-colour light (0.0064 in 1960 uv, at most 0.0096 in u'v').
     */
    public static final double REACHED_UV = 0.01;

    /** More emitters than a fixture has; the work doubles with each. */
    public static final int MAX_EMITTERS = 10;

    private static final double TINY = 1e-9;

    private Mixing() {}

    /**
     * Levels for the most output at the wanted chromaticity, or at the nearest that can be reached.
     *
     * @param emitters each at full; Y in candela, above 0; 1 to 10 of them
     * @throws IllegalArgumentException for no or too many emitters, or one without light
     */
    public static Mix maximum(List<Xyz> emitters, Chromaticity target) {
        int n = emitters.size();
        if (n < 1 || n > MAX_EMITTERS) {
            throw new IllegalArgumentException(
                    "a light needs 1 to " + MAX_EMITTERS + " emitters, this one has " + n);
        }
        for (Xyz e : emitters) {
            if (!(e.y() > 0)) {
                throw new IllegalArgumentException("an emitter gives no light: " + e);
            }
        }
        double[] levels = vertices(emitters, target.toXyz(1));
        if (levels == null) {
            levels = vertices(emitters, nearest(emitters, target));
        }
        if (levels == null) {
            throw new IllegalStateException("no mix of " + emitters + " for " + target);
        }
        Xyz total = Xyz.ZERO;
        for (int i = 0; i < n; i++) {
            total = total.plus(emitters.get(i).times(levels[i]));
        }
        double distance = total.chromaticity().distanceUvPrime(target);
        return new Mix(levels, total, distance <= REACHED_UV, distance);
    }

    /** The best vertex, or null if only darkness has the target's chromaticity. */
    private static double[] vertices(List<Xyz> emitters, Xyz target) {
        int n = emitters.size();
        double[] a = new double[n];
        double[] b = new double[n];
        double[] y = new double[n];
        double full = 0;
        for (int i = 0; i < n; i++) {
            Xyz e = emitters.get(i);
            y[i] = e.y();
            a[i] = e.x() - e.y() * target.x() / target.y();
            b[i] = e.z() - e.y() * target.z() / target.y();
            full += e.y();
        }
        double[] best = null;
        double bestOutput = TINY * full;
        for (int p = -1; p < n; p++) {
            for (int q = p < 0 ? -1 : p; q < n; q++) {
                // p < 0: none free; q == p: one free; else two free.
                if (p < 0 && q >= 0) {
                    break;
                }
                for (int ones = 0; ones < 1 << n; ones++) {
                    if ((p >= 0 && (ones >> p & 1) != 0) || (q >= 0 && (ones >> q & 1) != 0)) {
                        continue;
                    }
                    double[] l = solve(a, b, p, q, ones, full);
                    if (l != null) {
                        double output = 0;
                        for (int i = 0; i < n; i++) {
                            output += l[i] * y[i];
                        }
                        if (output > bestOutput) {
                            bestOutput = output;
                            best = l;
                        }
                    }
                }
            }
        }
        return best;
    }

    private static double[] solve(double[] a, double[] b, int p, int q, int ones, double full) {
        int n = a.length;
        double[] l = new double[n];
        double ra = 0;
        double rb = 0;
        for (int i = 0; i < n; i++) {
            if ((ones >> i & 1) != 0) {
                l[i] = 1;
                ra -= a[i];
                rb -= b[i];
            }
        }
        if (p >= 0 && q == p) {
            double norm = a[p] * a[p] + b[p] * b[p];
            if (norm == 0) {
                return null;
            }
            l[p] = (ra * a[p] + rb * b[p]) / norm;
        } else if (p >= 0) {
            double det = a[p] * b[q] - a[q] * b[p];
            if (Math.abs(det) <= TINY * Math.hypot(a[p], b[p]) * Math.hypot(a[q], b[q])) {
                return null;
            }
            l[p] = (ra * b[q] - a[q] * rb) / det;
            l[q] = (a[p] * rb - ra * b[p]) / det;
        }
        for (int free : new int[] {p, q}) {
            if (free >= 0) {
                if (!(l[free] >= -TINY && l[free] <= 1 + TINY)) {
                    return null;
                }
                l[free] = Math.min(1, Math.max(0, l[free]));
            }
        }
        double missA = 0;
        double missB = 0;
        for (int i = 0; i < n; i++) {
            missA += l[i] * a[i];
            missB += l[i] * b[i];
        }
        return Math.hypot(missA, missB) <= TINY * full ? l : null;
    }

    /** A colour on the edge of what the emitters enclose, nearest to the target; Y is 1. */
    private static Xyz nearest(List<Xyz> emitters, Chromaticity target) {
        int n = emitters.size();
        if (n == 2) {
            ColourTemperature wanted = ColourTemperature.of(target);
            if (Math.abs(wanted.duv()) <= 0.05) {
                return onIsotherm(emitters.get(0), emitters.get(1), wanted.kelvin());
            }
        }
        Xyz best = null;
        double bestDistance = Double.MAX_VALUE;
        for (int i = 0; i < n; i++) {
            for (int j = i; j < n; j++) {
                Chromaticity p = emitters.get(i).chromaticity();
                Chromaticity q = emitters.get(j).chromaticity();
                double du = q.uPrime() - p.uPrime();
                double dv = q.vPrime() - p.vPrime();
                double square = du * du + dv * dv;
                double t =
                        square == 0
                                ? 0
                                : ((target.uPrime() - p.uPrime()) * du
                                                + (target.vPrime() - p.vPrime()) * dv)
                                        / square;
                Xyz c = between(emitters.get(i), emitters.get(j), t);
                double distance = c.chromaticity().distanceUvPrime(target);
                if (distance < bestDistance) {
                    bestDistance = distance;
                    best = c;
                }
            }
        }
        return best;
    }

    /** Where the line between two emitters has the wanted temperature; an end if it never has. */
    private static Xyz onIsotherm(Xyz first, Xyz second, double kelvin) {
        // The tangent of the locus, from a step of a tenth of a mired to each side.
        double mired = Mired.of(kelvin);
        double lo = Math.max(Mired.of(Planck.MAX_KELVIN), mired - 0.1);
        double hi = Math.min(Mired.of(Planck.MIN_KELVIN), mired + 0.1);
        Chromaticity a = Planck.chromaticity(Mired.kelvin(lo));
        Chromaticity b = Planck.chromaticity(Mired.kelvin(hi));
        Chromaticity on = Planck.chromaticity(kelvin);
        double tu = b.u() - a.u();
        double tv = b.v() - a.v();
        Chromaticity p = first.chromaticity();
        Chromaticity q = second.chromaticity();
        double down = (q.u() - p.u()) * tu + (q.v() - p.v()) * tv;
        double t = down == 0 ? 0 : ((on.u() - p.u()) * tu + (on.v() - p.v()) * tv) / down;
        return between(first, second, t);
    }

    /** The light whose point in u'v' (or 1960 uv) divides the line at {@code t}, 0..1; Y is 1. */
    private static Xyz between(Xyz first, Xyz second, double t) {
        double share = Math.min(1, Math.max(0, t));
        // Points in uv mix by the weight X + 15 Y + 3 Z, the common denominator of u and v.
        double w1 = first.x() + 15 * first.y() + 3 * first.z();
        double w2 = second.x() + 15 * second.y() + 3 * second.z();
        Xyz c = first.times((1 - share) / w1).plus(second.times(share / w2));
        return c.times(1 / c.y());
    }
}

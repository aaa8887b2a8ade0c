package lookstep.simulator.model.colour;

import java.util.List;

/**
 * The most light of a chromaticity that can be met: a linear programme, solved by its corners.
 *
 * <p>Having the chromaticity of the target (X', Y', Z') is two linear conditions on the weights l,
 * sum l (X Y' - Y X') = 0 and sum l (Z Y' - Y Z') = 0, and the output sum l Y is linear too. A
 * linear function over a bounded polytope has its maximum at a vertex.
 */
final class MostLight {
    private static final double TINY = 1e-9;
    private static final double TIE = 1e-7;

    private final double[] a;
    private final double[] b;
    private final double[] y;
    private final double full;
    private double[] best;
    private double bestOutput;

    private MostLight(List<Xyz> parts, Xyz target) {
        int n = parts.size();
        a = new double[n];
        b = new double[n];
        y = new double[n];
        double sum = 0;
        for (int i = 0; i < n; i++) {
            Xyz e = parts.get(i);
            y[i] = e.y();
            a[i] = e.x() - e.y() * target.x() / target.y();
            b[i] = e.z() - e.y() * target.z() / target.y();
            sum += e.y();
        }
        full = sum;
        bestOutput = TINY * full;
    }

    /**
     * Weights up to 1 each. Of an optimal vertex two weights are free (they may happen to be 0 or
     * 1), and every other is 1 or 0 as it would gain or lose by itself: by the sign of what is left
     * of its output when the two conditions are charged at the price that the free ones set
     * (complementary slackness). So only the pairs are tried.
     *
     * @return null if only darkness has the target's chromaticity
     */
    static double[] apart(List<Xyz> parts, Xyz target) {
        MostLight m = new MostLight(parts, target);
        int n = parts.size();
        boolean pairs = false;
        for (int p = 0; p < n; p++) {
            for (int q = p + 1; q < n; q++) {
                if (!m.dependent(p, q)) {
                    pairs = true;
                    m.offerPair(p, q);
                }
            }
        }
        // All in one line with the target: one condition is left, and no pair sets two prices.
        return pairs ? m.best : everyVertex(parts, target);
    }

    private void offerPair(int p, int q) {
        double det = a[p] * b[q] - a[q] * b[p];
        double priceA = (y[p] * b[q] - y[q] * b[p]) / det;
        double priceB = (a[p] * y[q] - a[q] * y[p]) / det;
        int ones = 0;
        int ties = 0;
        for (int i = 0; i < a.length; i++) {
            double gain = y[i] - priceA * a[i] - priceB * b[i];
            if (i != p && i != q) {
                if (Math.abs(gain) <= TIE * full) {
                    ties |= 1 << i;
                } else if (gain > 0) {
                    ones |= 1 << i;
                }
            }
        }
        // All subsets of the ties, the empty one last.
        for (int some = ties; ; some = some - 1 & ties) {
            offer(solve(p, q, ones | some));
            if (some == 0) {
                return;
            }
        }
    }

    /**
     * The same by brute force, which also holds where all parts are in one line with the target. At
     * a vertex the columns of the weights that are neither 0 nor 1 are linearly independent, so
     * there are at most two of them: every choice of none, one or two free weights with every 0 or
     * 1 for the others is tried.
     */
    static double[] everyVertex(List<Xyz> parts, Xyz target) {
        MostLight m = new MostLight(parts, target);
        int n = parts.size();
        for (int ones = 0; ones < 1 << n; ones++) {
            m.offer(m.solve(-1, -1, ones));
            for (int p = 0; p < n; p++) {
                for (int q = p; q < n; q++) {
                    if ((ones >> p & 1) == 0 && (ones >> q & 1) == 0) {
                        m.offer(m.solve(p, q, ones));
                    }
                }
            }
        }
        return m.best;
    }

    private boolean dependent(int p, int q) {
        double det = a[p] * b[q] - a[q] * b[p];
        double sizeP = Math.hypot(a[p], b[p]);
        double sizeQ = Math.hypot(a[q], b[q]);
        // What has the target's own chromaticity leaves nothing but rounding here.
        return Math.min(sizeP, sizeQ) <= TINY * full || Math.abs(det) <= TINY * sizeP * sizeQ;
    }

    /**
     * Weights that are 1 together: with three conditions a vertex has at most three that are not 0,
     * and every choice of one, two or three is tried, each with its greatest at 1 before all are
     * brought to 1 together.
     *
     * @return null if only darkness has the target's chromaticity
     */
    static double[] shared(List<Xyz> parts, Xyz target) {
        MostLight m = new MostLight(parts, target);
        int n = parts.size();
        for (int one = 0; one < n; one++) {
            for (int p = 0; p < n; p++) {
                for (int q = p; q < n; q++) {
                    if (p != one && q != one) {
                        m.offer(toOne(m.solve(p, q, 1 << one)));
                    }
                }
            }
            m.offer(m.solve(-1, -1, 1 << one));
        }
        return m.best;
    }

    private static double[] toOne(double[] weights) {
        if (weights != null) {
            double sum = 0;
            for (double w : weights) {
                sum += w;
            }
            for (int i = 0; i < weights.length; i++) {
                weights[i] /= sum;
            }
        }
        return weights;
    }

    private void offer(double[] weights) {
        if (weights != null) {
            double output = 0;
            for (int i = 0; i < weights.length; i++) {
                output += weights[i] * y[i];
            }
            if (output > bestOutput) {
                bestOutput = output;
                best = weights;
            }
        }
    }

    /**
     * Weights at 1 as {@code ones} says, {@code p} and {@code q} free (the same: one free; -1:
     * none), the rest 0; null if they cannot meet the chromaticity between 0 and 1.
     */
    private double[] solve(int p, int q, int ones) {
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
            if (dependent(p, q)) {
                return null;
            }
            double det = a[p] * b[q] - a[q] * b[p];
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
}

package lookstep.simulator.model.colour;

import java.util.List;

/**
 * How to mix a chromaticity from the parts that a light can weigh: its emitters, or what one of its
 * slots drives together. A chromaticity that they do not enclose is replaced by the nearest that
 * they do.
 *
 * <p>Weights go to 1 each, or, where parts are shared as with a slot that blends from one white to
 * the other, to 1 together.
 */
public final class Mixing {
    /**
     * Closer than this in u'v' counts as reached: wide enough for the sag of a 2700 to 6500 K
     * bi-colour light (0.0064 in 1960 uv, at most 0.0096 in u'v').
     */
    public static final double REACHED_UV = 0.01;

    /** More parts than a fixture has. */
    public static final int MAX_EMITTERS = 10;

    /**
     * How much a weight counts against the colour: it is off by at most half of this, and most
     * often by a thousandth.
     */
    private static final double SPREAD = 1e-5;

    private static final double OUTSIDE_UV = 1e-6;

    private Mixing() {}

    /** {@link #maximum(List, boolean, Chromaticity)} of parts whose weights go to 1 each. */
    public static Mix maximum(List<Xyz> parts, Chromaticity target) {
        return maximum(parts, false, target);
    }

    /**
     * The most light at the wanted chromaticity, or at the nearest that can be reached; exact.
     *
     * @param parts each at full; Y in candela, above 0; 1 to 10 of them
     * @param shared true if all weights together are at most 1
     * @throws IllegalArgumentException for no or too many parts, or one without light
     */
    public static Mix maximum(List<Xyz> parts, boolean shared, Chromaticity target) {
        requireLight(parts);
        double[] weights = most(parts, shared, target.toXyz(1));
        if (weights == null) {
            weights = most(parts, shared, NearestColour.of(parts, target));
        }
        if (weights == null) {
            throw new IllegalStateException("no mix of " + parts + " for " + target);
        }
        return mix(parts, weights, target);
    }

    /**
     * The mix with the most even weights, and so with as many parts as can be: of all weights w at
     * or above 0 that come to the wanted tristimulus values t, those with the least sum of squares,
     * found as the least of |A w - t|^2 + s^2 |w|^2 with a small s (Lawson and Hanson 1974). Then
     * all are raised together until the first is at full (shared: until they are 1 together). Up to
     * three parts that enclose the target have only one mix, the same as of {@link #maximum}.
     *
     * @param parts each at full; Y in candela, above 0; 1 to 10 of them
     * @param shared true if all weights together are at most 1
     * @throws IllegalArgumentException for no or too many parts, or one without light
     */
    public static Mix broadest(List<Xyz> parts, boolean shared, Chromaticity target) {
        Mix most = maximum(parts, shared, target);
        int n = parts.size();
        if (n < 3 || most.distanceUv() > OUTSIDE_UV) {
            // On the edge of what they enclose only the two ends of that edge can be on.
            return most;
        }
        double scale = 0;
        for (Xyz p : parts) {
            scale = Math.max(scale, p.x() + p.y() + p.z());
        }
        double[][] rows = new double[3 + n][n];
        double[] wanted = new double[3 + n];
        Xyz t = most.total().times(1 / scale);
        wanted[0] = t.x();
        wanted[1] = t.y();
        wanted[2] = t.z();
        for (int i = 0; i < n; i++) {
            rows[0][i] = parts.get(i).x() / scale;
            rows[1][i] = parts.get(i).y() / scale;
            rows[2][i] = parts.get(i).z() / scale;
            rows[3 + i][i] = SPREAD;
        }
        double[] weights = NonNegativeLeastSquares.solve(rows, wanted);
        double top = 0;
        for (double w : weights) {
            top = shared ? top + w : Math.max(top, w);
        }
        for (int i = 0; i < n; i++) {
            weights[i] /= top;
        }
        return mix(parts, weights, target);
    }

    private static double[] most(List<Xyz> parts, boolean shared, Xyz target) {
        return shared ? MostLight.shared(parts, target) : MostLight.apart(parts, target);
    }

    private static Mix mix(List<Xyz> parts, double[] weights, Chromaticity target) {
        Xyz total = Xyz.ZERO;
        for (int i = 0; i < weights.length; i++) {
            total = total.plus(parts.get(i).times(weights[i]));
        }
        double distance = total.chromaticity().distanceUvPrime(target);
        return new Mix(weights, total, distance <= REACHED_UV, distance);
    }

    private static void requireLight(List<Xyz> parts) {
        int n = parts.size();
        if (n < 1 || n > MAX_EMITTERS) {
            throw new IllegalArgumentException(
                    "a light needs 1 to " + MAX_EMITTERS + " emitters, this one has " + n);
        }
        for (Xyz e : parts) {
            if (!(e.y() > 0)) {
                throw new IllegalArgumentException("an emitter gives no light: " + e);
            }
        }
    }
}

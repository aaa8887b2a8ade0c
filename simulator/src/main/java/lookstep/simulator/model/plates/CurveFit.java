package lookstep.simulator.model.plates;

import java.util.Arrays;
import java.util.List;
import lookstep.simulator.model.colour.Srgb;

/** One channel's curve from even places of a ramp: the arithmetic of {@link ResponseRecovery}. */
final class CurveFit {
    private static final int CODES = Response.CODES;
    private static final int TURNS = 6;

    /** How far, in codes, the curve's distance from sRGB may bend from one code to the next. */
    private static final double BEND = 0.1;

    /** And how far that bend may change. */
    private static final double TWIST = 0.0007;

    /** How far, in codes, a curve may be from sRGB where nothing is known. */
    private static final double PRIOR = 30;

    /** Shares and the light itself are never known better than this part. */
    private static final double SHARE_ERROR = 0.003;

    private static final double LEAST_SIGMA = 0.15;
    private static final double LEAST_SPAN = 3;

    private final double[] share;
    private final double[] exposure;
    private final List<RampPatches.Patch> patches;
    private final int channel;
    private final double[] prior = new double[CODES];
    private final double[] slope = new double[CODES];
    private final double[] trust;
    private double[] curve;
    private double sigma = 0.4;
    private double missCodes;
    private int worstStep;
    private int lowest = CODES;
    private int highest = -1;
    private double fallsBy;

    /**
     * Fits at once.
     *
     * @param share of the ramp's light in each step
     * @param exposure of each step against the others'
     */
    CurveFit(double[] share, double[] exposure, List<RampPatches.Patch> patches, int channel) {
        this.share = share;
        this.exposure = exposure;
        this.channel = channel;
        this.patches = patches;
        this.trust = new double[patches.size()];
        Arrays.fill(trust, 1);
        for (int z = 0; z < CODES; z++) {
            prior[z] = Srgb.decode(z / 255.0);
            slope[z] = (Srgb.decode((z + 0.5) / 255) - Srgb.decode((z - 0.5) / 255));
        }
        curve = prior.clone();
        for (RampPatches.Patch p : patches) {
            if (p.span(channel) >= LEAST_SPAN) {
                for (double[] step : p.codes()) {
                    if (!Double.isNaN(step[channel])) {
                        lowest = Math.min(lowest, (int) Math.floor(step[channel]));
                        highest = Math.max(highest, (int) Math.ceil(step[channel]));
                    }
                }
            }
        }
        if (highest > lowest) {
            for (int turn = 0; turn < TURNS; turn++) {
                curve = solve();
                judge();
            }
        }
        curve = rising(curve);
    }

    /** Light of each code, 0 to 1, rising. */
    double[] curve() {
        return curve;
    }

    /** How far the places lie off the curve, codes, root of the mean square. */
    double missCodes() {
        return missCodes;
    }

    /** The step that fits worst, from 0. */
    int worstStep() {
        return worstStep;
    }

    /** Lowest code that the ramp has shown; 256 if it has shown none. */
    int lowest() {
        return lowest;
    }

    /** Highest code that the ramp has shown; -1 if it has shown none. */
    int highest() {
        return highest;
    }

    /** How far the curve fell with more light before that was taken out, as a share of white. */
    double fallsBy() {
        return fallsBy;
    }

    private double[] solve() {
        int n = CODES - 1;
        double[][] normal = new double[n][n];
        double[] right = new double[n];
        smooth(normal, right);
        double[] seen = new double[CODES];
        for (int p = 0; p < patches.size(); p++) {
            accumulate(patches.get(p), trust[p], normal, seen);
        }
        // Whatever the curve is multiplied by, it fits as well, and a flatter one even better, for
        // it makes the noise smaller. So its rise over the codes seen is held to sRGB's until the
        // end, where code 255 becomes 1; each turn it is held so that this is nearly so.
        double total = 0;
        double mean = 0;
        for (int z = 0; z < CODES; z++) {
            total += seen[z];
            mean += seen[z] * prior[z];
        }
        mean /= total;
        double[] gauge = new double[n];
        double wanted = 0;
        for (int z = 1; z < CODES; z++) {
            gauge[z - 1] = seen[z] * (prior[z] - mean);
            wanted += gauge[z - 1] * curve[z];
        }
        wanted /= curve[CODES - 1];
        Cholesky cholesky = new Cholesky(normal);
        double[] free = cholesky.solve(right);
        double[] pull = cholesky.solve(gauge);
        double is = 0;
        double each = 0;
        for (int i = 0; i < n; i++) {
            is += gauge[i] * free[i];
            each += gauge[i] * pull[i];
        }
        double[] found = new double[CODES];
        for (int z = 1; z < CODES; z++) {
            found[z] = free[z - 1] + pull[z - 1] * (wanted - is) / each;
        }
        return found;
    }

    /**
     * The distance from sRGB, in codes, bends evenly, and is not large. Differences of the third
     * order go on with a bend where the ramp ends; a shoulder that is left straight there puts
     * white three per cent off.
     */
    private void smooth(double[][] normal, double[] right) {
        smooth(new double[] {1, -2, 1}, 1 / (BEND * BEND), normal, right);
        smooth(new double[] {-1, 3, -3, 1}, 1 / (TWIST * TWIST), normal, right);
        for (int z = 1; z < CODES; z++) {
            double weight = 1 / (PRIOR * PRIOR * slope[z] * slope[z]);
            normal[z - 1][z - 1] += weight;
            right[z - 1] += weight * prior[z];
        }
    }

    private void smooth(double[] differences, double weight, double[][] normal, double[] right) {
        for (int first = 0; first + differences.length <= CODES; first++) {
            double is = 0;
            for (int a = 0; a < differences.length; a++) {
                is += differences[a] / slope[first + a] * prior[first + a];
            }
            for (int a = 0; a < differences.length; a++) {
                int i = first + a - 1;
                if (i >= 0) {
                    double da = differences[a] / slope[first + a];
                    right[i] += weight * da * is;
                    for (int b = 0; b < differences.length; b++) {
                        int j = first + b - 1;
                        if (j >= 0) {
                            normal[i][j] += weight * da * differences[b] / slope[first + b];
                        }
                    }
                }
            }
        }
    }

    /** Adds what is left of a place's squares once the best house and light are taken out. */
    private void accumulate(
            RampPatches.Patch patch, double trusted, double[][] normal, double[] seen) {
        int steps = share.length;
        double[] weight = weights(patch, trusted);
        double[][] left = leftOver(weight);
        for (int k = 0; k < steps; k++) {
            if (weight[k] == 0) {
                continue;
            }
            double zk = patch.codes()[k][channel];
            int ik = (int) zk;
            double fk = zk - ik;
            seen[ik] += weight[k];
            for (int m = 0; m < steps; m++) {
                if (weight[m] == 0) {
                    continue;
                }
                double zm = patch.codes()[m][channel];
                int im = (int) zm;
                double fm = zm - im;
                double q = left[k][m];
                add(normal, ik, im, q * (1 - fk) * (1 - fm));
                add(normal, ik, im + 1, q * (1 - fk) * fm);
                add(normal, ik + 1, im, q * fk * (1 - fm));
                add(normal, ik + 1, im + 1, q * fk * fm);
            }
        }
    }

    private static void add(double[][] normal, int i, int j, double value) {
        if (i > 0 && j > 0 && i < CODES && j < CODES) {
            normal[i - 1][j - 1] += value;
        }
    }

    /** For each step: one over the variance of its light; 0 where it says nothing. */
    private double[] weights(RampPatches.Patch patch, double trusted) {
        double[] weight = new double[share.length];
        for (int k = 0; k < weight.length; k++) {
            double z = patch.codes()[k][channel];
            if (!Double.isNaN(z)) {
                double noise = sigma * rise(z);
                double unsure = SHARE_ERROR * at(z);
                weight[k] = trusted * hat(z) / (noise * noise + unsure * unsure);
            }
        }
        return weight;
    }

    /** Less near both ends, where the camera cuts off. */
    private static double hat(double z) {
        return Math.min(1, Math.min(z / 6, (254 - z) / 10));
    }

    /** W - W X (X'W X)^-1 X'W, X being exposure and exposure times share. */
    private double[][] leftOver(double[] w) {
        double hh = 0;
        double ha = 0;
        double aa = 0;
        for (int k = 0; k < w.length; k++) {
            double e = w[k] * exposure[k] * exposure[k];
            hh += e;
            ha += e * share[k];
            aa += e * share[k] * share[k];
        }
        // Alike shares leave the light unknown: then the house takes all.
        double least = 1e-9 * hh;
        double det = (hh + least) * (aa + least) - ha * ha;
        double[][] left = new double[w.length][w.length];
        for (int k = 0; k < w.length; k++) {
            for (int m = 0; m < w.length; m++) {
                double q =
                        ((aa + least)
                                        - ha * (share[k] + share[m])
                                        + (hh + least) * share[k] * share[m])
                                / det;
                left[k][m] = (k == m ? w[k] : 0) - w[k] * w[m] * exposure[k] * exposure[m] * q;
            }
        }
        return left;
    }

    /** How far each place lies off, so that those where something moved count less. */
    private void judge() {
        int steps = share.length;
        double[] off = new double[patches.size()];
        double[] sorted = new double[patches.size()];
        double sum = 0;
        double freedom = 0;
        double[] ofStep = new double[steps];
        for (int p = 0; p < patches.size(); p++) {
            RampPatches.Patch patch = patches.get(p);
            double[] weight = weights(patch, 1);
            double[][] left = leftOver(weight);
            int used = 0;
            double squares = 0;
            for (int k = 0; k < steps; k++) {
                if (weight[k] == 0) {
                    continue;
                }
                double miss = 0;
                for (int m = 0; m < steps; m++) {
                    if (weight[m] != 0) {
                        miss += left[k][m] * at(patch.codes()[m][channel]);
                    }
                }
                // left times light is the residual times its weight.
                double z = patch.codes()[k][channel];
                double codes = miss / weight[k] / rise(z);
                squares += codes * codes * hat(z);
                ofStep[k] += trust[p] * codes * codes * hat(z);
                used++;
            }
            off[p] = Math.sqrt(squares / Math.max(1, used - 2));
            sorted[p] = off[p];
            sum += trust[p] * squares;
            freedom += trust[p] * Math.max(0, used - 2);
        }
        Arrays.sort(sorted);
        double usual = Math.max(0.2, sorted[sorted.length / 2]);
        for (int p = 0; p < off.length; p++) {
            double far = off[p] / (3 * usual);
            trust[p] = 1 / (1 + far * far * far * far);
        }
        missCodes = freedom > 0 ? Math.sqrt(sum / freedom) : 0;
        sigma = Math.max(LEAST_SIGMA, Math.min(3, missCodes));
        for (int k = 0; k < steps; k++) {
            worstStep = ofStep[k] > ofStep[worstStep] ? k : worstStep;
        }
    }

    private double at(double z) {
        int i = Math.min(CODES - 2, (int) z);
        double f = z - i;
        return curve[i] * (1 - f) + curve[i + 1] * f;
    }

    /** Light for each code around here; not below a part of sRGB's, so that weights stay finite. */
    private double rise(double z) {
        int i = (int) z;
        int below = Math.max(0, i - 2);
        int above = Math.min(CODES - 1, i + 3);
        double least = (prior[above] - prior[below]) / 8;
        return Math.max(least, curve[above] - curve[below]) / (above - below);
    }

    /** From 0 to 1 and never falling: neighbours that fall become their mean. */
    private double[] rising(double[] from) {
        double[] value = new double[CODES];
        int[] size = new int[CODES];
        int blocks = 0;
        for (double v : from) {
            value[blocks] = v;
            size[blocks++] = 1;
            while (blocks > 1 && value[blocks - 1] < value[blocks - 2]) {
                fallsBy = Math.max(fallsBy, value[blocks - 2] - value[blocks - 1]);
                int together = size[blocks - 2] + size[blocks - 1];
                value[blocks - 2] =
                        (value[blocks - 2] * size[blocks - 2]
                                        + value[blocks - 1] * size[blocks - 1])
                                / together;
                size[blocks - 2] = together;
                blocks--;
            }
        }
        double[] even = new double[CODES];
        int z = 0;
        for (int b = 0; b < blocks; b++) {
            for (int i = 0; i < size[b]; i++) {
                even[z++] = value[b];
            }
        }
        // Codes that stand for the same light are set apart by a trifle: a table wants an inverse.
        double trifle = 1e-6;
        double low = even[0];
        double high = even[CODES - 1] - low + (CODES - 1) * trifle;
        for (int i = 0; i < CODES; i++) {
            even[i] = (even[i] - low + i * trifle) / high;
        }
        even[CODES - 1] = 1;
        return even;
    }
}

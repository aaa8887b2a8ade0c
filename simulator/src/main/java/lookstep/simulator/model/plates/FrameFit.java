package lookstep.simulator.model.plates;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import lookstep.simulator.model.colour.NonNegativeLeastSquares;
import lookstep.simulator.model.colour.Srgb;
import lookstep.simulator.model.plates.PlateFit.Change;
import lookstep.simulator.model.plates.PlateFit.Found;
import lookstep.simulator.model.plates.PlateFit.Source;

/** The arithmetic of {@link PlateFit} for one frame. */
final class FrameFit {
    private static final int TURNS = 6;

    /** Noise: of white, and of the light itself. */
    private static final double FLOOR = 0.002;

    private static final double PART = 0.03;

    /** From here on, in units of noise, a place counts ever less. */
    private static final double FAR = 3;

    /** What is left of the misfit when a colour or a pattern explains it, and of what misfit. */
    private static final double EXPLAINS = 0.87;

    private static final double MISFIT = 0.025;

    /** A pattern has more freedom than a colour, so it must explain more. */
    private static final double PATTERN_MORE = 0.9;

    private static final int MOST_CHANGES = 2;

    /** What counts as changed, stops. */
    private static final double LEVEL_STOPS = 0.2;

    private static final double COLOUR_STOPS = 0.2;
    private static final double PATTERN_STOPS = 0.12;

    /** A level that is less sure says nothing, stops. */
    private static final double UNSURE_STOPS = 0.4;

    /** A light that should be off is on if it brings this share of the light. */
    private static final double LIT = 0.03;

    private static final double LEAST_STOPS = -6;

    private final float[] frame;
    private final List<float[]> parts;
    private final boolean[] on;
    private final int[] pixels;
    private final double[][] fields;
    private final double[] sigma;

    /**
     * One way to explain the frame.
     *
     * @param free for each source what it is free in: NONE its weight alone, COLOUR, PATTERN
     * @param weights for each source: one, three (channels) or six (fields)
     * @param misfit mean over all places: 0 none
     */
    @SuppressWarnings("ArrayRecordComponent")
    private record Explained(Change[] free, double[][] weights, double misfit) {}

    FrameFit(
            float[] frame, List<float[]> parts, boolean[] on, int[] pixels, int width, int height) {
        this.frame = frame;
        this.parts = parts;
        this.on = on;
        this.pixels = pixels;
        this.fields = new double[pixels.length][];
        this.sigma = new double[pixels.length * 3];
        for (int i = 0; i < pixels.length; i++) {
            double x = 2.0 * (pixels[i] % width) / width - 1;
            double y = 2.0 * Math.floorDiv(pixels[i], width) / height - 1;
            fields[i] = new double[] {1, x, y, x * x - 1 / 3.0, x * y, y * y - 1 / 3.0};
            for (int c = 0; c < 3; c++) {
                sigma[i * 3 + c] = FLOOR + PART * Math.max(0, frame[pixels[i] * 3 + c]);
            }
        }
    }

    Found found() {
        Explained best = plain();
        double before = best.misfit;
        for (int change = 0; change < MOST_CHANGES && best.misfit > MISFIT; change++) {
            Explained next = freer(best);
            if (next.misfit > EXPLAINS * best.misfit) {
                break;
            }
            best = next;
        }
        double[] unsure = unsure(best);
        double exposure = exposure(best, unsure);
        List<Source> sources = new ArrayList<>();
        for (int s = 0; s < on.length; s++) {
            sources.add(source(best, s, unsure[s], exposure, before));
        }
        double off = 0;
        double all = 0;
        for (int row = 0; row < sigma.length; row++) {
            off += Math.abs(frame[at(row)] - model(best, row));
            all += Math.abs(frame[at(row)]);
        }
        return new Found(
                sources.get(0),
                sources.subList(1, sources.size()),
                exposure,
                off / Math.max(1e-9, all));
    }

    /** One weight for each source, none below 0. */
    private Explained plain() {
        int rows = sigma.length;
        int n = on.length;
        double[] trust = new double[rows];
        Arrays.fill(trust, 1);
        Change[] free = new Change[n];
        Arrays.fill(free, Change.NONE);
        Explained now = new Explained(free, new double[n][1], 0);
        for (int turn = 0; turn < TURNS; turn++) {
            double[][] a = new double[rows][n];
            double[] b = new double[rows];
            for (int row = 0; row < rows; row++) {
                double w = Math.sqrt(trust[row]) / sigma[row];
                b[row] = w * frame[at(row)];
                for (int s = 0; s < n; s++) {
                    a[row][s] = w * parts.get(s)[at(row)];
                }
            }
            double[] x = NonNegativeLeastSquares.solve(a, b);
            double[][] weights = new double[n][];
            for (int s = 0; s < n; s++) {
                weights[s] = new double[] {x[s]};
            }
            now = judged(free, weights, trust);
        }
        return now;
    }

    /** The best of all with one more source free. */
    private Explained freer(Explained from) {
        Explained colour = from;
        Explained pattern = from;
        for (int s = 0; s < on.length; s++) {
            if (from.free[s] == Change.NONE && from.weights[s][0] > 0) {
                Explained c = solved(from, s, Change.COLOUR);
                colour = c.misfit < colour.misfit ? c : colour;
                Explained p = solved(from, s, Change.PATTERN);
                pattern = p.misfit < pattern.misfit ? p : pattern;
            }
        }
        return pattern.misfit < PATTERN_MORE * colour.misfit ? pattern : colour;
    }

    private Explained solved(Explained from, int source, Change freedom) {
        Change[] free = from.free.clone();
        free[source] = freedom;
        double[] trust = new double[sigma.length];
        judged(from.free, from.weights, trust);
        Explained now = from;
        for (int turn = 0; turn < TURNS; turn++) {
            int n = 0;
            for (Change f : free) {
                n += count(f);
            }
            double[][] normal = new double[n][n];
            double[] right = new double[n];
            double[] row = new double[n];
            for (int i = 0; i < sigma.length; i++) {
                fill(row, free, i);
                double w = trust[i] / (sigma[i] * sigma[i]);
                for (int j = 0; j < n; j++) {
                    double wj = w * row[j];
                    right[j] += wj * frame[at(i)];
                    for (int k = 0; k <= j; k++) {
                        normal[j][k] += wj * row[k];
                    }
                }
            }
            for (int j = 0; j < n; j++) {
                normal[j][j] += 1e-6 + 1e-9 * normal[j][j];
            }
            double[] x = new Cholesky(normal).solve(right);
            double[][] weights = new double[free.length][];
            for (int s = 0, j = 0; s < free.length; s++) {
                weights[s] = Arrays.copyOfRange(x, j, j + count(free[s]));
                j += count(free[s]);
            }
            now = judged(free, weights, trust);
        }
        return now;
    }

    private static int count(Change freedom) {
        return switch (freedom) {
            case COLOUR -> 3;
            case PATTERN -> 6;
            case NONE, LEVEL, LIT, UNKNOWN -> 1;
        };
    }

    /** What each weight brings to a channel of a pixel. */
    private void fill(double[] row, Change[] free, int i) {
        int j = 0;
        for (int s = 0; s < free.length; s++) {
            double light = parts.get(s)[at(i)];
            int n = count(free[s]);
            for (int k = 0; k < n; k++) {
                row[j++] =
                        n == 1
                                ? light
                                : n == 3 ? (k == i % 3 ? light : 0) : light * fields[i / 3][k];
            }
        }
    }

    /** Fills in the trust of each place (Cauchy's weights) and the mean misfit. */
    private Explained judged(Change[] free, double[][] weights, double[] trust) {
        Explained now = new Explained(free, weights, 0);
        double sum = 0;
        for (int i = 0; i < sigma.length; i++) {
            double far = (frame[at(i)] - model(now, i)) / (FAR * sigma[i]);
            trust[i] = 1 / (1 + far * far);
            sum += Math.log1p(far * far);
        }
        return new Explained(free, weights, sum / sigma.length);
    }

    private int at(int row) {
        return pixels[row / 3] * 3 + row % 3;
    }

    private double model(Explained e, int row) {
        double sum = 0;
        for (int s = 0; s < on.length; s++) {
            sum += factor(e, s, row) * parts.get(s)[at(row)];
        }
        return sum;
    }

    private double factor(Explained e, int s, int row) {
        double[] w = e.weights[s];
        return switch (e.free[s]) {
            case COLOUR -> w[row % 3];
            case PATTERN -> {
                double sum = 0;
                for (int k = 0; k < w.length; k++) {
                    sum += w[k] * fields[row / 3][k];
                }
                yield sum;
            }
            case NONE, LEVEL, LIT, UNKNOWN -> w[0];
        };
    }

    /** Standard deviation of each source's weight, all others being free. */
    private double[] unsure(Explained e) {
        int n = on.length;
        double[][] square = new double[n][n];
        double misses = 0;
        for (int i = 0; i < sigma.length; i++) {
            double miss = (frame[at(i)] - model(e, i)) / sigma[i];
            misses += Math.min(miss * miss, FAR * FAR);
            for (int j = 0; j < n; j++) {
                for (int k = 0; k <= j; k++) {
                    square[j][k] +=
                            parts.get(j)[at(i)]
                                    * (double) parts.get(k)[at(i)]
                                    / (sigma[i] * sigma[i]);
                }
            }
        }
        for (int j = 0; j < n; j++) {
            square[j][j] += 1e-9;
        }
        Cholesky cholesky = new Cholesky(square);
        double usual = Math.max(0.1, Math.sqrt(misses / sigma.length));
        double[] unsure = new double[n];
        for (int j = 0; j < n; j++) {
            double[] unit = new double[n];
            unit[j] = 1;
            // Neighbouring pixels err together, so they count as a tenth of their number.
            unsure[j] = usual * Math.sqrt(10 * cholesky.solve(unit)[j]);
        }
        return unsure;
    }

    /** Weight over all the light of a source. */
    private double weight(Explained e, int s) {
        double sum = 0;
        double all = 0;
        for (int i = 0; i < sigma.length; i++) {
            sum += factor(e, s, i) * share(i) * parts.get(s)[at(i)];
            all += share(i) * parts.get(s)[at(i)];
        }
        return all > 0 ? Math.max(0, sum / all) : 0;
    }

    /** Of a channel in luminance. */
    private static double share(int row) {
        int c = row % 3;
        return Srgb.luminance(c == 0 ? 1 : 0, c == 1 ? 1 : 0, c == 2 ? 1 : 0);
    }

    private static double stops(double weight) {
        return Math.max(LEAST_STOPS, Math.log(Math.max(1e-9, weight)) / Math.log(2));
    }

    /** In stops; of a source that is gone, against its full light. */
    private static double unsureStops(double weight, double unsure) {
        return unsure / Math.max(weight, 0.25) / Math.log(2);
    }

    /** If all that can be told is brighter or darker alike. */
    private double exposure(Explained e, double[] unsure) {
        double[] told = new double[on.length];
        int n = 0;
        for (int s = 0; s < on.length; s++) {
            double weight = weight(e, s);
            if (on[s] && unsureStops(weight, unsure[s]) < UNSURE_STOPS / 2) {
                told[n++] = stops(weight);
            }
        }
        double[] sorted = Arrays.copyOf(told, n);
        Arrays.sort(sorted);
        if (n < 2
                || sorted[n - 1] - sorted[0] > LEVEL_STOPS
                || Math.abs(sorted[n / 2]) < LEVEL_STOPS) {
            return 0;
        }
        return sorted[n / 2];
    }

    private Source source(Explained e, int s, double unsure, double exposure, double before) {
        double weight = weight(e, s);
        if (!on[s]) {
            return unwanted(e, s, weight, unsure);
        }
        double stops = stops(weight) - exposure;
        double unsureStops = unsureStops(weight, unsure);
        // What stays unexplained may be of any source.
        double clear = Math.min(1, 2 * MISFIT / Math.max(MISFIT, e.misfit));
        double sure = clear * Math.max(0, 1 - unsureStops / UNSURE_STOPS);
        double explained = Math.min(1, Math.max(0, 1.5 * (1 - e.misfit / Math.max(1e-9, before))));
        double[] w = e.weights[s];
        if (e.free[s] == Change.PATTERN) {
            double spread = spread(e, s);
            if (spread > PATTERN_STOPS) {
                return new Source(Change.PATTERN, stops, 0, 0, spread, explained);
            }
        }
        if (e.free[s] == Change.COLOUR) {
            double red = stops(w[0]) - stops(w[1]);
            double blue = stops(w[2]) - stops(w[1]);
            if (Math.max(Math.abs(red), Math.abs(blue)) > COLOUR_STOPS) {
                return new Source(Change.COLOUR, stops, red, blue, 0, explained);
            }
        }
        if (unsureStops > UNSURE_STOPS) {
            return new Source(Change.UNKNOWN, stops, 0, 0, 0, 0);
        }
        Change change = Math.abs(stops) > LEVEL_STOPS ? Change.LEVEL : Change.NONE;
        return new Source(change, stops, 0, 0, 0, sure);
    }

    private Source unwanted(Explained e, int s, double weight, double unsure) {
        double brings = 0;
        double all = 0;
        for (int i = 0; i < sigma.length; i++) {
            brings += share(i) * factor(e, s, i) * parts.get(s)[at(i)];
            all += share(i) * frame[at(i)];
        }
        double part = brings / Math.max(1e-9, all);
        boolean lit = part > LIT && weight > 3 * unsure;
        double sure = Math.max(0, 1 - unsureStops(weight, unsure) / UNSURE_STOPS);
        return new Source(
                lit ? Change.LIT : Change.NONE,
                stops(weight),
                0,
                0,
                0,
                lit ? Math.min(1, part / LIT / 3) : sure);
    }

    /** Standard deviation of the lift, stops, weighted with the light that the source brings. */
    private double spread(Explained e, int s) {
        double sum = 0;
        double squares = 0;
        double all = 0;
        for (int i = 0; i < sigma.length; i++) {
            double light = share(i) * Math.max(0, parts.get(s)[at(i)]);
            double lift = Math.log(Math.max(0.05, factor(e, s, i))) / Math.log(2);
            sum += light * lift;
            squares += light * lift * lift;
            all += light;
        }
        double mean = sum / Math.max(1e-12, all);
        return Math.sqrt(Math.max(0, squares / Math.max(1e-12, all) - mean * mean));
    }
}

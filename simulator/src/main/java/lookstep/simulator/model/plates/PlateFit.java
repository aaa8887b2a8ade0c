package lookstep.simulator.model.plates;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import lookstep.simulator.model.colour.NonNegativeLeastSquares;
import lookstep.simulator.model.colour.Srgb;

/**
 * Lays a later frame onto the plates: how much of the house and of each light is in it, against
 * what should be. Non-negative least squares, in which places that do not fit count ever less. A
 * light that was dimmed still has its pattern, only weaker; one that was moved has another, so that
 * what it should bring alone comes out uneven. A moved camera looks like everything moved: ask
 * {@link Registration} first.
 */
public final class PlateFit {
    private static final int MOST_PIXELS = 2500;
    private static final int LEAST_PIXELS = 40;
    private static final int TURNS = 6;

    /** Noise: of white, and of the light itself. */
    private static final double FLOOR = 0.002;

    private static final double PART = 0.03;

    /** Burnt from here on: nothing is to be learnt. */
    private static final double BURNT = 0.95;

    /** A light rules a place if it should bring this share of the light there. */
    private static final double RULES = 0.5;

    /** What counts as changed, stops. */
    private static final double LEVEL_STOPS = 0.2;

    private static final double COLOUR_STOPS = 0.25;
    private static final double PATTERN_STOPS = 0.3;

    /** A level that is less sure says nothing, stops. */
    private static final double UNSURE_STOPS = 0.4;

    /** A light that should be off is on if it brings this share of the light. */
    private static final double LIT = 0.03;

    private static final double LEAST_STOPS = -6;

    private PlateFit() {}

    /** What has become of the house or of a light. */
    public enum Change {
        /** As it should be. */
        NONE,
        /** Its pattern fits, but it is brighter or darker. */
        LEVEL,
        /** Its pattern fits, but its colour is another. */
        COLOUR,
        /** Its pattern does not fit: it was moved, turned, or something stands before it. */
        PATTERN,
        /** It should be off, and is not. */
        LIT,
        /** It brings too little, or is too much like another, to be told. */
        UNKNOWN
    }

    /**
     * Of the house or a light.
     *
     * @param stops brighter than it should be, -6 and less is off; of a light that should be off:
     *     over its full light. What {@link Found#exposureStops} says is taken out.
     * @param redStops how much redder against green, stops, where that can be told
     * @param blueStops how much bluer against green
     * @param spreadStops how unevenly it comes out where it rules; NaN if it rules nowhere
     * @param certainty 0 nothing is sure, 1 sure
     */
    public record Source(
            Change change,
            double stops,
            double redStops,
            double blueStops,
            double spreadStops,
            double certainty) {}

    /**
     * The whole frame.
     *
     * @param exposureStops by how much everything is brighter alike, 0 if it is not alike
     * @param residualShare of the frame's light that no mix of the plates explains
     */
    public record Found(
            Source house, List<Source> lights, double exposureStops, double residualShare) {}

    /**
     * Fits a frame.
     *
     * @param frame linear red, green, blue at the camera settings of {@code should}, sized as the
     *     plates
     * @param should how it should be lit
     * @param allowed pixels that count, rows from the top; leave out people, who move
     * @throws IllegalArgumentException if the sizes differ, or hardly any pixel is allowed and not
     *     burnt
     */
    public static Found of(float[] frame, LinearPlates plates, Lit should, boolean[] allowed) {
        int n = plates.width() * plates.height();
        if (frame.length != 3 * n || allowed.length != n) {
            throw new IllegalArgumentException(
                    "a frame of %d values and a mask of %d for plates of %d x %d pixels"
                            .formatted(
                                    frame.length,
                                    allowed.length,
                                    plates.width(),
                                    plates.height()));
        }
        List<float[]> parts = new ArrayList<>(should.parts(plates));
        for (int l = 0; l < should.lights(); l++) {
            if (!should.on(l)) {
                parts.set(l + 1, should.full(plates, l));
            }
        }
        return new Fit(frame, parts, should, pixels(frame, parts, should, allowed)).found();
    }

    private static int[] pixels(
            float[] frame, List<float[]> parts, Lit should, boolean[] allowed) {
        int[] good = new int[allowed.length];
        int n = 0;
        for (int p = 0; p < allowed.length; p++) {
            boolean fits = allowed[p];
            for (int c = 0; c < 3 && fits; c++) {
                double sum = 0;
                for (int s = 0; s < parts.size(); s++) {
                    sum += s == 0 || should.on(s - 1) ? parts.get(s)[p * 3 + c] : 0;
                }
                fits = frame[p * 3 + c] < BURNT && sum < BURNT;
            }
            if (fits) {
                good[n++] = p;
            }
        }
        if (n < LEAST_PIXELS) {
            throw new IllegalArgumentException(
                    "only %d pixels are allowed and not burnt: %d are the least"
                            .formatted(n, LEAST_PIXELS));
        }
        int[] chosen = new int[Math.min(n, MOST_PIXELS)];
        for (int i = 0; i < chosen.length; i++) {
            chosen[i] = good[(int) ((long) i * n / chosen.length)];
        }
        return chosen;
    }

    /** One frame's arithmetic. */
    private static final class Fit {
        private final float[] frame;
        private final List<float[]> parts;
        private final Lit should;
        private final int[] pixels;
        private final double[] weights;
        private final double[] unsure;
        private double residual;

        Fit(float[] frame, List<float[]> parts, Lit should, int[] pixels) {
            this.frame = frame;
            this.parts = parts;
            this.should = should;
            this.pixels = pixels;
            this.unsure = new double[parts.size()];
            this.weights = solve();
        }

        private double[] solve() {
            int rows = pixels.length * 3;
            int columns = parts.size();
            double[] trust = new double[rows];
            double[] sigma = new double[rows];
            for (int i = 0; i < rows; i++) {
                trust[i] = 1;
                sigma[i] = FLOOR + PART * Math.max(0, frame[at(i)]);
            }
            double[] x = new double[columns];
            double usual = 1;
            for (int turn = 0; turn < TURNS; turn++) {
                double[][] a = new double[rows][columns];
                double[] b = new double[rows];
                for (int i = 0; i < rows; i++) {
                    double w = Math.sqrt(trust[i]) / sigma[i];
                    b[i] = w * frame[at(i)];
                    for (int s = 0; s < columns; s++) {
                        a[i][s] = w * parts.get(s)[at(i)];
                    }
                }
                x = NonNegativeLeastSquares.solve(a, b);
                double[] miss = new double[rows];
                for (int i = 0; i < rows; i++) {
                    miss[i] = Math.abs(frame[at(i)] - model(x, at(i))) / sigma[i];
                }
                double[] sorted = miss.clone();
                Arrays.sort(sorted);
                // The median of what a Gaussian leaves is 0.6745 of its standard deviation.
                usual = Math.max(0.1, sorted[rows / 2] / 0.6745);
                for (int i = 0; i < rows; i++) {
                    double far = miss[i] / (2.5 * usual);
                    trust[i] = 1 / (1 + far * far);
                }
                if (turn == TURNS - 1) {
                    spread(a, usual);
                }
            }
            double off = 0;
            double all = 0;
            for (int i = 0; i < rows; i++) {
                off += Math.abs(frame[at(i)] - model(x, at(i)));
                all += Math.abs(frame[at(i)]);
            }
            residual = off / Math.max(1e-9, all);
            return x;
        }

        /** Standard deviation of each weight. */
        private void spread(double[][] a, double usual) {
            int n = unsure.length;
            double[][] square = new double[n][n];
            for (double[] row : a) {
                for (int i = 0; i < n; i++) {
                    for (int j = 0; j < n; j++) {
                        square[i][j] += row[i] * row[j];
                    }
                }
            }
            for (int i = 0; i < n; i++) {
                square[i][i] += 1e-9;
            }
            Cholesky cholesky = new Cholesky(square);
            for (int i = 0; i < n; i++) {
                double[] unit = new double[n];
                unit[i] = 1;
                // Neighbouring pixels err together, so they count as a tenth of their number.
                unsure[i] = usual * Math.sqrt(10 * cholesky.solve(unit)[i]);
            }
        }

        private int at(int row) {
            return pixels[row / 3] * 3 + row % 3;
        }

        private double model(double[] x, int i) {
            double sum = 0;
            for (int s = 0; s < x.length; s++) {
                sum += x[s] * parts.get(s)[i];
            }
            return sum;
        }

        Found found() {
            List<Source> sources = new ArrayList<>();
            double exposure = exposure();
            for (int s = 0; s < weights.length; s++) {
                sources.add(source(s, exposure));
            }
            return new Found(
                    sources.get(0), List.copyOf(sources.subList(1, sources.size())), exposure,
                    residual);
        }

        private boolean on(int s) {
            return s == 0 ? should.house() > 0 : should.on(s - 1);
        }

        private double unsureStops(int s) {
            return unsure[s] / Math.max(1e-9, weights[s]) / Math.log(2);
        }

        /** If all that can be told is brighter or darker alike. */
        private double exposure() {
            List<Double> told = new ArrayList<>();
            for (int s = 0; s < weights.length; s++) {
                if (on(s) && unsureStops(s) < UNSURE_STOPS / 2) {
                    told.add(stops(s));
                }
            }
            double[] sorted = told.stream().mapToDouble(Double::doubleValue).sorted().toArray();
            if (sorted.length < 2
                    || sorted[sorted.length - 1] - sorted[0] > LEVEL_STOPS
                    || Math.abs(sorted[sorted.length / 2]) < LEVEL_STOPS) {
                return 0;
            }
            return sorted[sorted.length / 2];
        }

        private double stops(int s) {
            return Math.max(LEAST_STOPS, log2(Math.max(1e-9, weights[s])));
        }

        private Source source(int s, double exposure) {
            if (!on(s)) {
                return unwanted(s);
            }
            int[] ruled = ruled(s);
            double stops = stops(s) - exposure;
            double unsureStops =
                    Math.min(unsureStops(s), unsure[s] / Math.log(2) * (stops < -1 ? 2 : 1e9));
            double sure = Math.max(0, 1 - unsureStops / UNSURE_STOPS);
            double[] off = new double[3];
            double spread = Double.NaN;
            if (ruled.length >= LEAST_PIXELS) {
                double[] ratios = new double[ruled.length];
                for (int i = 0; i < ratios.length; i++) {
                    ratios[i] = ratio(s, ruled[i]);
                }
                double middle = median(ratios);
                double[] around = new double[ratios.length];
                for (int i = 0; i < around.length; i++) {
                    around[i] = Math.abs(ratios[i] - middle);
                }
                spread = median(around) / 0.6745;
                off = channels(s, ruled);
                sure = Math.max(sure, 0.5);
            }
            double red = off[0] - off[1];
            double blue = off[2] - off[1];
            Change change;
            double certainty;
            if (spread > PATTERN_STOPS && stops > LEAST_STOPS) {
                change = Change.PATTERN;
                certainty = Math.min(1, (spread - PATTERN_STOPS) / PATTERN_STOPS + 0.5);
            } else if (unsureStops > UNSURE_STOPS) {
                change = Change.UNKNOWN;
                certainty = 0;
            } else if (Math.max(Math.abs(red), Math.abs(blue)) > COLOUR_STOPS) {
                change = Change.COLOUR;
                certainty = sure;
            } else if (Math.abs(stops) > LEVEL_STOPS) {
                change = Change.LEVEL;
                certainty = sure * (Double.isNaN(spread) ? 0.6 : 1);
            } else {
                change = Change.NONE;
                certainty = sure * (Double.isNaN(spread) ? 0.6 : 1);
            }
            return new Source(change, stops, red, blue, spread, certainty);
        }

        /** Of a light that should be off. */
        private Source unwanted(int s) {
            double brings = 0;
            double all = 0;
            for (int p : pixels) {
                brings += weights[s] * luminance(parts.get(s), p);
                all += luminance(frame, p);
            }
            double share = brings / Math.max(1e-9, all);
            boolean lit = share > LIT && weights[s] > 3 * unsure[s];
            return new Source(
                    lit ? Change.LIT : Change.NONE,
                    stops(s),
                    0,
                    0,
                    Double.NaN,
                    lit ? Math.min(1, share / LIT / 3) : 0.6);
        }

        /** Pixels where the source should bring most of the light. */
        private int[] ruled(int s) {
            return Arrays.stream(pixels)
                    .filter(
                            p -> {
                                double own = luminance(parts.get(s), p);
                                double all = 0;
                                for (int o = 0; o < weights.length; o++) {
                                    all += on(o) ? luminance(parts.get(o), p) : 0;
                                }
                                return own > RULES * all && own > 4 * FLOOR;
                            })
                    .toArray();
        }

        /** Stops of what is left for the source at a pixel over what its weight would bring. */
        private double ratio(int s, int p) {
            double left = luminance(frame, p);
            for (int o = 0; o < weights.length; o++) {
                left -= o == s ? 0 : weights[o] * luminance(parts.get(o), p);
            }
            double own = luminance(parts.get(s), p);
            double floor = 0.02 * own + FLOOR / 2;
            return log2(
                    Math.max(floor, left) / Math.max(floor, Math.max(weights[s], 0.02) * own));
        }

        /** Stops of each channel over what should be, median over pixels. */
        private double[] channels(int s, int[] ruled) {
            double[] stops = new double[3];
            for (int c = 0; c < 3; c++) {
                double[] each = new double[ruled.length];
                int n = 0;
                for (int p : ruled) {
                    double own = parts.get(s)[p * 3 + c];
                    if (own > 2 * FLOOR) {
                        double left = frame[p * 3 + c];
                        for (int o = 0; o < weights.length; o++) {
                            left -= o == s ? 0 : weights[o] * parts.get(o)[p * 3 + c];
                        }
                        each[n++] = log2(Math.max(0.01 * own, left) / own);
                    }
                }
                // A channel that the light hardly has is not told of: as the source as a whole.
                stops[c] = n >= LEAST_PIXELS / 2 ? median(Arrays.copyOf(each, n)) : stops(s);
            }
            return stops;
        }

        private static double luminance(float[] rgb, int p) {
            return Srgb.luminance(rgb[p * 3], rgb[p * 3 + 1], rgb[p * 3 + 2]);
        }

        private static double median(double[] of) {
            double[] sorted = of.clone();
            Arrays.sort(sorted);
            return sorted[sorted.length / 2];
        }

        private static double log2(double v) {
            return Math.log(v) / Math.log(2);
        }
    }
}

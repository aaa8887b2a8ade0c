package lookstep.simulator.model.plates;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Which pixels of taken plates show people. The rendered scene says about where they stand; each
 * outline is moved to where surfaces change, and near it every pixel goes to the side whose nearby
 * pixels throw back the lights as it does, with neighbours alike held together.
 */
public final class CastFinding {
    private static final int ROUNDS = 2;

    /** Width of the doubtful band each side of an outline, of a figure's height. */
    private static final double BAND = 0.035;

    private static final int SMOOTHING = 4;
    private static final double NEIGHBOUR = 0.45;

    /** Differences beyond this, in units of noise squared, are all alike: another surface. */
    private static final double OTHER = 30;

    private CastFinding() {}

    /**
     * What was found.
     *
     * @param certainty of all people, 0..1: the mean of theirs
     */
    public record Found(Cast cast, List<Person> people, double certainty) {
        public Found {
            people = List.copyOf(people);
        }
    }

    /**
     * One person.
     *
     * @param shiftX how far from the prior's place, share of the width, positive to the right
     * @param shiftY the same down, share of the height
     * @param certainty 0..1: how much of the outline lies where surfaces change, and how well the
     *     shape kept to the prior's
     */
    public record Person(double shiftX, double shiftY, double certainty) {}

    /**
     * Finds them.
     *
     * @param prior about where they are, sized as the plates
     * @throws IllegalArgumentException if the sizes differ
     */
    public static Found of(LinearPlates plates, Cast prior) {
        int w = plates.width();
        int h = plates.height();
        if (prior.width() != w || prior.height() != h) {
            throw new IllegalArgumentException(
                    "a prior of %d x %d for plates of %d x %d pixels"
                            .formatted(prior.width(), prior.height(), w, h));
        }
        LightFeatures features = LightFeatures.of(plates);
        List<FigurePlace> places = new ArrayList<>();
        for (int f = 0; f < prior.people(); f++) {
            places.add(FigurePlace.of(prior, f, features));
        }
        Cast moved = moved(prior, places);
        int band = Math.max(2, (int) Math.round(BAND * tallest(prior)));
        short[] label = moved.figure().clone();
        for (int round = 0; round < ROUNDS; round++) {
            label = new Refined(features, label, w, h, band).label();
        }
        boolean[] skin = new boolean[w * h];
        for (int p = 0; p < skin.length; p++) {
            skin[p] = moved.skin()[p] && label[p] == moved.figure()[p];
        }
        List<Person> people = new ArrayList<>();
        double sum = 0;
        for (FigurePlace place : places) {
            double kept = overlap(label, moved.figure(), place.figure);
            double certainty =
                    Math.min(1, Math.max(0, (place.onEdge - 0.3) / 0.5))
                            * Math.min(1, Math.max(0, (kept - 0.5) / 0.35));
            sum += certainty;
            people.add(new Person(place.shiftX / w, place.shiftY / h, certainty));
        }
        return new Found(
                new Cast(w, h, label, skin), people, people.isEmpty() ? 0 : sum / people.size());
    }

    /** The prior with each figure at its place; nearer ones, whose feet are lower, in front. */
    private static Cast moved(Cast prior, List<FigurePlace> places) {
        int w = prior.width();
        int h = prior.height();
        int[] feet = new int[places.size()];
        for (int p = 0; p < w * h; p++) {
            if (prior.figure()[p] >= 0) {
                int f = prior.figure()[p];
                feet[f] = Math.max(feet[f], p / w);
            }
        }
        List<FigurePlace> fromFar = new ArrayList<>(places);
        fromFar.sort((a, b) -> Integer.compare(feet[a.figure], feet[b.figure]));
        short[] figure = new short[w * h];
        boolean[] skin = new boolean[w * h];
        Arrays.fill(figure, (short) -1);
        for (FigurePlace place : fromFar) {
            for (int y = 0; y < h; y++) {
                for (int x = 0; x < w; x++) {
                    int[] from = place.back(x, y);
                    if (from[0] >= 0 && from[1] >= 0 && from[0] < w && from[1] < h) {
                        int q = from[1] * w + from[0];
                        if (prior.figure()[q] == place.figure) {
                            figure[y * w + x] = (short) place.figure;
                            skin[y * w + x] = prior.skin()[q];
                        }
                    }
                }
            }
        }
        return new Cast(w, h, figure, skin);
    }

    private static int tallest(Cast prior) {
        int[] top = new int[prior.people()];
        int[] bottom = new int[top.length];
        Arrays.fill(top, prior.height());
        for (int p = 0; p < prior.figure().length; p++) {
            int f = prior.figure()[p];
            if (f >= 0) {
                top[f] = Math.min(top[f], p / prior.width());
                bottom[f] = Math.max(bottom[f], p / prior.width());
            }
        }
        int tallest = 0;
        for (int f = 0; f < top.length; f++) {
            tallest = Math.max(tallest, bottom[f] - top[f] + 1);
        }
        return tallest;
    }

    private static double overlap(short[] a, short[] b, int figure) {
        int both = 0;
        int either = 0;
        for (int p = 0; p < a.length; p++) {
            both += a[p] == figure && b[p] == figure ? 1 : 0;
            either += a[p] == figure || b[p] == figure ? 1 : 0;
        }
        return either == 0 ? 0 : both / (double) either;
    }

    /** One round: labels near outlines decided anew. */
    private static final class Refined {
        private final LightFeatures features;
        private final short[] from;
        private final int w;
        private final int h;
        private final int band;
        private final int[] depth;

        Refined(LightFeatures features, short[] from, int w, int h, int band) {
            this.features = features;
            this.from = from;
            this.w = w;
            this.h = h;
            this.band = band;
            this.depth = depth();
        }

        /** Steps to the nearest pixel of another label, up to one more than the band. */
        private int[] depth() {
            int[] steps = new int[w * h];
            Arrays.fill(steps, band + 1);
            for (int turn = 1; turn <= band; turn++) {
                for (int y = 0; y < h; y++) {
                    for (int x = 0; x < w; x++) {
                        int p = y * w + x;
                        if (steps[p] > turn && touches(steps, x, y, turn)) {
                            steps[p] = turn;
                        }
                    }
                }
            }
            return steps;
        }

        private boolean touches(int[] steps, int x, int y, int turn) {
            int p = y * w + x;
            return (x > 0 && meets(steps, p, p - 1, turn))
                    || (x < w - 1 && meets(steps, p, p + 1, turn))
                    || (y > 0 && meets(steps, p, p - w, turn))
                    || (y < h - 1 && meets(steps, p, p + w, turn));
        }

        private boolean meets(int[] steps, int p, int q, int turn) {
            return turn == 1 ? from[p] != from[q] : from[p] == from[q] && steps[q] == turn - 1;
        }

        short[] label() {
            short[][] names = new short[w * h][];
            float[][] costs = new float[w * h][];
            short[] label = from.clone();
            for (int y = 0; y < h; y++) {
                for (int x = 0; x < w; x++) {
                    int p = y * w + x;
                    if (depth[p] <= band) {
                        weigh(x, y, names, costs);
                        label[p] = names[p][least(costs[p])];
                    }
                }
            }
            for (int turn = 0; turn < SMOOTHING; turn++) {
                for (int y = 1; y < h - 1; y++) {
                    for (int x = 1; x < w - 1; x++) {
                        int p = y * w + x;
                        if (names[p] != null) {
                            label[p] = smoothed(p, names[p], costs[p], label);
                        }
                    }
                }
            }
            return label;
        }

        /** What it costs to give a pixel to each label that is near. */
        private void weigh(int x, int y, short[][] names, float[][] costs) {
            int p = y * w + x;
            int reach = 2 * band + 2;
            short[] near = new short[8];
            double[] best = new double[8];
            double[] second = new double[8];
            int n = 0;
            for (int v = Math.max(0, y - reach); v <= Math.min(h - 1, y + reach); v += 2) {
                for (int u = Math.max(0, x - reach); u <= Math.min(w - 1, x + reach); u += 2) {
                    int q = v * w + u;
                    if (depth[q] < 2) {
                        continue;
                    }
                    int at = 0;
                    while (at < n && near[at] != from[q]) {
                        at++;
                    }
                    if (at == n) {
                        if (n == near.length) {
                            continue;
                        }
                        near[n] = from[q];
                        best[n] = OTHER;
                        second[n++] = OTHER;
                    }
                    // A pixel near the outline is itself not sure of its label.
                    double sure = 1 - Math.min(band, depth[q]) / (double) band;
                    double apart = Math.hypot(u - x, v - y) / reach;
                    double cost = features.square(p, q) + 4 * sure * sure + 4 * apart * apart;
                    if (cost < best[at]) {
                        second[at] = best[at];
                        best[at] = cost;
                    } else if (cost < second[at]) {
                        second[at] = cost;
                    }
                }
            }
            boolean own = false;
            for (int i = 0; i < n; i++) {
                own |= near[i] == from[p];
            }
            if (!own && n < near.length) {
                near[n] = from[p];
                best[n] = OTHER / 2;
                second[n++] = OTHER / 2;
            }
            names[p] = Arrays.copyOf(near, n);
            costs[p] = new float[n];
            double far = Math.min(band, depth[p]) / (double) band;
            for (int i = 0; i < n; i++) {
                double prior = near[i] == from[p] ? 0 : 1 + 5 * far * far;
                costs[p][i] = (float) ((best[i] + second[i]) / 4 + prior);
            }
        }

        private static int least(float[] of) {
            int best = 0;
            for (int i = 1; i < of.length; i++) {
                best = of[i] < of[best] ? i : best;
            }
            return best;
        }

        private short smoothed(int p, short[] names, float[] costs, short[] label) {
            int[] steps = {-1, 1, -w, w, -w - 1, -w + 1, w - 1, w + 1};
            int best = 0;
            double least = Double.POSITIVE_INFINITY;
            for (int i = 0; i < names.length; i++) {
                double cost = costs[i];
                for (int step : steps) {
                    if (label[p + step] != names[i]) {
                        cost += 2 * NEIGHBOUR * Math.exp(-features.square(p, p + step) / 8);
                        cost += NEIGHBOUR / 2;
                    }
                }
                if (cost < least) {
                    least = cost;
                    best = i;
                }
            }
            return names[best];
        }
    }
}

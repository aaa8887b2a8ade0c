package lookstep.server.order;

import java.util.Arrays;
import java.util.Comparator;
import java.util.Random;
import java.util.stream.IntStream;

/**
 * A good set and order of any number of stops: what gains most a second is put where it costs
 * least, the row is straightened, some of it is torn out or something else forced in, and it is
 * filled again; now and then a worse row is gone on from, less and less so (iterated local search
 * for the orienteering problem, as surveyed by P. Vansteenwegen, W. Souffriau and D. Van
 * Oudheusden, 2011; annealing: S. Kirkpatrick, C. Gelatt and M. Vecchi, 1983; from memory). A given
 * number of steps, no clock, a seed of its own: the same question has the same answer.
 */
final class InsertionSearch {
    private static final long SEED = 20_240_611;
    private static final int ROUNDS_WITHOUT_GAIN = 150;
    private static final int MOST_FORCED = 4;
    // share of the value that a row may be worse by at the start, on average; our figure
    private static final double WARMTH = 0.012;
    private static final double WORTH_EXCHANGING = 0.985;

    private final Stops stops;
    private final int window;
    private final int[][] stopsOf;
    private final Random random = new Random(SEED);
    private final Row row;
    private final Straightening straightening;
    private final int firstFree;

    /** Unit by unit, all others, the ones with the shortest ways first. */
    private final int[][] nearest;

    /** A stop, -1 if it may come nowhere; before which place of the row; and what it adds. */
    private record Place(int stop, int at, int longer) {}

    private InsertionSearch(Stops stops, int window) {
        this.stops = stops;
        this.window = window;
        row = new Row(stops);
        straightening = new Straightening(stops, row);
        firstFree = stops.somethingMustBeFirst() ? 1 : 0;
        stopsOf = new int[stops.units()][];
        for (int u = 0; u < stopsOf.length; u++) {
            stopsOf[u] = stops.stopsOf(u);
        }
        nearest = new int[stops.units()][];
    }

    /**
     * @param steps how many places of rows to look at
     */
    static int[] best(Stops stops, int window, long steps) {
        return new InsertionSearch(stops, window).run(steps);
    }

    private int[] run(long steps) {
        fill(0);
        int[] best = row.copy();
        long bestValue = row.value();
        long bestTime = row.milliseconds();
        int[] current = best;
        long currentValue = bestValue;
        int without = 0;
        while (row.steps() < steps && best.length > firstFree) {
            double left = 1 - row.steps() / (double) steps;
            change();
            fill(random.nextInt(4) * 0.4);
            if (row.value() > WORTH_EXCHANGING * currentValue) {
                exchange();
            }
            if (row.milliseconds() > window) {
                // a change may take longer with nothing between; then nothing was put in
                row.set(current);
                continue;
            }
            double worse = -WARMTH * left * bestValue * Math.log(1 - random.nextDouble());
            if (row.value() >= currentValue - worse) {
                current = row.copy();
                currentValue = row.value();
            }
            boolean quicker = row.value() == bestValue && row.milliseconds() < bestTime;
            if (row.value() > bestValue || quicker) {
                best = row.copy();
                bestValue = row.value();
                bestTime = row.milliseconds();
                without = 0;
            } else if (++without > ROUNDS_WITHOUT_GAIN) {
                without = 0;
                current = best;
                currentValue = bestValue;
            }
            row.set(current);
        }
        return best;
    }

    private void change() {
        if (random.nextInt(3) == 0) {
            force();
        } else {
            tear();
        }
    }

    /** Puts in what fits, best gain a second first; noise makes another choice each time. */
    private void fill(double noise) {
        double[] liking = new double[stopsOf.length];
        // the chance costs time too, most with short rows
        row.looked(4 * liking.length);
        for (int u = 0; u < liking.length; u++) {
            liking[u] = 1 + noise * (random.nextDouble() - 0.5);
        }
        boolean straightened = false;
        while (true) {
            if (putBest(liking)) {
                straightened = false;
            } else if (!straightened && straightening.run()) {
                straightened = true;
            } else {
                return;
            }
        }
    }

    private boolean putBest(double[] liking) {
        double bestScore = 0;
        Place best = null;
        long room = window - row.milliseconds();
        for (int unit = 0; unit < stopsOf.length; unit++) {
            if (row.has(unit)) {
                continue;
            }
            Place place = cheapest(unit);
            if (place.longer > room || place.stop < 0) {
                continue;
            }
            double score =
                    stops.mustBeFirst(unit)
                            ? Double.MAX_VALUE
                            : row.gain(unit) * liking[unit] / (1000.0 + Math.max(0, place.longer));
            if (score > bestScore) {
                bestScore = score;
                best = place;
            }
        }
        if (best == null) {
            return false;
        }
        row.insert(best.stop, best.at);
        return true;
    }

    /** Where a unit adds least to the time. */
    private Place cheapest(int unit) {
        int least = Stops.NEVER;
        int leastStop = -1;
        int leastAt = 0;
        for (int stop : stopsOf[unit]) {
            for (int at = 0; at <= row.length(); at++) {
                int add = row.longer(stop, at);
                if (add < least) {
                    least = add;
                    leastStop = stop;
                    leastAt = at;
                }
            }
        }
        return new Place(leastStop, leastAt, least);
    }

    /** One out for one that gains more, while there is such a pair. */
    private void exchange() {
        boolean better = true;
        while (better) {
            better = false;
            long[] losses = row.losses();
            for (int i = firstFree; i < row.length() && !better; i++) {
                better = exchangeAt(i, losses[row.unitAt(i)]);
            }
        }
    }

    private boolean exchangeAt(int at, long loss) {
        int out = row.unitAt(at);
        int[] met = row.metWithout(out);
        long[] gains = new long[stopsOf.length];
        boolean any = false;
        for (int unit = 0; unit < stopsOf.length; unit++) {
            gains[unit] = row.has(unit) ? 0 : row.gain(unit, met);
            any |= gains[unit] > loss;
        }
        if (!any) {
            return false;
        }
        int[] before = row.copy();
        row.remove(at, 1);
        int bestStop = -1;
        int bestAt = 0;
        long bestGain = loss;
        for (int unit = 0; unit < stopsOf.length; unit++) {
            for (int stop : stopsOf[unit]) {
                for (int to = 0; to <= row.length() && gains[unit] > bestGain; to++) {
                    if (row.milliseconds() + row.longer(stop, to) <= window) {
                        bestGain = gains[unit];
                        bestStop = stop;
                        bestAt = to;
                    }
                }
            }
        }
        if (bestStop < 0) {
            row.set(before);
            return false;
        }
        row.insert(bestStop, bestAt);
        fill(0);
        return true;
    }

    /** Takes out a piece, or single stops here and there. */
    private void tear() {
        int free = row.length() - firstFree;
        if (free <= 0) {
            return;
        }
        int most = random.nextInt(8) == 0 ? free : Math.max(1, Math.min(free / 2, 8));
        int size = 1 + random.nextInt(most);
        if (random.nextInt(3) > 0) {
            row.remove(firstFree + random.nextInt(free - size + 1), size);
        } else {
            boolean[] out = new boolean[stopsOf.length];
            for (int i = 0; i < size; i++) {
                out[row.unitAt(firstFree + random.nextInt(free))] = true;
            }
            row.remove(out);
        }
    }

    /** A unit that is not in, and some near it; then what costs much for little goes. */
    private void force() {
        int outside = stopsOf.length - row.length();
        if (outside == 0) {
            tear();
            return;
        }
        int pick = random.nextInt(outside);
        int seed = 0;
        while (row.has(seed) || pick-- > 0) {
            seed++;
        }
        boolean[] forced = new boolean[stopsOf.length];
        int count = 1 + random.nextInt(MOST_FORCED);
        forceIn(seed, forced);
        int[] near = nearest(seed);
        for (int i = 0; i < near.length && count > 1; i++) {
            if (!row.has(near[i]) && random.nextInt(4) > 0) {
                forceIn(near[i], forced);
                count--;
            }
        }
        while (row.milliseconds() > window && row.length() > firstFree) {
            eject(forced);
        }
    }

    private void forceIn(int unit, boolean[] forced) {
        Place place = cheapest(unit);
        if (place.stop >= 0) {
            row.insert(place.stop, place.at);
            forced[unit] = true;
        }
    }

    private void eject(boolean[] forced) {
        long[] losses = row.losses();
        double least = Double.MAX_VALUE;
        int worst = row.length() - 1;
        for (int i = firstFree; i < row.length(); i++) {
            if (forced[row.unitAt(i)]) {
                continue;
            }
            double noise = 0.7 + 0.6 * random.nextDouble();
            double score = noise * losses[row.unitAt(i)] / Math.max(1L, row.saved(i));
            if (score < least) {
                least = score;
                worst = i;
            }
        }
        row.looked(row.length());
        row.remove(worst, 1);
    }

    private int[] nearest(int unit) {
        if (nearest[unit] == null) {
            int[] cost = new int[stopsOf.length];
            Arrays.fill(cost, Stops.NEVER);
            for (int s : stopsOf[unit]) {
                for (int t = 0; t < stops.count(); t++) {
                    int u = stops.unitOf(t);
                    cost[u] = Math.min(cost[u], Math.min(stops.cost(s, t), stops.cost(t, s)));
                }
            }
            nearest[unit] =
                    IntStream.range(0, cost.length)
                            .filter(u -> u != unit && !stops.mustBeFirst(u))
                            .boxed()
                            .sorted(Comparator.comparingInt(u -> cost[u]))
                            .mapToInt(u -> u)
                            .toArray();
        }
        return nearest[unit];
    }
}

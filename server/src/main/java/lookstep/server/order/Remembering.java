package lookstep.server.order;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The best walk that comes back to no unit it remembers, where each unit makes the walk forget all
 * but its own neighbours (ng-routes: R. Baldacci, A. Mingozzi and R. Roberti, 2011; from memory).
 * Walks that cannot come above a floor are not followed ({@link Relaxed} says how far they can
 * come), so that the answer is the best walk, or that none is above the floor.
 */
final class Remembering {
    private static final int NEAR = 8;

    private final Stops stops;
    private final int window;
    private final int n;
    private final long[] near;
    private int work;

    private int[] stopOf = new int[1 << 12];
    private int[] timeOf = new int[1 << 12];
    private int[] parentOf = new int[1 << 12];
    private long[] memoryOf = new long[1 << 12];
    private double[] earnedOf = new double[1 << 12];
    private int labels;
    private final int[][] kept;
    private final int[] keptCount;

    /** What one search came to: a walk above the floor, none, or too much work. */
    static final class Found {
        private final double value;
        private final int[] walk;
        private final boolean complete;

        Found(double value, int[] walk, boolean complete) {
            this.value = value;
            this.walk = walk;
            this.complete = complete;
        }

        /** The walk's worth, or the floor if there is none above it. */
        double value() {
            return value;
        }

        /** Its stops; none if there is no walk above the floor. */
        int[] walk() {
            return walk.clone();
        }

        /** Whether all walks were followed. */
        boolean complete() {
            return complete;
        }
    }

    Remembering(Stops stops, int window) {
        this.stops = stops;
        this.window = window;
        n = stops.count();
        near = new long[stops.units()];
        kept = new int[n][64];
        keptCount = new int[n];
        for (int u = 0; u < near.length; u++) {
            near[u] = nearest(u);
        }
    }

    private long nearest(int unit) {
        int units = stops.units();
        int[] cost = new int[units];
        Arrays.fill(cost, Stops.NEVER);
        for (int s : stops.stopsOf(unit)) {
            for (int t = 0; t < n; t++) {
                int u = stops.unitOf(t);
                cost[u] = Math.min(cost[u], Math.min(stops.cost(s, t), stops.cost(t, s)));
            }
        }
        long set = 1L << unit;
        for (int i = 0; i < Math.min(NEAR, units - 1); i++) {
            int best = -1;
            for (int u = 0; u < units; u++) {
                if ((set >> u & 1) == 0 && (best < 0 || cost[u] < cost[best])) {
                    best = u;
                }
            }
            set |= 1L << best;
        }
        return set;
    }

    /** Whatever lies between two visits to a unit will remember it. False if there are no two. */
    boolean learn(int[] walk) {
        boolean learned = false;
        for (int i = 0; i < walk.length; i++) {
            for (int j = i + 1; j < walk.length; j++) {
                int unit = stops.unitOf(walk[i]);
                if (stops.unitOf(walk[j]) == unit) {
                    for (int k = i + 1; k < j; k++) {
                        near[stops.unitOf(walk[k])] |= 1L << unit;
                    }
                    learned = true;
                    break;
                }
            }
        }
        return learned;
    }

    int work() {
        return work;
    }

    /**
     * @param prices priced already
     * @param floor walks not above it are of no interest
     * @param most how many walks to follow at most
     */
    Found search(Relaxed prices, double floor, int most) {
        int width = Stops.NEVER;
        for (int s = 0; s <= n; s++) {
            for (int t = 0; t < n; t++) {
                width = Math.min(width, stops.cost(s, t));
            }
        }
        List<List<Integer>> buckets = new ArrayList<>();
        for (int b = 0; b <= window / width; b++) {
            buckets.add(new ArrayList<>());
        }
        Arrays.fill(keptCount, 0);
        labels = 0;
        double need = floor - prices.free();
        double best = stops.somethingMustBeFirst() ? -1e15 : 0;
        int bestLabel = -1;
        for (int t = 0; t < n; t++) {
            if (stops.cost(n, t) <= window) {
                add(prices, need, buckets, width, -1, t, stops.cost(n, t), 0, 0);
            }
        }
        for (List<Integer> bucket : buckets) {
            for (int label : bucket) {
                int s = stopOf[label];
                if (dominated(label, kept[s], keptCount[s])) {
                    continue;
                }
                if (keptCount[s] == kept[s].length) {
                    kept[s] = Arrays.copyOf(kept[s], keptCount[s] * 2);
                }
                kept[s][keptCount[s]++] = label;
                if (earnedOf[label] > best) {
                    best = earnedOf[label];
                    bestLabel = label;
                }
                for (int t = 0; t < n; t++) {
                    long unit = 1L << stops.unitOf(t);
                    long time = (long) timeOf[label] + stops.cost(s, t);
                    if ((memoryOf[label] & unit) == 0 && time <= window) {
                        add(
                                prices,
                                need,
                                buckets,
                                width,
                                label,
                                t,
                                (int) time,
                                memoryOf[label],
                                earnedOf[label]);
                    }
                }
                if (labels > most) {
                    work += labels;
                    return new Found(0, new int[0], false);
                }
            }
        }
        work += labels;
        boolean above = prices.free() + best > floor;
        return new Found(
                Math.max(floor, prices.free() + best), above ? walk(bestLabel) : new int[0], true);
    }

    private void add(
            Relaxed prices,
            double need,
            List<List<Integer>> buckets,
            int width,
            int parent,
            int stop,
            int time,
            long memory,
            double earned) {
        int unit = stops.unitOf(stop);
        long remembers = (memory & near[unit]) | (1L << unit);
        double value = earned + prices.earning(stop);
        if (value + prices.toGo(stop, time, remembers) <= need) {
            return;
        }
        if (labels == stopOf.length) {
            stopOf = Arrays.copyOf(stopOf, labels * 2);
            timeOf = Arrays.copyOf(timeOf, labels * 2);
            parentOf = Arrays.copyOf(parentOf, labels * 2);
            memoryOf = Arrays.copyOf(memoryOf, labels * 2);
            earnedOf = Arrays.copyOf(earnedOf, labels * 2);
        }
        stopOf[labels] = stop;
        timeOf[labels] = time;
        parentOf[labels] = parent;
        memoryOf[labels] = remembers;
        earnedOf[labels] = value;
        buckets.get(time / width).add(labels++);
    }

    private boolean dominated(int label, int[] others, int count) {
        for (int i = count - 1; i >= 0; i--) {
            int other = others[i];
            if (earnedOf[other] >= earnedOf[label]
                    && timeOf[other] <= timeOf[label]
                    && (memoryOf[other] & ~memoryOf[label]) == 0) {
                return true;
            }
        }
        return false;
    }

    private int[] walk(int label) {
        List<Integer> backwards = new ArrayList<>();
        for (int l = label; l >= 0; l = parentOf[l]) {
            backwards.add(0, stopOf[l]);
        }
        return backwards.stream().mapToInt(i -> i).toArray();
    }
}

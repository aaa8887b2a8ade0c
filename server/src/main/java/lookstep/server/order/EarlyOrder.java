package lookstep.server.order;

import java.util.Arrays;

/**
 * The order of given units that loses least if the window ends early, see {@link Stops#lateness},
 * and fits. Exact for up to {@link #MOST_EXACT} units, for which it looks at all that could be
 * better, best first; otherwise by moving stops while that helps.
 */
final class EarlyOrder {
    static final int MOST_EXACT = 12;
    private static final int MOST_STEPS = 50_000;

    private final Stops stops;
    private final int window;
    private final int[] ends;
    private final int[] bits;
    private final int[] roundMasks;
    private final int n;
    private final int all;
    private final long[] quickest;
    private final long[] earliest;
    private final long[] weight;
    private int[] best;
    private long bestLateness;
    private final int[] row;
    private int steps;

    private EarlyOrder(Stops stops, int[] given, int window) {
        this.stops = stops;
        this.window = window;
        int k = given.length;
        int[] units = Arrays.stream(given).map(stops::unitOf).toArray();
        ends = Arrays.stream(units).flatMap(u -> Arrays.stream(stops.stopsOf(u))).toArray();
        n = ends.length;
        all = (1 << k) - 1;
        bits = new int[n];
        roundMasks = new int[n];
        weight = new long[all + 1];
        for (int i = 0; i < n; i++) {
            for (int u = 0; u < k; u++) {
                bits[i] |= units[u] == stops.unitOf(ends[i]) ? 1 << u : 0;
            }
        }
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                boolean same = stops.roundOf(ends[i]) == stops.roundOf(ends[j]);
                roundMasks[i] |= stops.roundOf(ends[i]) >= 0 && same ? bits[j] : 0;
            }
        }
        for (int mask = 1; mask <= all; mask++) {
            int unit = Integer.numberOfTrailingZeros(mask);
            weight[mask] = weight[mask & (mask - 1)] + stops.importance(units[unit]);
        }
        quickest = new long[(all + 1) * n];
        earliest = new long[(all + 1) * n];
        row = new int[k];
        best = given.clone();
        bestLateness = stops.lateness(given);
    }

    /**
     * @param given a row of stops that fits
     */
    static int[] of(Stops stops, int[] given, int window) {
        if (given.length < 2) {
            return given;
        }
        if (given.length > MOST_EXACT) {
            return EarlyMoves.of(stops, given, window);
        }
        EarlyOrder order = new EarlyOrder(stops, given, window);
        order.fillToGo();
        order.extend(0, -1, 0, 0, 0);
        return order.best;
    }

    private int cost(int from, int to) {
        return stops.cost(from < 0 ? stops.start() : ends[from], ends[to]);
    }

    private boolean open(int mask, int from, int to) {
        boolean left =
                (mask & roundMasks[to]) != 0
                        && (from < 0 || stops.roundOf(ends[from]) != stops.roundOf(ends[to]));
        return (mask & bits[to]) == 0 && !left && cost(from, to) < Stops.NEVER;
    }

    /** What is still to come from each place, if time and lateness did not mind each other. */
    private void fillToGo() {
        for (int mask = all - 1; mask > 0; mask--) {
            long left = weight[all & ~mask];
            for (int from = 0; from < n; from++) {
                if ((mask & bits[from]) == 0) {
                    continue;
                }
                long time = Long.MAX_VALUE / 4;
                long late = Long.MAX_VALUE / 4;
                for (int to = 0; to < n; to++) {
                    if (open(mask, from, to)) {
                        int with = (mask | bits[to]) * n + to;
                        time = Math.min(time, cost(from, to) + quickest[with]);
                        late = Math.min(late, cost(from, to) * left + earliest[with]);
                    }
                }
                quickest[mask * n + from] = time;
                earliest[mask * n + from] = late;
            }
        }
    }

    private void extend(int mask, int from, int depth, long time, long lateness) {
        if (mask == all) {
            if (lateness < bestLateness) {
                bestLateness = lateness;
                best = row.clone();
            }
            return;
        }
        long left = weight[all & ~mask];
        long[] promise = new long[n];
        int open = 0;
        for (int to = 0; to < n; to++) {
            promise[to] = Long.MAX_VALUE;
            if (open(mask, from, to)) {
                int with = (mask | bits[to]) * n + to;
                long late = lateness + cost(from, to) * left + earliest[with];
                if (time + cost(from, to) + quickest[with] <= window && late < bestLateness) {
                    promise[to] = late;
                    open++;
                }
            }
        }
        for (; open > 0; open--) {
            int next = 0;
            for (int to = 1; to < n; to++) {
                next = promise[to] < promise[next] ? to : next;
            }
            if (promise[next] >= bestLateness || steps++ > MOST_STEPS) {
                return;
            }
            promise[next] = Long.MAX_VALUE;
            row[depth] = ends[next];
            extend(
                    mask | bits[next],
                    next,
                    depth + 1,
                    time + cost(from, next),
                    lateness + cost(from, next) * left);
        }
    }
}

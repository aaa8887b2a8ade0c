package lookstep.server.order;

import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * The most valuable set of units that fits the window, proven, and of several the one that is done
 * first: the quickest way through every subset (M. Held and R. M. Karp 1962, from memory), then the
 * value of each that fits. The work doubles with each unit: 16 take some 20 ms.
 */
final class SubsetSearch {
    private final Stops stops;
    private final int window;
    private final int n;
    private final int all;
    private final int[] time;
    private final int[] quickest;
    private int bestMask;
    private long bestValue = -1;

    private SubsetSearch(Stops stops, int window) {
        this.stops = stops;
        this.window = window;
        n = stops.count();
        all = 1 << stops.units();
        time = new int[all * n];
        quickest = new int[all];
    }

    /** The best row, in the quickest order; empty if nothing fits. */
    static int[] best(Stops stops, int window) {
        SubsetSearch search = new SubsetSearch(stops, window);
        search.fillTimes();
        search.value(0, stops.units(), new int[stops.left().size()], 0);
        return search.row(search.bestMask);
    }

    private boolean entersLeftRound(int mask, int from, int to) {
        int round = stops.roundOf(to);
        if (round < 0 || (from < n && stops.roundOf(from) == round)) {
            return false;
        }
        return (mask & roundMask(round)) != 0;
    }

    private int roundMask(int round) {
        int mask = 0;
        for (int s = 0; s < n; s++) {
            mask |= stops.roundOf(s) == round ? 1 << stops.unitOf(s) : 0;
        }
        return mask;
    }

    private void fillTimes() {
        Arrays.fill(time, Stops.NEVER);
        Arrays.fill(quickest, Stops.NEVER);
        quickest[0] = 0;
        int[] bits = IntStream.range(0, n).map(s -> 1 << stops.unitOf(s)).toArray();
        int[] roundMasks =
                IntStream.range(0, n)
                        .map(s -> stops.roundOf(s) < 0 ? 0 : roundMask(stops.roundOf(s)))
                        .toArray();
        for (int to = 0; to < n; to++) {
            if (stops.cost(n, to) <= window) {
                time[bits[to] * n + to] = stops.cost(n, to);
            }
        }
        for (int mask = 1; mask < all; mask++) {
            for (int from = 0; from < n; from++) {
                int t = time[mask * n + from];
                if (t >= Stops.NEVER) {
                    continue;
                }
                quickest[mask] = Math.min(quickest[mask], t);
                for (int to = 0; to < n; to++) {
                    if ((mask & bits[to]) != 0) {
                        continue;
                    }
                    int later = t + stops.cost(from, to);
                    boolean left =
                            (mask & roundMasks[to]) != 0
                                    && stops.roundOf(from) != stops.roundOf(to);
                    int index = (mask | bits[to]) * n + to;
                    if (later <= window && !left && later < time[index]) {
                        time[index] = later;
                    }
                }
            }
        }
    }

    /** Goes through all masks, from the highest unit down, with what the chosen ones meet. */
    private void value(int mask, int unit, int[] met, long sum) {
        if (unit == 0) {
            boolean better =
                    sum > bestValue || (sum == bestValue && quickest[mask] < quickest[bestMask]);
            if (quickest[mask] <= window && better) {
                bestValue = sum;
                bestMask = mask;
            }
            return;
        }
        value(mask, unit - 1, met, sum);
        int[] gains = stops.gains()[unit - 1];
        int[] with = met.clone();
        long more = sum;
        for (int wish = 0; wish < met.length; wish++) {
            if (gains[wish] > met[wish]) {
                more += gains[wish] - met[wish];
                with[wish] = gains[wish];
            }
        }
        value(mask | 1 << (unit - 1), unit - 1, with, more);
    }

    private int[] row(int mask) {
        int[] row = new int[Integer.bitCount(mask)];
        int rest = mask;
        for (int at = row.length - 1; at >= 0; at--) {
            row[at] = at == row.length - 1 ? lastOf(mask) : before(rest, row[at + 1]);
            if (at > 0) {
                rest &= ~(1 << stops.unitOf(row[at]));
            }
        }
        return row;
    }

    private int lastOf(int mask) {
        for (int stop = 0; stop < n; stop++) {
            if (time[mask * n + stop] == quickest[mask]) {
                return stop;
            }
        }
        throw new IllegalStateException("no way leads through the set");
    }

    /** The last of the set on the quickest way to the next stop. */
    private int before(int mask, int next) {
        int end = time[(mask | 1 << stops.unitOf(next)) * n + next];
        for (int stop = 0; stop < n; stop++) {
            int t = time[mask * n + stop];
            boolean joins = t < Stops.NEVER && t + stops.cost(stop, next) == end;
            if (joins && !entersLeftRound(mask, stop, next)) {
                return stop;
            }
        }
        throw new IllegalStateException("no way leads to the next stop");
    }
}

package lookstep.server.order;

import java.util.Arrays;

/**
 * The running order with most of its rules taken away and prices put in their place: a walk of
 * stops that may come back to a unit, but not at once, each visit earning what the prices leave.
 * Whatever the prices, no order within the window is worth more than the best such walk.
 *
 * <p>Two kinds of prices (Lagrange multipliers, thousandths of importance): one a unit, paid for
 * each visit and given back once, so that coming back does not pay; and one a wish, given for
 * nothing, so that only what is met above it earns: for any set of shots the most that one of them
 * meets of a wish is at most the price plus the sum of what each meets above it.
 *
 * <p>The walk is found backwards over a grid of time whose steps are counted down, never up
 * (state-space relaxation with two-cycles left out: N. Christofides, A. Mingozzi and P. Toth, 1981;
 * from memory).
 */
final class Relaxed {
    private static final int END = -1;
    private static final double NOTHING = -1e15;

    private final Stops stops;
    private final int window;
    private final int n;
    private final int stepMillis;
    private final int cells;
    private final int[] steps;
    private final int[] unitOf;
    private final int[][] gains;
    private final long given;
    private final double[] best;
    private final double[] second;
    private final int[] next;
    private final int[] secondNext;

    private double[] visitPrice;
    private double[] wishPrice;
    private final double[] earning;
    private double free;

    private Relaxed(Stops stops, int window, int stepMillis) {
        this.stops = stops;
        this.window = window;
        this.stepMillis = stepMillis;
        n = stops.count();
        cells = window / stepMillis + 1;
        steps = new int[(n + 1) * n];
        unitOf = new int[n];
        for (int s = 0; s <= n; s++) {
            for (int t = 0; t < n; t++) {
                int cost = stops.cost(s, t);
                steps[s * n + t] = cost >= Stops.NEVER ? cells : cost / stepMillis;
            }
        }
        for (int s = 0; s < n; s++) {
            unitOf[s] = stops.unitOf(s);
        }
        gains = new int[stops.units()][];
        int[] first = new int[stops.left().size()];
        for (int u = 0; u < gains.length; u++) {
            first = stops.mustBeFirst(u) ? stops.gains()[u] : first;
        }
        given = Arrays.stream(first).asLongStream().sum();
        for (int u = 0; u < gains.length; u++) {
            gains[u] = stops.gains()[u].clone();
            for (int w = 0; w < first.length; w++) {
                gains[u][w] = Math.max(0, gains[u][w] - first[w]);
            }
        }
        best = new double[cells * n];
        second = new double[cells * n];
        next = new int[cells * n];
        secondNext = new int[cells * n];
        earning = new double[n];
        visitPrice = new double[gains.length];
        wishPrice = new double[first.length];
    }

    /** A grid of about 1500 steps, or null if a way is too short to be counted on one. */
    static Relaxed of(Stops stops, int window) {
        int shortest = Stops.NEVER;
        for (int s = 0; s <= stops.count(); s++) {
            for (int t = 0; t < stops.count(); t++) {
                shortest = Math.min(shortest, stops.cost(s, t));
            }
        }
        int step = Math.max(100, window / 1500);
        return shortest < step ? null : new Relaxed(stops, window, step);
    }

    void price(double[] visits, double[] wishes) {
        visitPrice = visits.clone();
        wishPrice = wishes.clone();
        free = given;
        for (double price : wishPrice) {
            free += price;
        }
        for (double price : visitPrice) {
            free += price;
        }
        double[] unit = new double[gains.length];
        for (int u = 0; u < unit.length; u++) {
            for (int w = 0; w < wishPrice.length; w++) {
                unit[u] += Math.max(0, gains[u][w] - wishPrice[w]);
            }
            unit[u] -= visitPrice[u];
        }
        for (int s = 0; s < n; s++) {
            earning[s] = unit[unitOf[s]];
        }
        fill();
    }

    private void fill() {
        for (int k = 0; k < cells; k++) {
            for (int s = 0; s < n; s++) {
                double one = 0;
                double two = NOTHING;
                int oneNext = END;
                int twoNext = END;
                int oneUnit = END;
                int back = unitOf[s];
                for (int t = 0; t < n; t++) {
                    int left = k - steps[s * n + t];
                    if (left < 0) {
                        continue;
                    }
                    int at = left * n + t;
                    boolean returns = next[at] >= 0 && unitOf[next[at]] == back;
                    double value = earning[t] + (returns ? second[at] : best[at]);
                    if (value <= two) {
                        continue;
                    }
                    if (value > one) {
                        if (oneUnit != unitOf[t]) {
                            two = one;
                            twoNext = oneNext;
                        }
                        one = value;
                        oneNext = t;
                        oneUnit = unitOf[t];
                    } else if (oneUnit != unitOf[t]) {
                        two = value;
                        twoNext = t;
                    }
                }
                int at = k * n + s;
                best[at] = one;
                next[at] = oneNext;
                second[at] = two;
                secondNext[at] = twoNext;
            }
        }
    }

    /** No order within the window is worth more. */
    double bound() {
        double most = stops.somethingMustBeFirst() ? NOTHING : 0;
        for (int t = 0; t < n; t++) {
            int left = cells - 1 - steps[n * n + t];
            if (left >= 0) {
                most = Math.max(most, earning[t] + best[left * n + t]);
            }
        }
        return free + most;
    }

    /** The walk that {@link #bound} is of. */
    int[] walk() {
        int[] walk = new int[cells];
        int length = 0;
        double most = stops.somethingMustBeFirst() ? NOTHING : 0;
        int now = END;
        int left = 0;
        for (int t = 0; t < n; t++) {
            int k = cells - 1 - steps[n * n + t];
            if (k >= 0 && earning[t] + best[k * n + t] > most) {
                most = earning[t] + best[k * n + t];
                now = t;
                left = k;
            }
        }
        int before = END;
        while (now >= 0) {
            walk[length++] = now;
            int at = left * n + now;
            boolean returns = next[at] >= 0 && before >= 0 && unitOf[next[at]] == unitOf[before];
            int to = returns ? secondNext[at] : next[at];
            if (to >= 0) {
                left -= steps[now * n + to];
            }
            before = now;
            now = to;
        }
        return Arrays.copyOf(walk, length);
    }

    double free() {
        return free;
    }

    double earning(int stop) {
        return earning[stop];
    }

    /** The most that can still be earned behind a stop, not coming back to what is remembered. */
    double toGo(int stop, int time, long remembered) {
        int at = (window - time) / stepMillis * n + stop;
        boolean known = next[at] >= 0 && (remembered >> unitOf[next[at]] & 1) != 0;
        return known ? second[at] : best[at];
    }

    int[] gains(int unit) {
        return gains[unit];
    }
}

package lookstep.server.order;

import java.util.Arrays;
import java.util.OptionalDouble;

/**
 * What no order within the window can be worth more than: relaxed walks for short windows, with
 * prices that are bettered step by step (subgradients; M. Held and R. M. Karp 1971, B. T. Polyak
 * 1969, from memory), and a tree for long ones. Rounds that may be cut short are let be interrupted
 * here, which only makes the bound higher.
 */
final class UpperBound {
    private static final int MOST_UNITS = 64;

    /** Stops; up to that the walks are mostly exact, above it the tree is nearer. */
    private static final int SHORT = 9;

    private static final int PLAIN_STEPS = 80;
    private static final int REMEMBERING_STEPS = 150;
    private static final int MOST_LABELS = 100_000;
    private static final int MOST_WORK = 700_000;

    /** Near enough: a bound this little above what was found is not bettered. */
    private static final double NEAR_ENOUGH = 0.005;

    private final Stops stops;
    private final int window;
    private final Relaxed relaxed;
    private final long value;
    private double[] visits;
    private double[] wishes;
    private double[] bestVisits;
    private double[] bestWishes;
    private double bound = Double.MAX_VALUE;
    private double stride = 1;
    private int without;

    private UpperBound(Stops stops, int window, Relaxed relaxed, long value) {
        this.stops = stops;
        this.window = window;
        this.relaxed = relaxed;
        this.value = value;
        visits = new double[stops.units()];
        wishes = new double[stops.left().size()];
        bestVisits = visits;
        bestWishes = wishes;
    }

    /**
     * What no order is worth more than.
     *
     * @param found the best order that is known; the better it is, the sooner the bound is near
     * @return thousandths of importance; empty if there is too much to count
     */
    static OptionalDouble of(Stops stops, int window, int[] found) {
        Relaxed relaxed = stops.units() > MOST_UNITS ? null : Relaxed.of(stops, window);
        if (relaxed == null) {
            return OptionalDouble.empty();
        }
        UpperBound bound = new UpperBound(stops, window, relaxed, stops.value(found));
        bound.startFrom(found);
        if (found.length <= SHORT) {
            bound.walks();
        }
        if (!bound.near()) {
            bound.bound = Math.min(bound.bound, 1000 * TreeBound.of(stops, window, found));
        }
        return OptionalDouble.of(Math.max((double) bound.value, Math.floor(bound.bound + 1e-3)));
    }

    private void walks() {
        plain();
        if (!near()) {
            remembering();
        }
    }

    private boolean near() {
        return bound <= value * (1 + NEAR_ENOUGH);
    }

    /**
     * A wish costs what the second best of those made meets of it: then the found order is exact.
     */
    private void startFrom(int[] found) {
        for (int w = 0; w < wishes.length; w++) {
            int most = 0;
            int second = 0;
            for (int stop : found) {
                int meets = relaxed.gains(stops.unitOf(stop))[w];
                second = Math.max(second, Math.min(most, meets));
                most = Math.max(most, meets);
            }
            wishes[w] = second;
        }
        bestWishes = wishes;
    }

    private void plain() {
        for (int i = 0; i < PLAIN_STEPS && !near(); i++) {
            relaxed.price(visits, wishes);
            judge(relaxed.bound());
            step(relaxed.walk(), relaxed.bound());
        }
    }

    private void judge(double now) {
        if (now < bound - 1e-9) {
            without = bound - now > 1e-4 * bound ? 0 : without + 1;
            bound = now;
            bestVisits = visits;
            bestWishes = wishes;
        } else if (++without > 4) {
            without = 0;
            stride /= 2;
            visits = bestVisits;
            wishes = bestWishes;
        }
    }

    private void remembering() {
        Remembering memory = new Remembering(stops, window);
        visits = bestVisits;
        wishes = bestWishes;
        stride = 0.5;
        without = 0;
        double share = 0.25;
        for (int i = 0; i < REMEMBERING_STEPS && !near() && memory.work() < MOST_WORK; i++) {
            double enough = value * (1 + 0.9 * NEAR_ENOUGH);
            double floor = Math.max(enough, bound - share * (bound - value));
            relaxed.price(visits, wishes);
            Remembering.Found found = memory.search(relaxed, floor, MOST_LABELS);
            if (!found.complete()) {
                share /= 2;
                visits = bestVisits;
                wishes = bestWishes;
                continue;
            }
            share = Math.min(1, share * 1.2);
            judge(found.value());
            memory.learn(found.walk());
            if (found.walk().length > 0) {
                step(found.walk(), found.value());
            }
        }
    }

    private void step(int[] walk, double now) {
        int[] times = new int[visits.length];
        for (int stop : walk) {
            times[stops.unitOf(stop)]++;
        }
        double[] byVisit = new double[visits.length];
        double[] byWish = new double[wishes.length];
        double square = 0;
        for (int u = 0; u < byVisit.length; u++) {
            byVisit[u] = visits[u] <= 0 && times[u] <= 1 ? 0 : 1 - times[u];
            square += byVisit[u] * byVisit[u];
        }
        for (int w = 0; w < byWish.length; w++) {
            byWish[w] = 1;
            for (int u = 0; u < times.length; u++) {
                byWish[w] -= relaxed.gains(u)[w] > wishes[w] ? times[u] : 0;
            }
            byWish[w] = wishes[w] <= 0 && byWish[w] > 0 ? 0 : byWish[w];
            square += byWish[w] * byWish[w];
        }
        if (square == 0) {
            return;
        }
        double length = stride * (now - value) / square;
        visits = moved(visits, byVisit, length);
        wishes = moved(wishes, byWish, length);
    }

    private static double[] moved(double[] prices, double[] slope, double length) {
        double[] moved = Arrays.copyOf(prices, prices.length);
        for (int i = 0; i < moved.length; i++) {
            moved[i] = Math.max(0, moved[i] - length * slope[i]);
        }
        return moved;
    }
}

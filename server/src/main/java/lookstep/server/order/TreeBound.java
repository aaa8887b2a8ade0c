package lookstep.server.order;

import java.util.Arrays;
import java.util.Comparator;
import java.util.PriorityQueue;
import java.util.stream.IntStream;

/**
 * What no order within a window can be worth more than, for windows in which most of the shots fit.
 * A running order and the shots it leaves out are a tree over all units: the order itself, which
 * begins at the root, and an edge from the root to each unit that is left out. So no order beats
 * the cheapest spanning tree, with prices for the time, for each unit's neighbours (two, if it is
 * made) and for each wish (see {@link Relaxed}). M. Held and R. M. Karp 1970 and 1971, for leaving
 * out as in the prize-collecting problem of E. Balas 1989; from memory.
 *
 * <p>A unit that is left out must not be a bridge to others. Where that would pay, in a room far
 * from the root, one more price holds: who makes any of a cluster goes into it, and out again or
 * ends there (see {@link Clusters}).
 */
final class TreeBound {
    private static final int FIRST_STEPS = 6000;
    private static final int STEPS = 80;
    private static final int LAST_STEPS = 1000;
    private static final int PATIENCE = 6;

    /** Pairs of units looked at; about a second. */
    private static final long MOST_WORK = 200_000_000;

    /** A part of the orders that cannot be worth more than this above the found one is done. */
    private static final double NEAR_ENOUGH = 0.005;

    /** Seconds; puts the price of time and the other prices on one scale. */
    private static final double USUAL_LEG = 20;

    private final int units;
    private final int root;
    private final double window;
    private final double given;
    private final double target;
    private final double[] seconds;
    private final double[][] apart;
    private final double[][] gains;
    private final double[] neighbourPrice;
    private final double[] wishPrice;
    private double timePrice;
    private final Clusters clusters;

    /** For going into each cluster and out of it. */
    private final double[] clusterPrice;

    /** Cluster by cluster, the share of each unit of those in it that are made or were found. */
    private final double[][] likely;

    private final boolean[] inFound;
    private final double[] around;
    private final int[] by;

    /** What an edge or the end at each unit costs there. */
    private final double[] joined;

    private int end;
    private long work;
    private final int[] neighbours;
    private final boolean[] out;
    private final double[] profit;
    private double way;
    private Choice[] choices;

    private enum Choice {
        MADE,
        LEFT_OUT
    }

    /** Unchanging once made. */
    private static final class Prices {
        private final double time;
        private final double[] neighbours;
        private final double[] wishes;
        private final double[] clusters;

        Prices(double time, double[] neighbours, double[] wishes, double[] clusters) {
            this.time = time;
            this.neighbours = neighbours;
            this.wishes = wishes;
            this.clusters = clusters;
        }
    }

    /** All orders in which these units are made or left out; null for those not settled. */
    private static final class Part {
        private final Choice[] settled;
        private final Prices prices;
        private final double bound;

        Part(Choice[] settled, Prices prices, double bound) {
            this.settled = settled;
            this.prices = prices;
            this.bound = bound;
        }
    }

    private TreeBound(Stops stops, int windowMillis, double value) {
        units = stops.units();
        root = units;
        target = value;
        int first = -1;
        for (int u = 0; u < units; u++) {
            first = stops.mustBeFirst(u) ? u : first;
        }
        int n = stops.count();
        int[] least = IntStream.range(0, units).map(stops::least).toArray();
        int begins = 0;
        if (first >= 0) {
            begins = Stops.NEVER;
            for (int t : stops.stopsOf(first)) {
                begins = Math.min(begins, stops.cost(n, t));
            }
        }
        apart = new double[units + 1][units + 1];
        for (double[] row : apart) {
            Arrays.fill(row, Stops.NEVER);
        }
        for (int s = 0; s <= n; s++) {
            for (int t = 0; t < n; t++) {
                int from = s == n || stops.unitOf(s) == first ? root : stops.unitOf(s);
                int to = stops.unitOf(t);
                boolean leads = stops.cost(s, t) < Stops.NEVER && (s < n || first < 0);
                if (leads) {
                    double add = (stops.cost(s, t) - least[to]) / 1000.0;
                    apart[from][to] = Math.min(apart[from][to], add);
                    apart[to][from] = apart[from][to] = Math.min(apart[from][to], apart[to][from]);
                }
            }
        }
        seconds = new double[units];
        for (int u = 0; u < units; u++) {
            seconds[u] = least[u] / 1000.0;
        }
        window = (windowMillis - begins) / 1000.0;
        int wishes = stops.left().size();
        gains = new double[units][wishes];
        double sum = 0;
        for (int w = 0; w < wishes; w++) {
            int met = first < 0 ? 0 : stops.gains()[first][w];
            sum += met / 1000.0;
            for (int u = 0; u < units; u++) {
                gains[u][w] = Math.max(0, stops.gains()[u][w] - met) / 1000.0;
            }
        }
        given = sum;
        if (first >= 0) {
            // it is the root; its own place is left out for nothing
            seconds[first] = 0;
            Arrays.fill(apart[first], Stops.NEVER);
            for (double[] row : apart) {
                row[first] = Stops.NEVER;
            }
        }
        neighbourPrice = new double[units + 1];
        wishPrice = new double[wishes];
        neighbours = new int[units + 1];
        out = new boolean[units];
        profit = new double[units];
        by = new int[units];
        joined = new double[units + 1];
        clusters = new Clusters(apart);
        clusterPrice = new double[clusters.count()];
        around = new double[clusters.count()];
        likely = new double[clusters.count()][units];
        inFound = new boolean[units];
    }

    /**
     * What no order is worth more than.
     *
     * @param found the best order that is known
     * @return importance
     */
    static double of(Stops stops, int window, int[] found) {
        double value = Worth.inImportance(stops.value(found));
        TreeBound bound = new TreeBound(stops, window, value);
        return bound.lowest(stops, found);
    }

    private double lowest(Stops stops, int[] found) {
        for (int stop : found) {
            inFound[stops.unitOf(stop)] = true;
        }
        for (int w = 0; w < wishPrice.length; w++) {
            double most = 0;
            double second = 0;
            for (int stop : found) {
                double meets = gains[stops.unitOf(stop)][w];
                second = Math.max(second, Math.min(most, meets));
                most = Math.max(most, meets);
            }
            wishPrice[w] = second;
        }
        timePrice = 0.5 * target / Math.max(1, window);
        PriorityQueue<Part> open =
                new PriorityQueue<>(Comparator.comparingDouble((Part p) -> -p.bound));
        open.add(priced(new Choice[units], FIRST_STEPS, 1));
        double enough = target * (1 + NEAR_ENOUGH);
        // what was settled on the way: orders that were put aside are worth this at most
        double aside = 0;
        while (work < MOST_WORK && !open.isEmpty()) {
            Part part = open.remove();
            if (part.bound <= Math.max(enough, aside)) {
                return Math.max(part.bound, aside);
            }
            Choice[] before = part.settled.clone();
            int unit = split(part, enough);
            if (!Arrays.equals(before, part.settled)) {
                aside = Math.max(aside, enough);
                take(part.prices);
                Part again = priced(part.settled, unit < 0 ? LAST_STEPS : STEPS, 0.3);
                double lower = Math.min(part.bound, again.bound);
                if (unit < 0) {
                    aside = Math.max(aside, Math.min(lower, valueOf(part.settled)));
                } else {
                    open.add(new Part(part.settled, again.prices, lower));
                }
                continue;
            }
            if (unit < 0) {
                take(part.prices);
                double lower = Math.min(part.bound, priced(part.settled, LAST_STEPS, 1).bound);
                aside = Math.max(aside, Math.min(lower, valueOf(part.settled)));
                continue;
            }
            for (Choice choice : Choice.values()) {
                Choice[] settled = part.settled.clone();
                settled[unit] = choice;
                take(part.prices);
                Part child = priced(settled, STEPS, 0.3);
                open.add(new Part(settled, child.prices, Math.min(part.bound, child.bound)));
            }
        }
        return Math.max(aside, open.isEmpty() ? enough : open.remove().bound);
    }

    /** What the units that are made come to, if all are settled. */
    private double valueOf(Choice[] settled) {
        double value = given;
        for (int w = 0; w < wishPrice.length; w++) {
            double most = 0;
            for (int u = 0; u < units; u++) {
                most = settled[u] == Choice.MADE ? Math.max(most, gains[u][w]) : most;
            }
            value += most;
        }
        return value;
    }

    /** Lowers the bound of a part of all orders from the prices that hold now. */
    private Part priced(Choice[] settled, int steps, double firstStride) {
        choices = settled;
        shareClusters();
        double lowest = Double.MAX_VALUE;
        Prices best = prices();
        double stride = firstStride;
        int without = 0;
        double enough = target * (1 + NEAR_ENOUGH);
        for (int i = 0; i < steps && stride > 1e-4 && lowest > enough; i++) {
            double now = tree();
            if (now < lowest - 1e-6) {
                without = lowest - now > 1e-5 * lowest ? 0 : without + 1;
                lowest = now;
                best = prices();
            } else {
                without++;
            }
            if (without > PATIENCE) {
                stride /= 1.5;
                without = 0;
            }
            step(now, stride);
        }
        return new Part(settled, best, lowest);
    }

    /** A cluster is gone into if one in it is made; so it is by as much as these are on average. */
    private void shareClusters() {
        for (int c = 0; c < likely.length; c++) {
            int[] in = clusters.units(c).stream().toArray();
            int[] made = Arrays.stream(in).filter(u -> choices[u] == Choice.MADE).toArray();
            if (made.length == 0) {
                made = Arrays.stream(in).filter(u -> inFound[u]).toArray();
            }
            Arrays.fill(likely[c], 0);
            for (int u : made) {
                likely[c][u] = 1.0 / made.length;
            }
        }
    }

    /**
     * The unit to make or leave out next: where the lesser of both bounds is least. Settles on the
     * way those of which one choice is not above what is enough.
     */
    private int split(Part part, double enough) {
        take(part.prices);
        choices = part.settled;
        int best = -1;
        double least = Double.MAX_VALUE;
        for (int u = 0; u < units; u++) {
            if (choices[u] != null) {
                continue;
            }
            choices[u] = Choice.MADE;
            double made = tree();
            choices[u] = Choice.LEFT_OUT;
            double leftOut = tree();
            choices[u] = null;
            if (made <= enough) {
                choices[u] = Choice.LEFT_OUT;
            } else if (leftOut <= enough) {
                choices[u] = Choice.MADE;
            } else if (made + leftOut < least) {
                least = made + leftOut;
                best = u;
            }
        }
        return best;
    }

    private Prices prices() {
        return new Prices(
                timePrice, neighbourPrice.clone(), wishPrice.clone(), clusterPrice.clone());
    }

    private void take(Prices prices) {
        timePrice = prices.time;
        System.arraycopy(prices.neighbours, 0, neighbourPrice, 0, units + 1);
        System.arraycopy(prices.wishes, 0, wishPrice, 0, wishPrice.length);
        System.arraycopy(prices.clusters, 0, clusterPrice, 0, clusterPrice.length);
    }

    /** Prices the tree; notes each unit's neighbours and what is left out. */
    private double tree() {
        work += (long) units * units;
        double sum = given + timePrice * window;
        for (double price : wishPrice) {
            sum += price;
        }
        for (int c = around.length - 1; c >= 0; c--) {
            // those around come later
            around[c] = clusterPrice[c] + sumAround(clusters.around(c));
        }
        for (int u = 0; u <= units; u++) {
            joined[u] = neighbourPrice[u] - sumAround(clusters.smallest(u));
        }
        for (int u = 0; u < units; u++) {
            profit[u] = 0;
            for (int c = clusters.smallest(u); c >= 0; c = clusters.around(c)) {
                profit[u] -= 2 * clusterPrice[c] * likely[c][u];
            }
            for (int w = 0; w < wishPrice.length; w++) {
                profit[u] += Math.max(0, gains[u][w] - wishPrice[w]);
            }
            sum += profit[u] - timePrice * seconds[u] + 2 * neighbourPrice[u];
        }
        sum += neighbourPrice[root];
        Arrays.fill(neighbours, 0);
        Arrays.fill(out, false);
        double[] cheapest = new double[units];
        boolean[] in = new boolean[units];
        for (int u = 0; u < units; u++) {
            double leave = profit[u] - timePrice * seconds[u] + 2 * neighbourPrice[u];
            double come = edge(root, u);
            boolean leaves = choices[u] == Choice.LEFT_OUT || (choices[u] == null && leave <= come);
            cheapest[u] = leaves ? leave : come;
            by[u] = leaves ? -1 : root;
        }
        way = 0;
        for (int i = 0; i < units; i++) {
            int next = -1;
            for (int u = 0; u < units; u++) {
                next = !in[u] && (next < 0 || cheapest[u] < cheapest[next]) ? u : next;
            }
            in[next] = true;
            sum -= cheapest[next];
            if (by[next] < 0) {
                out[next] = true;
            } else {
                neighbours[next]++;
                neighbours[by[next]]++;
                way += apart[by[next]][next];
            }
            for (int u = 0; u < units; u++) {
                double come = edge(next, u);
                boolean mayCome = choices[u] != Choice.LEFT_OUT && choices[next] != Choice.LEFT_OUT;
                if (!in[u] && mayCome && come < cheapest[u]) {
                    cheapest[u] = come;
                    by[u] = next;
                }
            }
        }
        end = root;
        for (int u = 0; u < units; u++) {
            boolean mayEnd = choices[u] != Choice.LEFT_OUT;
            end = mayEnd && joined[u] < joined[end] ? u : end;
        }
        neighbours[end]++;
        return sum - joined[end];
    }

    private double sumAround(int cluster) {
        return cluster < 0 ? 0 : around[cluster];
    }

    private double edge(int from, int to) {
        return timePrice * apart[from][to]
                + joined[from]
                + joined[to]
                + 2 * sumAround(clusters.common(from, to));
    }

    /** By how much each cluster is gone into and out of less often than its units are made. */
    private double[] shortOfWays() {
        double[] missing = new double[clusterPrice.length];
        for (int u = 0; u < units; u++) {
            for (int c = clusters.smallest(u); c >= 0; c = clusters.around(c)) {
                missing[c] += out[u] ? 0 : 2 * likely[c][u];
            }
            if (by[u] >= 0) {
                int common = clusters.common(u, by[u]);
                leave(missing, clusters.smallest(u), common);
                leave(missing, clusters.smallest(by[u]), common);
            }
        }
        leave(missing, clusters.smallest(end), -1);
        return missing;
    }

    private void leave(double[] missing, int from, int common) {
        for (int c = from; c != common; c = clusters.around(c)) {
            missing[c]--;
        }
    }

    private void step(double now, double stride) {
        double[] byNeighbour = new double[units + 1];
        double square = 0;
        double time = window - way;
        for (int u = 0; u < units; u++) {
            byNeighbour[u] = 2 - neighbours[u] - (out[u] ? 2 : 0);
            time -= out[u] ? 0 : seconds[u];
            square += byNeighbour[u] * byNeighbour[u];
        }
        byNeighbour[root] = 1 - neighbours[root];
        square += byNeighbour[root] * byNeighbour[root];
        double byTime = time / USUAL_LEG;
        square += byTime * byTime;
        double[] byWish = new double[wishPrice.length];
        for (int w = 0; w < byWish.length; w++) {
            byWish[w] = 1;
            for (int u = 0; u < units; u++) {
                byWish[w] -= !out[u] && gains[u][w] > wishPrice[w] ? 1 : 0;
            }
            byWish[w] = wishPrice[w] <= 0 && byWish[w] > 0 ? 0 : byWish[w];
            square += byWish[w] * byWish[w];
        }
        double[] missing = shortOfWays();
        for (int c = 0; c < missing.length; c++) {
            missing[c] = clusterPrice[c] <= 0 && missing[c] < 0 ? 0 : missing[c];
            square += missing[c] * missing[c];
        }
        if (square == 0) {
            return;
        }
        double length = stride * (now - target) / square;
        for (int u = 0; u <= units; u++) {
            neighbourPrice[u] -= length * byNeighbour[u];
        }
        timePrice = Math.max(0, timePrice - length * byTime / USUAL_LEG);
        for (int c = 0; c < missing.length; c++) {
            clusterPrice[c] = Math.max(0, clusterPrice[c] + length * missing[c]);
        }
        for (int w = 0; w < byWish.length; w++) {
            wishPrice[w] = Math.max(0, wishPrice[w] - length * byWish[w]);
        }
    }
}

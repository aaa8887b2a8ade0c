package lookstep.server.suggest;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The k points of a list whose least mutual distance is greatest (max-min dispersion), none of them
 * near a fixed point either. Farthest-point starts are at least half as good as the best in a
 * metric (Gonzalez 1985; Ravi, Rosenkrantz and Tayi 1994); exchanges make them better; and a search
 * for k points that are mutually at least so far apart proves how far the best can be off.
 *
 * @param chosen indices into the list
 * @param least distance between two of them, or to the nearest fixed point
 * @param mean distance between two of them; 0 for one
 * @param bound no choice has a greater {@code least}
 * @param proven true if none is better: the bound is reached
 */
record Spread(List<Integer> chosen, double least, double mean, double bound, boolean proven) {
    /** Steps of the search, counted and not timed, so that the same list has the same answer. */
    static final long USUAL_EFFORT = 400_000;

    private static final int STARTS = 12;
    private static final int MOST_EXCHANGES = 400;

    /** Where the search gives up, the bound is narrowed to this share. */
    private static final double NARROW = 0.004;

    /**
     * Works it out. With no more points than wanted all of them are taken.
     *
     * @param k how many, 1 or more
     * @param effort steps of the search that proves, 0 for none
     */
    static Spread of(Distances d, int k, long effort) {
        if (d.size() <= k) {
            List<Integer> all = new ArrayList<>();
            for (int i = 0; i < d.size(); i++) {
                all.add(i);
            }
            double least = least(d, all);
            return new Spread(all, least, mean(d, all), least, true);
        }
        List<Integer> best = List.of();
        for (int s = 0; s < STARTS; s++) {
            List<Integer> found = exchanged(d, farthest(d, k, s));
            if (best.isEmpty() || better(d, found, best)) {
                best = found;
            }
        }
        return proven(d, k, effort, best);
    }

    private static Spread proven(Distances d, int k, long effort, List<Integer> begun) {
        List<Integer> best = begun;
        double upper = Math.min(pigeonhole(d, k), mostToFixed(d, k));
        Apart search = new Apart(d, k);
        boolean proven = false;
        boolean goOn = effort > 0;
        while (goOn) {
            Apart.Answer answer = search.at(next(d, least(d, best)), effort);
            if (answer.found().isPresent()) {
                best = exchanged(d, answer.found().get());
            }
            goOn = answer.found().isPresent();
            proven = answer.sure();
        }
        double least = least(d, best);
        if (proven) {
            upper = least;
        } else if (effort > 0) {
            double low = least;
            double high = Math.max(least, upper);
            while (high - low > NARROW * high) {
                double middle = (low + high) / 2;
                Apart.Answer answer = search.at(middle, effort / 4);
                if (answer.found().isPresent()) {
                    best = exchanged(d, answer.found().get());
                    low = Math.max(middle, least(d, best));
                } else if (answer.sure()) {
                    high = middle;
                } else {
                    low = middle;
                }
            }
            upper = high;
            least = least(d, best);
        }
        return new Spread(best, least, mean(d, best), Math.max(least, upper), proven);
    }

    /** The least distance of the list above this one; there is none above the bound's. */
    private static double next(Distances d, double above) {
        double next = Double.POSITIVE_INFINITY;
        for (int i = 0; i < d.size(); i++) {
            if (d.toFixed(i) > above) {
                next = Math.min(next, d.toFixed(i));
            }
            for (int j = i + 1; j < d.size(); j++) {
                float one = d.between(i, j);
                if (one > above && one < next) {
                    next = one;
                }
            }
        }
        return next;
    }

    /** The point farthest from all fixed ones first, or the s-th way to begin. */
    private static List<Integer> farthest(Distances d, int k, int s) {
        float[] near = new float[d.size()];
        int first = 0;
        for (int i = 0; i < d.size(); i++) {
            near[i] = d.toFixed(i);
            first = near[i] > near[first] ? i : first;
        }
        if (s > 0 || Float.isInfinite(near[first])) {
            first = (int) ((long) s * d.size() / STARTS);
        }
        List<Integer> chosen = new ArrayList<>();
        for (int next = first; chosen.size() < k; ) {
            chosen.add(next);
            int farthest = -1;
            for (int i = 0; i < d.size(); i++) {
                if (i == next) {
                    near[i] = -1;
                } else {
                    near[i] = Math.min(near[i], d.between(i, next));
                }
                if (farthest < 0 || near[i] > near[farthest]) {
                    farthest = i;
                }
            }
            next = farthest;
        }
        return chosen;
    }

    /** One for another, as long as the least distance grows, or stays and the mean grows. */
    static List<Integer> exchanged(Distances d, List<Integer> begun) {
        List<Integer> now = new ArrayList<>(begun);
        for (int step = 0; step < MOST_EXCHANGES; step++) {
            double least = least(d, now);
            double sum = sum(d, now);
            int out = -1;
            int in = -1;
            for (int m = 0; m < now.size(); m++) {
                List<Integer> rest = new ArrayList<>(now);
                rest.remove(m);
                double restLeast = least(d, rest);
                double restSum = sum(d, rest);
                for (int c = 0; c < d.size(); c++) {
                    double far = Math.min(restLeast, d.toFixed(c));
                    double with = restSum;
                    for (int r = 0; r < rest.size() && far >= least; r++) {
                        far = Math.min(far, d.between(c, rest.get(r)));
                        with += d.between(c, rest.get(r));
                    }
                    if (!now.contains(c)
                            && (far > least || (far == least && with > sum * (1 + 1e-9)))) {
                        least = far;
                        sum = with;
                        out = m;
                        in = c;
                    }
                }
            }
            if (out < 0) {
                break;
            }
            now.set(out, in);
        }
        return now;
    }

    private static boolean better(Distances d, List<Integer> one, List<Integer> than) {
        double a = least(d, one);
        double b = least(d, than);
        return a > b || (a == b && sum(d, one) > sum(d, than));
    }

    static double least(Distances d, List<Integer> chosen) {
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i < chosen.size(); i++) {
            least = Math.min(least, d.toFixed(chosen.get(i)));
            for (int j = 0; j < i; j++) {
                least = Math.min(least, d.between(chosen.get(i), chosen.get(j)));
            }
        }
        return least;
    }

    private static double sum(Distances d, List<Integer> chosen) {
        double sum = 0;
        for (int i = 0; i < chosen.size(); i++) {
            for (int j = 0; j < i; j++) {
                sum += d.between(chosen.get(i), chosen.get(j));
            }
        }
        return sum;
    }

    static double mean(Distances d, List<Integer> chosen) {
        int pairs = chosen.size() * (chosen.size() - 1) / 2;
        return pairs == 0 ? 0 : sum(d, chosen) / pairs;
    }

    /**
     * Put into k - 1 groups, two of any k points are in one: so no k are farther apart than the
     * widest group is wide.
     */
    private static double pigeonhole(Distances d, int k) {
        if (k < 2) {
            return Double.POSITIVE_INFINITY;
        }
        List<Integer> middles = farthest(d, k - 1, 0);
        int[] group = new int[d.size()];
        for (int i = 0; i < d.size(); i++) {
            for (int g = 1; g < middles.size(); g++) {
                if (d.between(i, middles.get(g)) < d.between(i, middles.get(group[i]))) {
                    group[i] = g;
                }
            }
        }
        double widest = 0;
        for (int i = 0; i < d.size(); i++) {
            for (int j = 0; j < i; j++) {
                if (group[i] == group[j]) {
                    widest = Math.max(widest, d.between(i, j));
                }
            }
        }
        return widest;
    }

    /** No more than the k-th farthest from the fixed points can be reached. */
    private static double mostToFixed(Distances d, int k) {
        float[] all = new float[d.size()];
        for (int i = 0; i < all.length; i++) {
            all[i] = d.toFixed(i);
        }
        Arrays.sort(all);
        return all[all.length - k];
    }
}

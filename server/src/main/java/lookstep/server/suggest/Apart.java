package lookstep.server.suggest;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * Whether k points of a list are mutually at least so far apart: a clique of k in the graph that
 * joins such pairs, searched by branch and bound. Points that are all near each other get one
 * colour, and a clique has at most one of each colour; so with fewer than k colours there is none
 * (the colouring bound of Tomita and Seki, 2003).
 */
final class Apart {
    private final Distances d;
    private final int k;
    private final int words;
    private long[][] joined;
    private long steps;
    private long most;
    private List<Integer> found;

    /**
     * What came out.
     *
     * @param found k points; empty if there are none, or the search gave up
     * @param sure false if it gave up
     */
    record Answer(Optional<List<Integer>> found, boolean sure) {}

    Apart(Distances d, int k) {
        this.d = d;
        this.k = k;
        this.words = (d.size() + 63) / 64;
    }

    /**
     * Searches.
     *
     * @param distance the least between any two, and to the fixed points
     * @param effort at most so many steps
     */
    Answer at(double distance, long effort) {
        int n = d.size();
        joined = new long[n][words];
        long[] all = new long[words];
        int possible = 0;
        for (int i = 0; i < n; i++) {
            if (d.toFixed(i) < distance) {
                continue;
            }
            all[i >> 6] |= 1L << i;
            possible++;
            for (int j = 0; j < i; j++) {
                if (d.between(i, j) >= distance && d.toFixed(j) >= distance) {
                    joined[i][j >> 6] |= 1L << j;
                    joined[j][i >> 6] |= 1L << i;
                }
            }
        }
        steps = 0;
        most = effort;
        found = null;
        if (possible >= k && !Double.isInfinite(distance)) {
            search(all, new int[k], 0);
        }
        return new Answer(Optional.ofNullable(found), found != null || steps < most);
    }

    private void search(long[] left, int[] chosen, int have) {
        if (have == k) {
            found = new ArrayList<>();
            for (int c : chosen) {
                found.add(c);
            }
            return;
        }
        int[] order = new int[count(left)];
        int[] colours = new int[order.length];
        colour(left, order, colours);
        long[] still = left.clone();
        for (int i = order.length - 1; i >= 0; i--) {
            if (have + colours[i] < k || found != null || ++steps >= most) {
                return;
            }
            int v = order[i];
            chosen[have] = v;
            long[] next = new long[words];
            for (int w = 0; w < words; w++) {
                next[w] = still[w] & joined[v][w];
            }
            search(next, chosen, have + 1);
            still[v >> 6] &= ~(1L << v);
        }
    }

    /** Points in the order of their colours, counted from 1; colours never grow less. */
    private void colour(long[] left, int[] order, int[] colours) {
        long[] uncoloured = left.clone();
        long[] free = new long[words];
        int at = 0;
        for (int colour = 1; at < order.length; colour++) {
            System.arraycopy(uncoloured, 0, free, 0, words);
            for (int w = 0; w < words; w++) {
                while (free[w] != 0) {
                    int v = (w << 6) + Long.numberOfTrailingZeros(free[w]);
                    for (int x = w; x < words; x++) {
                        free[x] &= ~joined[v][x];
                    }
                    free[w] &= ~(1L << v);
                    uncoloured[w] &= ~(1L << v);
                    order[at] = v;
                    colours[at++] = colour;
                }
            }
        }
    }

    private static int count(long[] bits) {
        return Arrays.stream(bits).mapToInt(Long::bitCount).sum();
    }
}

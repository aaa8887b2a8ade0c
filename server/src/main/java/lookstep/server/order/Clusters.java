package lookstep.server.order;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;

/**
 * Units that are near each other and far from all others, one such set within another or apart from
 * it: a room, a place of the lights, a lens. What is not with the root is a set that a running
 * order has to go into and, if it does not end there, out of again (generalized subtour
 * elimination; M. Fischetti, J. Salazar and P. Toth, 1998; from memory).
 */
final class Clusters {
    /** Seconds by which the way out of a set is longer than the ways inside. */
    private static final double CLEARLY = 0.5;

    private final List<BitSet> sets = new ArrayList<>();
    private final int[] smallest;
    private final int[] parent;
    private final int[][] common;

    /**
     * @param apart seconds from unit to unit, both ways the same; the last is the root
     */
    Clusters(double[][] apart) {
        int n = apart.length;
        int root = n - 1;
        List<BitSet> now = new ArrayList<>();
        List<Double> widths = new ArrayList<>();
        for (int u = 0; u < n; u++) {
            BitSet one = new BitSet();
            one.set(u);
            now.add(one);
            widths.add(0.0);
        }
        while (now.size() > 1) {
            int a = 0;
            int b = 1;
            double least = Double.MAX_VALUE;
            for (int i = 0; i < now.size(); i++) {
                for (int j = i + 1; j < now.size(); j++) {
                    double between = between(now.get(i), now.get(j), apart);
                    if (between < least) {
                        least = between;
                        a = i;
                        b = j;
                    }
                }
            }
            for (int i : new int[] {a, b}) {
                BitSet set = now.get(i);
                boolean clear = least < Stops.NEVER && least > widths.get(i) + CLEARLY;
                if (clear && set.cardinality() > 1 && !set.get(root)) {
                    sets.add(set);
                }
            }
            BitSet both = (BitSet) now.get(a).clone();
            both.or(now.get(b));
            now.set(a, both);
            widths.set(a, least);
            now.remove(b);
            widths.remove(b);
        }
        // later ones are larger
        parent = new int[sets.size()];
        smallest = new int[n];
        Arrays.fill(parent, -1);
        Arrays.fill(smallest, -1);
        for (int s = sets.size() - 1; s >= 0; s--) {
            for (int u = sets.get(s).nextSetBit(0); u >= 0; u = sets.get(s).nextSetBit(u + 1)) {
                parent[s] = smallest[u];
            }
            for (int u = sets.get(s).nextSetBit(0); u >= 0; u = sets.get(s).nextSetBit(u + 1)) {
                smallest[u] = s;
            }
        }
        common = new int[n][n];
        for (int u = 0; u < n; u++) {
            for (int v = 0; v < n; v++) {
                int s = smallest[u];
                while (s >= 0 && !sets.get(s).get(v)) {
                    s = parent[s];
                }
                common[u][v] = s;
            }
        }
    }

    private static double between(BitSet one, BitSet other, double[][] apart) {
        double least = Double.MAX_VALUE;
        for (int u = one.nextSetBit(0); u >= 0; u = one.nextSetBit(u + 1)) {
            for (int v = other.nextSetBit(0); v >= 0; v = other.nextSetBit(v + 1)) {
                least = Math.min(least, apart[u][v]);
            }
        }
        return least;
    }

    int count() {
        return parent.length;
    }

    BitSet units(int set) {
        return (BitSet) sets.get(set).clone();
    }

    /** The smallest set with both; -1 if there is none. */
    int common(int unit, int other) {
        return common[unit][other];
    }

    /** The smallest set that the unit is in; -1 if there is none. */
    int smallest(int unit) {
        return smallest[unit];
    }

    /** The next larger set around a set; -1 if there is none. */
    int around(int set) {
        return parent[set];
    }
}

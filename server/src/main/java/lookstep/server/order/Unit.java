package lookstep.server.order;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Shots that are made whole, and the quickest order among them from each first to each last one
 * (dynamic programming over subsets: M. Held and R. M. Karp, A dynamic programming approach to
 * sequencing problems, 1962; from memory). More than 12 of them are made as they are written.
 */
final class Unit {
    private static final int MOST_FREE = 12;

    private final int[] members;
    private final boolean firstLeads;
    private final boolean written;

    /** Quickest time from the first of them (index) to the last, and the one before each last. */
    private final int[][] within;

    private final int[][][] before;

    private Unit(int[] members, boolean firstLeads, int[][] between) {
        this.members = members;
        this.firstLeads = firstLeads;
        written = members.length > MOST_FREE;
        int n = members.length;
        within = new int[n][n];
        before = new int[n][][];
        for (int entry = 0; entry < n; entry++) {
            Arrays.fill(within[entry], Stops.NEVER);
            if (written) {
                within[entry][n - 1] = entry == 0 ? asWritten(between) : Stops.NEVER;
            } else if (!firstLeads || entry == 0) {
                quickestFrom(entry, between);
            }
        }
    }

    static Unit of(List<Integer> members, boolean firstLeads, int[][] between) {
        return new Unit(members.stream().mapToInt(i -> i).toArray(), firstLeads, between);
    }

    private int asWritten(int[][] between) {
        int sum = 0;
        for (int i = 1; i < members.length; i++) {
            sum += between[members[i - 1]][members[i]];
        }
        return sum;
    }

    private void quickestFrom(int entry, int[][] between) {
        int n = members.length;
        int all = 1 << n;
        int[][] time = new int[all][n];
        int[][] from = new int[all][n];
        for (int[] row : time) {
            Arrays.fill(row, Stops.NEVER);
        }
        time[1 << entry][entry] = 0;
        for (int mask = 1; mask < all; mask++) {
            for (int last = 0; last < n; last++) {
                if (time[mask][last] >= Stops.NEVER) {
                    continue;
                }
                for (int next = 0; next < n; next++) {
                    int with = mask | 1 << next;
                    int t = time[mask][last] + between[members[last]][members[next]];
                    if (with != mask && t < time[with][next]) {
                        time[with][next] = t;
                        from[with][next] = last;
                    }
                }
            }
        }
        within[entry] = time[all - 1];
        before[entry] = from;
    }

    int[] members() {
        return members.clone();
    }

    /** The shots it may end with. */
    int[] exits() {
        if (written) {
            return new int[] {members[members.length - 1]};
        }
        return firstLeads && members.length > 1
                ? Arrays.copyOfRange(members, 1, members.length)
                : members.clone();
    }

    /** Milliseconds until all are made, the given shot last. */
    int quickest(int[] way, int exit) {
        int entry = entry(way, exit);
        return Math.min(Stops.NEVER, way[members[entry]] + within[entry][index(exit)]);
    }

    /**
     * Milliseconds that all of them take at least, once the first is ready; from each one's own.
     */
    int least(int[] shooting) {
        int least = Stops.NEVER;
        for (int entry = 0; entry < members.length; entry++) {
            for (int time : within[entry]) {
                least = Math.min(least, shooting[members[entry]] + time);
            }
        }
        return least;
    }

    private int entry(int[] way, int exit) {
        int best = 0;
        for (int entry = 1; entry < members.length; entry++) {
            int time = way[members[entry]] + within[entry][index(exit)];
            if (time < way[members[best]] + within[best][index(exit)]) {
                best = entry;
            }
        }
        return best;
    }

    private int index(int member) {
        for (int i = 0; i < members.length; i++) {
            if (members[i] == member) {
                return i;
            }
        }
        throw new IllegalArgumentException("shot " + member + " is not of this unit");
    }

    /** All of them in the quickest order. */
    List<Integer> order(int[] way, int exit) {
        if (written) {
            return Arrays.stream(members).boxed().toList();
        }
        int entry = entry(way, exit);
        List<Integer> backwards = new ArrayList<>();
        int mask = (1 << members.length) - 1;
        int last = index(exit);
        while (mask != 0) {
            backwards.add(0, members[last]);
            int previous = before[entry][mask][last];
            mask &= ~(1 << last);
            last = previous;
        }
        return backwards;
    }
}

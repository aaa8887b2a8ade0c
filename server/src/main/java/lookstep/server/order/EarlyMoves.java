package lookstep.server.order;

/**
 * Moves pieces of a row to other places while that loses less if the window ends early, see {@link
 * Stops#lateness}. What a move changes follows from sums over the row, without going through it.
 */
final class EarlyMoves {
    private static final int LONGEST_PIECE = 8;

    private final Stops stops;
    private final int window;
    private int[] row;

    /** Up to each place: when it is made, the importance, and that times when it is made. */
    private final long[] made;

    private final long[] weight;
    private final long[] late;
    private long newTime;

    private EarlyMoves(Stops stops, int[] given, int window) {
        this.stops = stops;
        this.window = window;
        row = given.clone();
        made = new long[row.length + 1];
        weight = new long[row.length + 1];
        late = new long[row.length + 1];
        sum();
    }

    /**
     * @param given a row of stops that fits
     */
    static int[] of(Stops stops, int[] given, int window) {
        EarlyMoves moves = new EarlyMoves(stops, given, window);
        while (moves.better()) {
            moves.sum();
        }
        return moves.row;
    }

    private void sum() {
        int from = stops.start();
        for (int i = 0; i < row.length; i++) {
            made[i + 1] = made[i] + stops.cost(from, row[i]);
            long one = stops.importance(stops.unitOf(row[i]));
            weight[i + 1] = weight[i] + one;
            late[i + 1] = late[i] + made[i + 1] * one;
            from = row[i];
        }
    }

    /** Two pieces that follow each other change places: every move is one of these. */
    private boolean better() {
        int n = row.length;
        boolean better = false;
        for (int from = 0; from < n; from++) {
            for (int middle = from + 1; middle < n; middle++) {
                for (int to = middle + 1; to <= n; to++) {
                    boolean small = Math.min(middle - from, to - middle) <= LONGEST_PIECE;
                    if (small && lateness(from, middle, to) < late[n] && newTime <= window) {
                        int[] other = swapped(from, middle, to);
                        if (stops.allowed(other)) {
                            row = other;
                            sum();
                            better = true;
                        }
                    }
                }
            }
        }
        return better;
    }

    /** Of the row in which [from, middle) comes behind [middle, to). */
    private long lateness(int from, int middle, int to) {
        int n = row.length;
        int before = from == 0 ? stops.start() : row[from - 1];
        long second = made[from] + stops.cost(before, row[middle]) - made[middle + 1];
        long first = made[to] + second + stops.cost(row[to - 1], row[from]) - made[from + 1];
        long rest = 0;
        if (to < n) {
            rest = made[middle] + first + stops.cost(row[middle - 1], row[to]) - made[to + 1];
        }
        newTime = to < n ? made[n] + rest : made[middle] + first;
        return late[n]
                + second * (weight[to] - weight[middle])
                + first * (weight[middle] - weight[from])
                + rest * (weight[n] - weight[to]);
    }

    private int[] swapped(int from, int middle, int to) {
        int[] other = row.clone();
        System.arraycopy(row, middle, other, from, to - middle);
        System.arraycopy(row, from, other, from + to - middle, middle - from);
        return other;
    }
}

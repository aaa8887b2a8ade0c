package lookstep.server.order;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * How alike the pictures of two shots are, 0 (nothing in common) to 1 (the same picture), both ways
 * the same. Counted in thousandths. Unchanging.
 */
public final class Variety {
    private static final int ONE = 1000;
    // figures of our own: what stays of the likeness if this differs
    private static final double OTHER_LOOK = 0.35;
    private static final double OTHER_ARRANGEMENT = 0.6;
    private static final double OTHER_FRAMING = 0.6;

    private final Map<String, Integer> rows;
    private final int[][] thousandths;

    private Variety(Map<String, Integer> rows, int[][] thousandths) {
        this.rows = rows;
        this.thousandths = thousandths;
    }

    /**
     * From what the shots are: the share of people in both of those in either, times 0.35 for
     * another look, 0.6 for another arrangement and 0.6 for another framing (format or focal
     * length), figures of our own. With nobody in either, people count as the same. The same for
     * another client is another wish, and nothing alike.
     */
    public static Variety of(List<Item> items) {
        double[][] likeness = new double[items.size()][items.size()];
        for (int i = 0; i < items.size(); i++) {
            for (int j = 0; j < items.size(); j++) {
                likeness[i][j] = alike(items.get(i), items.get(j));
            }
        }
        return given(items.stream().map(Item::id).toList(), likeness);
    }

    /**
     * As measured or judged elsewhere.
     *
     * @param ids the rows' and columns' shots
     * @param likeness 0..1, square and symmetric; the diagonal is not looked at
     * @throws IllegalArgumentException if it is not so
     */
    public static Variety given(List<String> ids, double[][] likeness) {
        int n = ids.size();
        if (likeness.length != n) {
            throw new IllegalArgumentException(
                    "likeness: " + n + " shots need as many rows, not " + likeness.length);
        }
        Map<String, Integer> rows = new HashMap<>();
        int[][] thousandths = new int[n][n];
        for (int i = 0; i < n; i++) {
            if (rows.put(ids.get(i), i) != null) {
                throw new IllegalArgumentException("likeness: '" + ids.get(i) + "' is there twice");
            }
            if (likeness[i].length != n) {
                throw new IllegalArgumentException(
                        "likeness: row '" + ids.get(i) + "' needs " + n + " columns");
            }
            for (int j = 0; j < n; j++) {
                double one = likeness[i][j];
                if (!(one >= 0 && one <= 1) || Math.abs(one - likeness[j][i]) > 1e-9) {
                    throw new IllegalArgumentException(
                            "likeness of '"
                                    + ids.get(i)
                                    + "' and '"
                                    + ids.get(j)
                                    + "': 0 to 1 and the same both ways, not "
                                    + one);
                }
                thousandths[i][j] = (int) Math.round(one * ONE);
            }
        }
        return new Variety(rows, thousandths);
    }

    /** No two pictures are alike: only importance counts. */
    public static Variety none(List<Item> items) {
        return given(items.stream().map(Item::id).toList(), new double[items.size()][items.size()]);
    }

    /** Thousandths. */
    int between(Item one, Item other) {
        if (one.id().equals(other.id())) {
            return ONE;
        }
        Integer row = rows.get(one.id());
        Integer column = rows.get(other.id());
        if (row == null || column == null) {
            throw new IllegalArgumentException(
                    "likeness: nothing is known of '"
                            + (row == null ? one.id() : other.id())
                            + "'; make it of all shots, also those in the bag");
        }
        return thousandths[row][column];
    }

    private static double alike(Item one, Item other) {
        if (!one.job().equals(other.job())) {
            return 0;
        }
        Set<String> both = new HashSet<>(one.people());
        both.retainAll(other.people());
        int either = one.people().size() + other.people().size() - both.size();
        double likeness = either == 0 ? 1 : (double) both.size() / either;
        if (!one.look().equals(other.look())) {
            likeness *= OTHER_LOOK;
        }
        if (!one.arrangement().equals(other.arrangement())) {
            likeness *= OTHER_ARRANGEMENT;
        }
        if (!one.framing().equals(other.framing())
                || Math.abs(one.lensMillimetres() - other.lensMillimetres()) > 0.5) {
            likeness *= OTHER_FRAMING;
        }
        return likeness;
    }
}

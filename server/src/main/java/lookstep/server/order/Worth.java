package lookstep.server.order;

import java.util.ArrayList;
import java.util.List;

/**
 * What shots are worth, see {@link RunningOrder}, counted in thousandths of one importance. Every
 * shot that is left is a wish; each shot made meets its own wish whole and others in part.
 */
final class Worth {
    /** How much of a wish a picture meets that is quite the same but not its own; our figure. */
    private static final double SHARE_OF_ALIKE = 0.5;

    private static final int THOUSAND = 1000;

    private Worth() {}

    /** What making the shots adds to the wish, in thousandths, if nothing else were made. */
    private static int met(Item wish, Item by, Variety variety) {
        int share =
                wish.id().equals(by.id())
                        ? THOUSAND
                        : (int) Math.floor(SHARE_OF_ALIKE * variety.between(wish, by));
        return wish.importance() * share;
    }

    /**
     * Wish by wish, what each shot would meet of it beyond what the bag meets already.
     *
     * @return gains[shot][wish], both in the order of {@link Situation#left()}
     */
    static int[][] gains(Situation situation, Variety variety) {
        List<Item> left = situation.left();
        int n = left.size();
        int[][] gains = new int[n][n];
        for (int wish = 0; wish < n; wish++) {
            int already = 0;
            for (Item made : situation.made()) {
                already = Math.max(already, met(left.get(wish), made, variety));
            }
            for (int shot = 0; shot < n; shot++) {
                gains[shot][wish] =
                        Math.max(0, met(left.get(wish), left.get(shot), variety) - already);
            }
        }
        return gains;
    }

    /** The value of making these of the rows of gains. */
    static long of(int[][] gains, Iterable<Integer> rows) {
        List<Integer> made = new ArrayList<>();
        rows.forEach(made::add);
        int wishes = gains.length == 0 ? 0 : gains[0].length;
        long sum = 0;
        for (int wish = 0; wish < wishes; wish++) {
            int most = 0;
            for (int row : made) {
                most = Math.max(most, gains[row][wish]);
            }
            sum += most;
        }
        return sum;
    }

    static double inImportance(long thousandths) {
        return thousandths / (double) THOUSAND;
    }
}

package lookstep.server.suggest;

/**
 * What is wanted.
 *
 * @param count how many looks, 1..12
 * @param apartFromPlan true if they are to differ from the plan's own looks as well
 * @param silhouettes true if faces may stay dark before something light, or within a bright edge
 * @param colouredFaces true if faces may be lit in a strong colour; else they keep theirs, and
 *     colour goes elsewhere
 * @param directionWeight how much the direction of the light counts beside colour and lightness, 0
 *     or more; 1 is usual
 * @param moves how many suggestions to make with one light moved; 0 for none
 * @param lookOn the look that is on, to step from; empty for the shot's
 * @param listed how many looks to list at most; 0 for the usual number
 * @param seed of what is drawn
 */
public record Options(
        int count,
        boolean apartFromPlan,
        boolean silhouettes,
        boolean colouredFaces,
        double directionWeight,
        int moves,
        String lookOn,
        int listed,
        long seed) {
    /** A change of look is seen at once in so many; and the way through them is still exact. */
    public static final int MOST = 12;

    /**
     * @throws IllegalArgumentException naming what is out of its range
     */
    public Options {
        if (count < 1 || count > MOST) {
            throw new IllegalArgumentException(
                    "suggestions: ask for 1 to " + MOST + ", not " + count);
        }
        if (!(directionWeight >= 0)) {
            throw new IllegalArgumentException(
                    "the direction of the light weighs 0 or more, not " + directionWeight);
        }
        if (moves < 0 || listed < 0) {
            throw new IllegalArgumentException("moves and looks to list are 0 or more");
        }
    }

    /** The usual: apart from the plan's own, faces lit in whites, two more with a light moved. */
    public static Options usual(int count) {
        return new Options(count, true, false, false, 1, 2, "", 0, 1);
    }

    /** Without a light moved. */
    public Options inPlace() {
        return new Options(
                count,
                apartFromPlan,
                silhouettes,
                colouredFaces,
                directionWeight,
                0,
                lookOn,
                listed,
                seed);
    }

    /** With the plan's looks among those to choose from, not to differ from. */
    public Options freely() {
        return new Options(
                count,
                false,
                silhouettes,
                colouredFaces,
                directionWeight,
                moves,
                lookOn,
                listed,
                seed);
    }

    /** With dark faces, or coloured ones, too. */
    public Options allowing(boolean darkFaces, boolean coloured) {
        return new Options(
                count,
                apartFromPlan,
                darkFaces,
                coloured,
                directionWeight,
                moves,
                lookOn,
                listed,
                seed);
    }

    /** With the direction of the light weighing otherwise. */
    public Options weighing(double direction) {
        return new Options(
                count,
                apartFromPlan,
                silhouettes,
                colouredFaces,
                direction,
                moves,
                lookOn,
                listed,
                seed);
    }

    /** With so many listed at most, drawn by another seed. */
    public Options listing(int most, long otherSeed) {
        return new Options(
                count,
                apartFromPlan,
                silhouettes,
                colouredFaces,
                directionWeight,
                moves,
                lookOn,
                most,
                otherSeed);
    }
}

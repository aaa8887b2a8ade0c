package lookstep.server.plates;

/**
 * What a frame is worth as a plate.
 *
 * @param wrong what is wrong and what to do, in words; empty if it is good
 * @param canBeUsed whether it may be used all the same if somebody says so
 * @param factor by how much more or less light it is to be asked again with; 1 for the same
 * @param doubt what is uncertain about a good one, in words; empty if nothing is
 */
record PlateVerdict(String wrong, boolean canBeUsed, double factor, String doubt) {
    static PlateVerdict good(String doubt) {
        return new PlateVerdict("", true, 1, doubt);
    }

    static PlateVerdict useless(String why) {
        return new PlateVerdict(why, false, 1, "");
    }

    static PlateVerdict odd(String why) {
        return new PlateVerdict(why, true, 1, "");
    }

    boolean good() {
        return wrong.isEmpty();
    }
}

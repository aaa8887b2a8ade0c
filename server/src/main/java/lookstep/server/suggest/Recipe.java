package lookstep.server.suggest;

/**
 * A look before it is exposed: which lights are on, in which of their colours, at how many stops to
 * each other.
 *
 * @param camera index of the white balance
 * @param colour for each light, an index into its colours; -1 is off
 * @param stops for each light, against the strongest; 0 or less, and 0 for at least one that is on
 */
// Arrays in a record: written once, never handed out to be changed.
@SuppressWarnings("ArrayRecordComponent")
record Recipe(int camera, int[] colour, int[] stops) {
    boolean on(int light) {
        return colour[light] >= 0;
    }

    int lightsOn() {
        int n = 0;
        for (int c : colour) {
            n += c >= 0 ? 1 : 0;
        }
        return n;
    }
}

package lookstep.simulator.model.plates;

/** STUB. */
public final class Registration {
    private Registration() {}

    /**
     * How far the second picture has moved against the first.
     *
     * @param x share of the width, positive to the right
     * @param y share of the height, positive down
     * @param certainty 0 nothing can be said, 1 certain
     */
    public record Shift(double x, double y, double certainty) {}

    /** Of two pictures of one set in different light, sizes alike. */
    public static Shift between(CodedPicture one, CodedPicture other) {
        throw new UnsupportedOperationException();
    }
}

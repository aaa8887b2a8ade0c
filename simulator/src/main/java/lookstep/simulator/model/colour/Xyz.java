package lookstep.simulator.model.colour;

/**
 * CIE 1931 2-degree tristimulus values. {@code y} carries the photometric quantity: candela for a
 * light, lux for what arrives, or 1 for a white.
 */
public record Xyz(double x, double y, double z) {
    /** No light. */
    public static final Xyz ZERO = new Xyz(0, 0, 0);

    /** Light adds. */
    public Xyz plus(Xyz o) {
        return new Xyz(x + o.x, y + o.y, z + o.z);
    }

    /** The same light, {@code k} times as much. */
    public Xyz times(double k) {
        return new Xyz(x * k, y * k, z * k);
    }

    /**
     * Where it lies in the chromaticity diagram.
     *
     * @throws ArithmeticException if there is no light
     */
    public Chromaticity chromaticity() {
        double sum = x + y + z;
        if (!(sum > 0)) {
            throw new ArithmeticException("no light has no chromaticity");
        }
        return new Chromaticity(x / sum, y / sum);
    }
}

package lookstep.server.plan;

/**
 * The light in which people set up: what the rig goes to when the program starts and when it is
 * stopped in order.
 *
 * @param percent of the most that each light gives, 0..100
 * @param kelvin its colour temperature
 */
public record WorkLight(double percent, double kelvin) {
    /** Bright enough to see by, and not to be dazzled by at close range: figures of our own. */
    public static final WorkLight USUAL = new WorkLight(25, 4300);
}

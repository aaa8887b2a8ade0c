package lookstep.server.plan;

/**
 * What the camera catches the picture on, the longer side first.
 *
 * @param longMillimetres its longer side
 * @param shortMillimetres its shorter side
 */
public record Sensor(double longMillimetres, double shortMillimetres) {
    /** The frame of 35 mm film. */
    public static final Sensor FULL_FRAME = new Sensor(36, 24);

    /** How much smaller its diagonal is than that of 36 x 24 mm: 1, about 1.5, 2. */
    public double cropFactor() {
        return Math.hypot(36, 24) / Math.hypot(longMillimetres, shortMillimetres);
    }
}

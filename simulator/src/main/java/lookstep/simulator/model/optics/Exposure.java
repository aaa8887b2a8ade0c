package lookstep.simulator.model.optics;

/**
 * Exposure by incident light, ISO 2720:1974: N^2 / t = E S / C with C = 250, the usual constant for
 * a flat receptor, which is what a lux value is.
 */
public final class Exposure {
    /** Incident-light calibration constant for a flat receptor, lux seconds. */
    public static final double C = 250;

    private Exposure() {}

    /** Exposure value at ISO 100. */
    public static double ev100(double lux) {
        return log2(lux * 100 / C);
    }

    /** The illuminance of an exposure value at ISO 100. */
    public static double lux(double ev100) {
        return Math.pow(2, ev100) * C / 100;
    }

    /** The metered exposure time. */
    public static double seconds(double lux, double iso, double fNumber) {
        return C * fNumber * fNumber / (lux * iso);
    }

    /**
     * Linear picture value for each lux on a white surface: a surface of reflectance rho under E
     * lux records rho E scale. At the metered exposure white is 1 and an 18 % card 0.18.
     */
    public static double scale(double fNumber, double seconds, double iso) {
        return seconds * iso / (C * fNumber * fNumber);
    }

    /** {@link #scale(double, double, double)} of a camera. */
    public static double scale(Camera camera) {
        return scale(camera.fNumber(), camera.seconds(), camera.iso());
    }

    /** Stops over the metered exposure; negative is under. */
    public static double stopsOver(double lux, Camera settings) {
        return log2(lux * scale(settings));
    }

    private static double log2(double v) {
        return Math.log(v) / Math.log(2);
    }
}

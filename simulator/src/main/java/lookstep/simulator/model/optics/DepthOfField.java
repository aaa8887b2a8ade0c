package lookstep.simulator.model.optics;

/**
 * What is sharp, by the thin lens; distances from the lens.
 *
 * @param nearMetres the nearest point that is sharp
 * @param farMetres the farthest, infinite at or beyond the hyperfocal distance
 */
public record DepthOfField(double nearMetres, double farMetres) {
    /**
     * Circle of confusion on 36 x 24 mm that makes the trade's rule of an f-number for each person
     * come true with a 50 mm lens and focus left on the nearest face; 0.030 is the looser figure of
     * the handbooks.
     */
    public static final double DEFAULT_CIRCLE_MILLIMETRES = 0.020;

    /** Hyperfocal distance f^2 / (N c) + f. */
    public static double hyperfocalMetres(
            double focalMillimetres, double fNumber, double circleMillimetres) {
        return (focalMillimetres * focalMillimetres / (fNumber * circleMillimetres)
                        + focalMillimetres)
                / 1000;
    }

    /** What is sharp around a focused distance. */
    public static DepthOfField of(
            double focalMillimetres, double fNumber, double focusMetres, double circleMillimetres) {
        double h = hyperfocalMetres(focalMillimetres, fNumber, circleMillimetres);
        double f = focalMillimetres / 1000;
        double near = focusMetres * (h - f) / (h + focusMetres - 2 * f);
        double far =
                focusMetres >= h
                        ? Double.POSITIVE_INFINITY
                        : focusMetres * (h - f) / (h - focusMetres);
        return new DepthOfField(near, far);
    }

    /**
     * The least f-number that keeps a depth sharp with focus left on the nearest face.
     *
     * @param nearestMetres camera to the nearest face
     * @param depthMetres from there to the farthest, above 0
     */
    public static double fNumberFocusOnNearest(
            double focalMillimetres,
            double nearestMetres,
            double depthMetres,
            double circleMillimetres) {
        double f = focalMillimetres / 1000;
        double farthest = nearestMetres + depthMetres;
        double h = nearestMetres * (farthest - f) / depthMetres;
        return fNumber(focalMillimetres, h, circleMillimetres);
    }

    /**
     * The least f-number that keeps a depth sharp with focus where it is best, at {@link
     * #bestFocusMetres}.
     */
    public static double fNumberBestFocus(
            double focalMillimetres,
            double nearestMetres,
            double depthMetres,
            double circleMillimetres) {
        double f = focalMillimetres / 1000;
        double s = bestFocusMetres(nearestMetres, depthMetres);
        double h = (nearestMetres * (s - 2 * f) + s * f) / (s - nearestMetres);
        return fNumber(focalMillimetres, h, circleMillimetres);
    }

    /** The distance that blurs the nearest and the farthest equally: their harmonic mean. */
    public static double bestFocusMetres(double nearestMetres, double depthMetres) {
        double farthest = nearestMetres + depthMetres;
        return 2 * nearestMetres * farthest / (nearestMetres + farthest);
    }

    /**
     * Circle of confusion of a sensor: that of 36 x 24 mm, smaller as its diagonal is, so that
     * pictures of one size on paper are as sharp.
     */
    public static double circleMillimetres(double longMillimetres, double shortMillimetres) {
        return DEFAULT_CIRCLE_MILLIMETRES
                * Math.hypot(longMillimetres, shortMillimetres)
                / Math.hypot(Camera.SENSOR_LONG_MILLIMETRES, Camera.SENSOR_SHORT_MILLIMETRES);
    }

    /**
     * Diameter on the sensor of the disc that a point out of focus becomes: f^2 / N x (d - s) / (d
     * (s - f)).
     *
     * @param focusMetres s, may be infinite
     * @param atMetres d, may be infinite
     * @return millimetres, positive behind the focus, negative before it
     */
    public static double discMillimetres(
            double focalMillimetres, double fNumber, double focusMetres, double atMetres) {
        double aperture = focalMillimetres / fNumber;
        if (Double.isInfinite(focusMetres)) {
            return -aperture * focalMillimetres / (1000 * atMetres);
        }
        return aperture
                * focalMillimetres
                / (1000 * focusMetres - focalMillimetres)
                * (1 - focusMetres / atMetres);
    }

    private static double fNumber(
            double focalMillimetres, double hyperfocalMetres, double circleMillimetres) {
        return focalMillimetres
                * focalMillimetres
                / (circleMillimetres * (hyperfocalMetres * 1000 - focalMillimetres));
    }
}

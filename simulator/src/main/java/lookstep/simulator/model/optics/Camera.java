package lookstep.simulator.model.optics;

import lookstep.simulator.model.space.Vec3;

/**
 * A camera with a 36 x 24 mm sensor, where it stands and what it is set to. It is held upright or
 * level as the picture is taller or wider. Values are used as they are: give exact ones ({@link
 * #exact()}) where the dial shows nominal ones.
 *
 * @param position of the lens, metres
 * @param target the point in the middle of the picture, metres
 * @param focalMillimetres focal length
 * @param fNumber relative aperture
 * @param seconds exposure time
 * @param iso exposure index
 * @param whiteBalanceKelvin what white is set to, 1000..25000
 */
public record Camera(
        Vec3 position,
        Vec3 target,
        double focalMillimetres,
        double fNumber,
        double seconds,
        double iso,
        double whiteBalanceKelvin) {
    /** Longer side of the sensor. */
    public static final double SENSOR_LONG_MILLIMETRES = 36;

    /** Shorter side of the sensor. */
    public static final double SENSOR_SHORT_MILLIMETRES = 24;

    public Camera {
        if (position.equals(target)) {
            throw new IllegalArgumentException("the camera at " + position + " looks at itself");
        }
        if (!(focalMillimetres > 0 && fNumber > 0 && seconds > 0 && iso > 0)) {
            throw new IllegalArgumentException(
                    "focal length, f-number, time and ISO must all be above 0");
        }
    }

    /** The same camera at another exposure. */
    public Camera withExposure(double newFNumber, double newSeconds, double newIso) {
        return new Camera(
                position,
                target,
                focalMillimetres,
                newFNumber,
                newSeconds,
                newIso,
                whiteBalanceKelvin);
    }

    /** The same camera at another white balance. */
    public Camera withWhiteBalance(double kelvin) {
        return new Camera(position, target, focalMillimetres, fNumber, seconds, iso, kelvin);
    }

    /** The same camera with the exact values behind the nominal ones on its dials. */
    public Camera exact() {
        return withExposure(
                Scales.exactFNumber(fNumber), Scales.exactSeconds(seconds), Scales.exactIso(iso));
    }
}

package lookstep.simulator.model.optics;

import lookstep.simulator.model.space.Vec3;

/**
 * A camera where it stands and what it is set to. It is held upright or level as the picture is
 * taller or wider. Values are used as they are: give exact ones ({@link #exact()}) where the dial
 * shows nominal ones.
 *
 * @param position of the lens, metres
 * @param target the point in the middle of the picture, metres
 * @param focalMillimetres focal length
 * @param fNumber relative aperture
 * @param seconds exposure time
 * @param iso exposure index
 * @param whiteBalanceKelvin what white is set to, 1000..25000
 * @param sensorLongMillimetres longer side of the sensor
 * @param sensorShortMillimetres shorter side of the sensor
 * @param focusMetres from the lens to the plane that is sharp, along the axis; {@link #ALL_SHARP}
 *     for a picture without depth of field, infinite for the distance
 */
public record Camera(
        Vec3 position,
        Vec3 target,
        double focalMillimetres,
        double fNumber,
        double seconds,
        double iso,
        double whiteBalanceKelvin,
        double sensorLongMillimetres,
        double sensorShortMillimetres,
        double focusMetres) {
    /** Longer side of the frame of 35 mm film. */
    public static final double SENSOR_LONG_MILLIMETRES = 36;

    /** Shorter side of the frame of 35 mm film. */
    public static final double SENSOR_SHORT_MILLIMETRES = 24;

    /** In the place of a distance: as through a pinhole, nothing is out of focus. */
    public static final double ALL_SHARP = 0;

    public Camera {
        if (position.equals(target)) {
            throw new IllegalArgumentException("the camera at " + position + " looks at itself");
        }
        if (!(focalMillimetres > 0 && fNumber > 0 && seconds > 0 && iso > 0)) {
            throw new IllegalArgumentException(
                    "focal length, f-number, time and ISO must all be above 0");
        }
        if (!(sensorShortMillimetres > 0 && sensorLongMillimetres >= sensorShortMillimetres)) {
            throw new IllegalArgumentException(
                    "a sensor of "
                            + sensorLongMillimetres
                            + " x "
                            + sensorShortMillimetres
                            + " mm: give the longer side first, both above 0");
        }
        if (focusMetres != ALL_SHARP && !(focusMetres * 1000 > focalMillimetres)) {
            throw new IllegalArgumentException(
                    "a lens of "
                            + focalMillimetres
                            + " mm cannot focus at "
                            + focusMetres
                            + " m: go farther away than its focal length");
        }
    }

    /** With a sensor of 36 x 24 mm, and everything sharp. */
    public Camera(
            Vec3 position,
            Vec3 target,
            double focalMillimetres,
            double fNumber,
            double seconds,
            double iso,
            double whiteBalanceKelvin) {
        this(
                position,
                target,
                focalMillimetres,
                fNumber,
                seconds,
                iso,
                whiteBalanceKelvin,
                SENSOR_LONG_MILLIMETRES,
                SENSOR_SHORT_MILLIMETRES,
                ALL_SHARP);
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
                whiteBalanceKelvin,
                sensorLongMillimetres,
                sensorShortMillimetres,
                focusMetres);
    }

    /** The same camera at another white balance. */
    public Camera withWhiteBalance(double kelvin) {
        return new Camera(
                position,
                target,
                focalMillimetres,
                fNumber,
                seconds,
                iso,
                kelvin,
                sensorLongMillimetres,
                sensorShortMillimetres,
                focusMetres);
    }

    /** The same camera with another sensor in it, the longer side first. */
    public Camera withSensor(double longMillimetres, double shortMillimetres) {
        return new Camera(
                position,
                target,
                focalMillimetres,
                fNumber,
                seconds,
                iso,
                whiteBalanceKelvin,
                longMillimetres,
                shortMillimetres,
                focusMetres);
    }

    /** The same camera focused on a plane this far from the lens. */
    public Camera focused(double metres) {
        return new Camera(
                position,
                target,
                focalMillimetres,
                fNumber,
                seconds,
                iso,
                whiteBalanceKelvin,
                sensorLongMillimetres,
                sensorShortMillimetres,
                metres);
    }

    /** The same camera focused on the plane of a point. */
    public Camera focusedOn(Vec3 point) {
        return focused(depthMetres(point));
    }

    /** How far along the axis a point lies, metres from the lens. */
    public double depthMetres(Vec3 point) {
        return point.minus(position).dot(target.minus(position).unit());
    }

    /** The same camera with the exact values behind the nominal ones on its dials. */
    public Camera exact() {
        return withExposure(
                Scales.exactFNumber(fNumber), Scales.exactSeconds(seconds), Scales.exactIso(iso));
    }
}

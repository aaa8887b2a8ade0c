package lookstep.server.prediction;

import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.space.Vec3;

/**
 * Where points of the set fall in a picture: central projection, held upright or level as the
 * picture is, its longer side the longer side of the sensor.
 */
public final class Sight {
    private final Vec3 eye;
    private final Vec3 forward;
    private final Vec3 right;
    private final Vec3 up;
    private final double across;
    private final double down;

    /**
     * A place in the picture, in shares of its width and height from the left and the top; it may
     * lie outside.
     *
     * @param perMetreAcross the share of the width that a metre has there
     * @param perMetreDown the share of the height
     */
    public record At(double x, double y, double perMetreAcross, double perMetreDown) {}

    /** Any size of picture with these proportions will do. */
    public Sight(Camera camera, double pictureWidth, double pictureHeight) {
        eye = camera.position();
        forward = camera.target().minus(eye).unit();
        right = forward.cross(new Vec3(0, 0, 1)).unit();
        up = right.cross(forward);
        double longSide = Math.max(pictureWidth, pictureHeight);
        double longs = camera.focalMillimetres() / camera.sensorLongMillimetres() * longSide;
        across = longs / pictureWidth;
        down = longs / pictureHeight;
    }

    /**
     * Where a point falls.
     *
     * @param point in front of the camera
     */
    public At at(Vec3 point) {
        Vec3 d = point.minus(eye);
        double away = d.dot(forward);
        return new At(
                0.5 + d.dot(right) / away * across,
                0.5 - d.dot(up) / away * down,
                across / away,
                down / away);
    }
}

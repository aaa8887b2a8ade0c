package lookstep.server.framecheck;

import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.space.Vec3;

/**
 * Where points of the set fall in a picture: central projection, held upright or level as the
 * picture is, its longer side the longer side of the sensor.
 */
final class Sight {
    private final Vec3 eye;
    private final Vec3 forward;
    private final Vec3 right;
    private final Vec3 up;
    private final double across;
    private final double down;

    /** Any size of picture with these proportions will do. */
    Sight(Camera camera, double pictureWidth, double pictureHeight) {
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
     * A patch that faces the camera, in shares of the picture; it may lie outside.
     *
     * @param centre its middle, in front of the camera
     */
    Box project(Vec3 centre, double widthMetres, double heightMetres) {
        Vec3 d = centre.minus(eye);
        double away = d.dot(forward);
        return Box.around(
                0.5 + d.dot(right) / away * across,
                0.5 - d.dot(up) / away * down,
                widthMetres / away * across,
                heightMetres / away * down);
    }
}

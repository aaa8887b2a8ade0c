package lookstep.server.framecheck;

import lookstep.server.prediction.Sight.At;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.space.Vec3;

/** Where patches of the set fall in a picture. */
final class Sight {
    private final lookstep.server.prediction.Sight points;

    /** Any size of picture with these proportions will do. */
    Sight(Camera camera, double pictureWidth, double pictureHeight) {
        points = new lookstep.server.prediction.Sight(camera, pictureWidth, pictureHeight);
    }

    /**
     * A patch that faces the camera, in shares of the picture; it may lie outside.
     *
     * @param centre its middle, in front of the camera
     */
    Box project(Vec3 centre, double widthMetres, double heightMetres) {
        At at = points.at(centre);
        return Box.around(
                at.x(),
                at.y(),
                widthMetres * at.perMetreAcross(),
                heightMetres * at.perMetreDown());
    }
}

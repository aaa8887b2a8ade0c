package lookstep.simulator.model.picture;

import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.optics.DepthOfField;

/** How large a disc a point becomes that is out of focus, in pixels. */
final class Focus {
    /** A disc that stays within its pixel is none. */
    private static final double LEAST_PIXELS = 1;

    private final Camera camera;
    private final double pixelsPerMillimetre;

    Focus(Camera camera, int longSidePixels) {
        this.camera = camera;
        this.pixelsPerMillimetre = longSidePixels / camera.sensorLongMillimetres();
    }

    /** Whether anything between two depths, metres, goes farther than its own pixel. */
    boolean blurs(double nearest, double farthest) {
        return Math.abs(disc(nearest)) > LEAST_PIXELS || Math.abs(disc(farthest)) > LEAST_PIXELS;
    }

    /** Diameter in pixels at a depth in metres: positive behind the focus, negative before it. */
    double disc(double depth) {
        return camera.focusMetres() == Camera.ALL_SHARP
                ? 0
                : pixelsPerMillimetre
                        * DepthOfField.discMillimetres(
                                camera.focalMillimetres(),
                                camera.fNumber(),
                                camera.focusMetres(),
                                depth);
    }
}

package lookstep.server.checks;

import lookstep.server.plan.Sensor;
import lookstep.server.prediction.Formats;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.space.Vec3;

/**
 * What of the set is in the picture, cut to the format that is wanted.
 *
 * @param eye the lens
 * @param forward where the camera looks
 * @param right of the picture
 * @param up in the picture
 * @param halfWidth of the crop, as a share of the distance
 * @param halfHeight of the crop, as a share of the distance
 * @param share of the sensor that the crop leaves, 0..1
 */
record Frame(
        Vec3 eye,
        Vec3 forward,
        Vec3 right,
        Vec3 up,
        double halfWidth,
        double halfHeight,
        double share) {
    static Frame of(Staged s) {
        Camera c = s.camera();
        Sensor sensor = s.plan().around().sensor();
        String framing = s.shot().framing();
        boolean upright = Formats.upright(framing);
        double w = upright ? sensor.shortMillimetres() : sensor.longMillimetres();
        double h = upright ? sensor.longMillimetres() : sensor.shortMillimetres();
        Formats.Crop crop = Formats.crop(framing, sensor);
        double cutWidth = (crop.right() - crop.left()) * w;
        double cutHeight = (crop.bottom() - crop.top()) * h;
        Vec3 forward = c.target().minus(c.position()).unit();
        Vec3 across = forward.cross(new Vec3(0, 0, 1));
        Vec3 right = across.length() < 1e-9 ? new Vec3(1, 0, 0) : across.unit();
        return new Frame(
                c.position(),
                forward,
                right,
                right.cross(forward),
                cutWidth / 2 / c.focalMillimetres(),
                cutHeight / 2 / c.focalMillimetres(),
                cutWidth * cutHeight / (w * h));
    }

    /** -1 is the left edge, 1 the right one. */
    double x(Vec3 p) {
        Vec3 d = p.minus(eye);
        return d.dot(right) / d.dot(forward) / halfWidth;
    }

    /** -1 is the lower edge, 1 the upper one. */
    double y(Vec3 p) {
        Vec3 d = p.minus(eye);
        return d.dot(up) / d.dot(forward) / halfHeight;
    }

    boolean holds(Vec3 p) {
        return p.minus(eye).dot(forward) > 0 && Math.abs(x(p)) < 1 && Math.abs(y(p)) < 1;
    }
}

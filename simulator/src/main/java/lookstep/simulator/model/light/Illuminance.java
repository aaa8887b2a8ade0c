package lookstep.simulator.model.light;

import lookstep.simulator.model.space.Vec3;

/**
 * The photometric distance law (IEC 60050-845) for a lamp with a lit disc. On the axis of a uniform
 * disc of radius R the illuminance is I / (d^2 + R^2), exact for a diffuse disc; off the axis the
 * same denominator is kept. Beyond five diameters it differs from I / d^2 by less than 1 % (the
 * five-times rule of the IES).
 */
public final class Illuminance {
    private Illuminance() {}

    /**
     * Illuminance in lux, with nothing in the way.
     *
     * @param candela intensity on the beam's axis, far away
     * @param point where it arrives, metres
     * @param normalOrNull unit normal of the surface there; null for a surface that faces the lamp
     */
    public static double lux(Luminaire lamp, double candela, Vec3 point, Vec3 normalOrNull) {
        Vec3 ray = point.minus(lamp.position());
        double distance = ray.length();
        if (distance == 0) {
            return 0;
        }
        double radius = lamp.sizeMetres() / 2;
        double spread = lamp.beam().relative(ray.dot(lamp.axis()) / distance);
        double cosine = normalOrNull == null ? 1 : Math.max(0, -ray.dot(normalOrNull) / distance);
        return candela * spread * cosine / (distance * distance + radius * radius);
    }
}

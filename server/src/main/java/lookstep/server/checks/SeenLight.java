package lookstep.server.checks;

import java.util.function.ToDoubleFunction;
import lookstep.server.checks.MeasuredLight.Factors;
import lookstep.server.prediction.Predictions;
import lookstep.simulator.model.colour.Srgb;
import lookstep.simulator.model.colour.WhiteBalance;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.light.Luminaire;
import lookstep.simulator.model.optics.Exposure;
import lookstep.simulator.model.scene.Finish;
import lookstep.simulator.model.scene.Reflectance;
import lookstep.simulator.model.scene.Room;
import lookstep.simulator.model.space.Vec3;

/**
 * What the camera records of a surface at single points, worked out without a picture: 1 is white
 * at the metered exposure. People shade as {@link Shade} says.
 */
final class SeenLight {
    private final Staged staged;
    private final Shade shade;
    private final double[][] rgb;

    SeenLight(Staged staged) {
        this.staged = staged;
        this.shade = new Shade(staged.scene().figures());
        WhiteBalance balance = new WhiteBalance(staged.camera().whiteBalanceKelvin());
        double scale = Exposure.scale(staged.camera());
        int lamps = staged.sent().size();
        rgb = new double[lamps + 1][];
        for (int i = 0; i < lamps; i++) {
            Xyz sent = staged.sent().get(i);
            rgb[i] = sent.y() > 0 ? balance.linearSrgb(sent.times(scale)) : null;
        }
        double house = staged.scene().houseLux();
        rgb[lamps] =
                house > 0
                        ? balance.linearSrgb(
                                Predictions.houseWhite(staged.plan()).times(house * scale))
                        : null;
    }

    Shade shade() {
        return shade;
    }

    /**
     * Luminance from each lamp, in the rig's order, and last from the house.
     *
     * @param n unit normal
     * @param d unit direction of view, towards the surface
     * @param self whose surface it is; -1 for the room's
     */
    double[] luminance(Vec3 p, Vec3 n, Vec3 d, Finish finish, Reflectance r, int self) {
        return luminance(each(p, n, d, finish, r, self), Factors::people);
    }

    private double[] luminance(double[][] each, ToDoubleFunction<Factors> where) {
        double[] out = new double[each.length];
        for (int i = 0; i < each.length; i++) {
            out[i] =
                    each[i] == null
                            ? 0
                            : Srgb.luminance(each[i][0], each[i][1], each[i][2])
                                    * where.applyAsDouble(factors(i));
        }
        return out;
    }

    private Factors factors(int lamp) {
        return lamp < staged.sent().size() ? staged.factors(lamp) : staged.measured().house();
    }

    /** Linear red, green, blue of all light together, on people or a card in their place. */
    double[] colour(Vec3 p, Vec3 n, Vec3 d, Finish finish, Reflectance r, int self) {
        return colour(each(p, n, d, finish, r, self), Factors::people);
    }

    /** The same on the far wall. */
    double[] background(Vec3 p, Vec3 d) {
        return colour(
                each(p, new Vec3(0, -1, 0), d, Finish.MATT, staged.scene().room().background(), -1),
                Factors::background);
    }

    private double[] colour(double[][] each, ToDoubleFunction<Factors> where) {
        double[] sum = new double[3];
        for (int i = 0; i < each.length; i++) {
            for (int c = 0; c < 3 && each[i] != null; c++) {
                sum[c] += each[i][c] * where.applyAsDouble(factors(i));
            }
        }
        return sum;
    }

    private double[][] each(Vec3 p, Vec3 n, Vec3 d, Finish finish, Reflectance r, int self) {
        double[][] out = new double[rgb.length][];
        for (int i = 0; i < rgb.length - 1; i++) {
            if (rgb[i] == null) {
                continue;
            }
            Luminaire lamp = staged.scene().luminaires().get(i);
            Vec3 to = lamp.position().minus(p);
            double distance = to.length();
            Vec3 l = to.times(1 / distance);
            double direct = staged.lamps().get(i).direct(p, n);
            double mirrored = 0;
            if (direct > 1e-6) {
                direct *= shade.visible(p, l, distance, lamp.sizeMetres(), self);
                mirrored = finish.mirrored(n, d, l) * direct;
                direct *= finish.scattered(n.dot(l));
            }
            double even = direct + staged.lamps().get(i).indirect();
            out[i] = on(rgb[i], even, mirrored, r);
        }
        if (rgb[rgb.length - 1] != null) {
            // The house comes from all round, more from above; 1 on an upright surface.
            out[rgb.length - 1] = on(rgb[rgb.length - 1], 1 + 0.45 * n.z(), 0, r);
        }
        return out;
    }

    private static double[] on(double[] light, double even, double mirrored, Reflectance r) {
        return new double[] {
            light[0] * (even * r.r() + mirrored),
            light[1] * (even * r.g() + mirrored),
            light[2] * (even * r.b() + mirrored)
        };
    }

    /** What a look into the room ends at, people left out: luminance of each lamp and the house. */
    double[] room(Vec3 from, Vec3 d) {
        Wall wall = Wall.met(staged.scene().room(), from, d);
        return luminance(
                each(wall.point(), wall.normal(), d, wall.finish(), wall.reflectance(), -1),
                wall.background()
                        ? Factors::background
                        : wall.normal().z() > 0 ? Factors::floor : f -> 1);
    }

    /** A surface of the room where a look meets it. */
    record Wall(
            Vec3 point, Vec3 normal, Finish finish, Reflectance reflectance, boolean background) {
        static Wall met(Room room, Vec3 o, Vec3 d) {
            double half = room.widthMetres() / 2;
            double floor = d.z() < 0 ? -o.z() / d.z() : Double.POSITIVE_INFINITY;
            double ceiling =
                    d.z() > 0 ? (room.heightMetres() - o.z()) / d.z() : Double.POSITIVE_INFINITY;
            double back =
                    d.y() > 0
                            ? (room.backgroundMetres() - o.y()) / d.y()
                            : Double.POSITIVE_INFINITY;
            double side =
                    d.x() == 0
                            ? Double.POSITIVE_INFINITY
                            : (Math.copySign(half, d.x()) - o.x()) / d.x();
            double t = Math.min(Math.min(floor, ceiling), Math.min(back, side));
            Vec3 p = o.plus(d.times(t));
            if (t == back) {
                return new Wall(p, new Vec3(0, -1, 0), Finish.MATT, room.background(), true);
            } else if (t == floor) {
                return new Wall(p, new Vec3(0, 0, 1), Finish.FLOOR, room.floor(), false);
            } else if (t == ceiling) {
                return new Wall(p, new Vec3(0, 0, -1), Finish.MATT, room.walls(), false);
            }
            return new Wall(
                    p, new Vec3(-Math.signum(d.x()), 0, 0), Finish.MATT, room.walls(), false);
        }
    }
}

package lookstep.simulator.model.picture;

import java.util.ArrayList;
import java.util.List;
import lookstep.simulator.model.light.Luminaire;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.scene.Finish;
import lookstep.simulator.model.scene.LampInRoom;
import lookstep.simulator.model.scene.Reflectance;
import lookstep.simulator.model.scene.Room;
import lookstep.simulator.model.scene.Scene;
import lookstep.simulator.model.space.Vec3;

/**
 * What a ray meets, and how much light of each lamp comes back along it; what the surfaces do with
 * it is {@link Finish}.
 */
final class Shading {
    private static final double NORMAL_STEP = 0.0016;
    private static final double LEAST_SPREAD = 0.006;

    /** A background darker than this is cloth (black cloth is 0.02 to 0.05, common practice). */
    private static final double CLOTH = 0.055;

    private final Room room;
    private final double floorZ = 0;
    private final List<StandIn> people = new ArrayList<>();
    private final Luminaire[] lamps;
    private final Vec3[] axes;
    private final double[] exponents;
    private final LampInRoom[] fromLamp;

    Shading(Scene scene) {
        room = scene.room();
        for (Figure f : scene.figures()) {
            people.add(new StandIn(f));
        }
        lamps = scene.luminaires().toArray(Luminaire[]::new);
        axes = new Vec3[lamps.length];
        exponents = new double[lamps.length];
        fromLamp = new LampInRoom[lamps.length];
        for (int i = 0; i < lamps.length; i++) {
            axes[i] = lamps[i].axis();
            exponents[i] = lamps[i].beam().exponent();
            fromLamp[i] = new LampInRoom(lamps[i], room);
        }
    }

    /** The first thing along a ray. */
    Hit trace(Vec3 o, Vec3 d) {
        Hit hit = traceRoom(o, d);
        for (int i = 0; i < lamps.length; i++) {
            double facing = d.dot(axes[i]);
            double t = lamps[i].position().minus(o).dot(axes[i]) / facing;
            if (t > 0.05 && t < hit.distance()) {
                Vec3 p = o.plus(d.times(t));
                if (p.minus(lamps[i].position()).length() < housing(lamps[i])) {
                    hit = new Hit(t, p, Part.LAMP, i);
                }
            }
        }
        for (int i = 0; i < people.size(); i++) {
            double t = people.get(i).trace(o, d, hit.distance());
            if (t < hit.distance()) {
                Vec3 p = o.plus(d.times(t));
                Vec3 l = people.get(i).local(p.x(), p.y(), p.z());
                hit = new Hit(t, p, people.get(i).body.part(l.x(), l.y(), l.z()), i);
            }
        }
        return hit;
    }

    private static double housing(Luminaire lamp) {
        return Math.max(0.05, lamp.sizeMetres() / 2);
    }

    private Hit traceRoom(Vec3 o, Vec3 d) {
        double best = Double.POSITIVE_INFINITY;
        Part part = Part.NOTHING;
        double t = (floorZ - o.z()) / d.z();
        if (d.z() < 0 && t > 0 && t < best) {
            best = t;
            part = Part.FLOOR;
        }
        t = (room.heightMetres() - o.z()) / d.z();
        if (d.z() > 0 && t > 0 && t < best) {
            best = t;
            part = Part.WALL;
        }
        t = (room.backgroundMetres() - o.y()) / d.y();
        if (d.y() > 0 && t > 0 && t < best) {
            best = t;
            part = Part.BACKGROUND;
        }
        t = (room.backgroundMetres() - room.depthMetres() - o.y()) / d.y();
        if (d.y() < 0 && t > 0 && t < best) {
            best = t;
            part = Part.WALL;
        }
        t = (Math.copySign(room.widthMetres() / 2, d.x()) - o.x()) / d.x();
        if (t > 0 && t < best) {
            best = t;
            part = Part.WALL;
        }
        return new Hit(best, part == Part.NOTHING ? o : o.plus(d.times(best)), part, -1);
    }

    /** How the surface reflects, into sample {@code at}. */
    void paint(Hit hit, int at, float[] reflectance) {
        Vec3 p = hit.point();
        Reflectance r =
                switch (hit.part()) {
                    case NOTHING -> Reflectance.grey(0);
                    case FLOOR -> room.floor();
                    case BACKGROUND -> room.background();
                    case WALL -> room.walls();
                    case LAMP -> Reflectance.grey(0.04);
                    default -> {
                        StandIn person = people.get(hit.owner());
                        Vec3 l = person.local(p.x(), p.y(), p.z());
                        yield person.body.reflectance(hit.part(), l.x(), l.y(), l.z());
                    }
                };
        double grain = Grain.of(hit.part(), p);
        reflectance[at * 3] = (float) (r.r() * grain);
        reflectance[at * 3 + 1] = (float) (r.g() * grain);
        reflectance[at * 3 + 2] = (float) (r.b() * grain);
    }

    /** What each lamp and the house bring to the surface, into sample {@code at}. */
    void light(Vec3 d, Hit hit, int at, float[][] diffuse, float[][] gloss) {
        if (hit.part() == Part.NOTHING) {
            return;
        }
        Vec3 p = hit.point();
        Vec3 n;
        Finish finish = Finish.MATT;
        if (hit.part() == Part.LAMP) {
            Vec3 axis = axes[hit.owner()];
            boolean front = d.dot(axis) < 0;
            n = front ? axis : axis.times(-1);
            if (front) {
                // Luminance of a disc is I / (pi R^2 cos); a surface of value 1 has E / pi.
                double cosine = -d.dot(axis);
                double radius = housing(lamps[hit.owner()]);
                gloss[hit.owner()][at] =
                        (float)
                                (Math.pow(cosine, exponents[hit.owner()])
                                        / (Math.max(0.2, cosine) * radius * radius));
            }
        } else if (hit.part().ofFigure()) {
            Body body = people.get(hit.owner()).body;
            n = normal(body, people.get(hit.owner()).local(p.x(), p.y(), p.z()));
            finish =
                    switch (hit.part()) {
                        case SKIN, FEATURE -> Finish.SKIN;
                        case HAIR -> Finish.HAIR;
                        case SHOES -> Finish.SHOES;
                        default -> Finish.CLOTHES;
                    };
        } else {
            n = roomNormal(hit.part(), p);
            if (hit.part() == Part.FLOOR) {
                finish = Finish.FLOOR;
            } else if (hit.part() == Part.BACKGROUND && room.background().luminous() < CLOTH) {
                n = Grain.clothNormal(p);
            }
        }

        double open = openness(p, n);
        for (int i = 0; i < lamps.length; i++) {
            double direct = fromLamp[i].direct(p, n);
            Vec3 to = lamps[i].position().minus(p);
            double distance = to.length();
            Vec3 l = to.times(1 / distance);
            double cosine = n.dot(l);
            if (direct > 1e-6) {
                double spread = lamps[i].sizeMetres() / 2 / distance;
                direct *= visible(p, n, l, distance, Math.max(LEAST_SPREAD, spread));
            }
            if (finish.shine() > 0 && direct > 0) {
                gloss[i][at] += (float) (finish.mirrored(n, d, l) * direct);
                direct *= finish.scattered(cosine);
            }
            diffuse[i][at] = (float) (direct + fromLamp[i].indirect() * open);
        }
        // The house comes from all round, more from above; 1 on an upright surface.
        diffuse[lamps.length][at] = (float) ((1 + 0.45 * n.z()) * open);
    }

    private double visible(Vec3 p, Vec3 n, Vec3 l, double distance, double spread) {
        // Off the surface by the error of the grid.
        double x = p.x() + n.x() * 0.012;
        double y = p.y() + n.y() * 0.012;
        double z = p.z() + n.z() * 0.012;
        double share = 1;
        for (int i = 0; i < people.size(); i++) {
            share *= people.get(i).visible(x, y, z, l, 0.05, distance, spread);
            if (share < 1e-3) {
                return 0;
            }
        }
        return share;
    }

    /** How much of the room a point sees, 0..1: clearance along the normal at three distances. */
    private double openness(Vec3 p, Vec3 n) {
        double covered = 0;
        double weight = 0.5;
        double step = 0.06;
        for (int k = 0; k < 3; k++) {
            double free = step;
            for (int i = 0; i < people.size(); i++) {
                free =
                        Math.min(
                                free,
                                people.get(i)
                                        .clearance(
                                                p.x() + n.x() * step,
                                                p.y() + n.y() * step,
                                                p.z() + n.z() * step,
                                                step));
            }
            covered += weight * (step - Math.max(0, free)) / step;
            step *= 2.4;
            weight *= 0.8;
        }
        return Math.max(0.15, 1 - 0.9 * covered);
    }

    private Vec3 normal(Body body, Vec3 l) {
        double h = NORMAL_STEP;
        double a = body.distance(l.x() + h, l.y() - h, l.z() - h);
        double b = body.distance(l.x() - h, l.y() - h, l.z() + h);
        double c = body.distance(l.x() - h, l.y() + h, l.z() - h);
        double e = body.distance(l.x() + h, l.y() + h, l.z() + h);
        double x = a - b - c + e;
        double y = -a - b + c + e;
        double z = -a + b - c + e;
        double length = Math.sqrt(x * x + y * y + z * z);
        if (length == 0) {
            return new Vec3(0, 0, 1);
        }
        return new Vec3(body.worldX(x, y) / length, body.worldY(x, y) / length, z / length);
    }

    private Vec3 roomNormal(Part part, Vec3 p) {
        if (part == Part.FLOOR) {
            return new Vec3(0, 0, 1);
        }
        if (part == Part.BACKGROUND) {
            return new Vec3(0, -1, 0);
        }
        if (p.z() > room.heightMetres() - 1e-6) {
            return new Vec3(0, 0, -1);
        }
        if (Math.abs(p.x()) > room.widthMetres() / 2 - 1e-6) {
            return new Vec3(-Math.signum(p.x()), 0, 0);
        }
        return new Vec3(0, 1, 0);
    }
}

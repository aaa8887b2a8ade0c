package lookstep.simulator.model.picture;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.scene.Reflectance;
import lookstep.simulator.model.space.Vec3;

/**
 * A standing person as a solid, in their own coordinates: feet at the origin, facing -y, z up, and
 * drawn for a height of {@link #DRAWN_METRES}. Proportions follow the usual tables of standing
 * adults: head an eighth to a seventh of the height, shoulder joints 0.38 m apart, hip joints at
 * half the height (from memory).
 */
final class Body {
    static final double DRAWN_METRES = 1.75;

    private static final Reflectance EYE_WHITE = new Reflectance(0.42, 0.40, 0.38);
    private static final Reflectance IRIS = new Reflectance(0.03, 0.022, 0.018);

    private final Figure figure;
    private final double scale;
    private final double cos;
    private final double sin;
    private final double headCos;
    private final double headSin;
    private final double lean;
    private final double leanX;
    private final double width;
    private final int hairStyle;
    private final boolean beard;
    private final boolean shortSleeves;
    private final boolean longCoat;
    private final double folds;

    private final List<Shape> torso = new ArrayList<>();
    private final List<Shape> sleeves = new ArrayList<>();
    private final List<Shape> bare = new ArrayList<>();
    private final List<Shape> legs = new ArrayList<>();
    private final List<Shape> shoes = new ArrayList<>();

    Body(Figure figure) {
        this.figure = figure;
        this.scale = figure.heightMetres() / DRAWN_METRES;
        double turn = Math.toRadians(figure.turnDegrees());
        this.cos = Math.cos(turn);
        this.sin = Math.sin(turn);
        Random random = new Random(figure.seed() * 0x9E3779B97F4A7C15L + 1);
        random.nextInt();
        double head = Math.toRadians(-14 + 28 * random.nextDouble());
        this.headCos = Math.cos(head);
        this.headSin = Math.sin(head);
        this.lean = Math.toRadians(-4 + 8 * random.nextDouble());
        this.width = 0.93 + 0.14 * random.nextDouble();
        this.hairStyle = (int) Math.floorMod(figure.seed(), 6L);
        this.beard = random.nextInt(4) == 0;
        this.shortSleeves = random.nextInt(3) == 0;
        this.longCoat = random.nextInt(4) == 0;
        this.folds = 10 * random.nextDouble();
        int arms = (int) Math.floorMod(figure.seed() / 2 + random.nextInt(5), 5L);
        double sway = (random.nextBoolean() ? 1 : -1) * (0.012 + 0.02 * random.nextDouble());
        this.leanX = sway * 0.5;
        build(arms, sway, random);
    }

    private void build(int arms, double sway, Random random) {
        double w = width;
        // Hips go to the standing leg, shoulders the other way.
        double hip = sway;
        double up = -sway * 0.4;
        torso.add(new Shape.Ellipsoid(up, 0.0, 1.265, 0.165 * w, 0.112, 0.20));
        torso.add(new Shape.Ellipsoid(hip * 0.5, 0.0, 1.08, 0.142 * w, 0.100, 0.18));
        torso.add(new Shape.Ellipsoid(hip, 0.01, 0.955, 0.160 * w, 0.112, longCoat ? 0.20 : 0.13));
        torso.add(limb(up - 0.145 * w, 0.012, 1.395, 0.056, up + 0.145 * w, 0.012, 1.395, 0.056));
        torso.add(limb(up * 0.5, 0.025, 1.455, 0.052, up - 0.12 * w, 0.015, 1.41, 0.042));
        torso.add(limb(up * 0.5, 0.025, 1.455, 0.052, up + 0.12 * w, 0.015, 1.41, 0.042));

        for (int side = -1; side <= 1; side += 2) {
            double[] shoulder = {up + side * 0.188 * w, 0.012, 1.392};
            double[] hand;
            double[] pole;
            boolean relaxed = arms == 0 || (arms == 3 && side > 0) || (arms == 4 && side < 0);
            if (relaxed) {
                hand = new double[] {hip + side * 0.265, -0.05, 0.875};
                pole = new double[] {side * 0.5, 1, 0};
            } else if (arms == 1) {
                hand = new double[] {hip + side * 0.19, -0.055, 0.935};
                pole = new double[] {side, 0.7, 0};
            } else if (arms == 2) {
                hand = new double[] {-side * 0.075, -0.165 - (side > 0 ? 0.035 : 0), 1.205};
                pole = new double[] {side, -0.15, -0.6};
            } else if (arms == 3) {
                hand = new double[] {hip + side * 0.175, -0.02, 1.02};
                pole = new double[] {side, 0.45, 0};
            } else {
                hand = new double[] {hip + side * 0.20, -0.06, 0.925};
                pole = new double[] {side, 0.8, 0};
            }
            double[] elbow = elbow(shoulder, hand, pole, 0.295, 0.262);
            List<Shape> fore = shortSleeves ? bare : sleeves;
            double thick = shortSleeves ? 0 : 0.006;
            sleeves.add(
                    limb(
                            shoulder[0],
                            shoulder[1],
                            shoulder[2],
                            0.056,
                            elbow[0],
                            elbow[1],
                            elbow[2],
                            0.040 + thick));
            if (shortSleeves) {
                bare.add(
                        limb(
                                shoulder[0],
                                shoulder[1],
                                shoulder[2],
                                0.03,
                                elbow[0],
                                elbow[1],
                                elbow[2],
                                0.037));
            }
            fore.add(
                    limb(
                            elbow[0],
                            elbow[1],
                            elbow[2],
                            0.040 + thick,
                            hand[0],
                            hand[1],
                            hand[2],
                            0.027 + thick));
            boolean pocket = arms == 1 || (arms == 4 && !relaxed);
            if (!pocket) {
                hand(elbow, hand, side);
            }
        }

        for (int side = -1; side <= 1; side += 2) {
            boolean bearing = side * sway > 0;
            double out = bearing ? 0.10 : 0.135 + 0.02 * random.nextDouble();
            double footY = bearing ? 0.02 : -0.05;
            double footX = side * out + (bearing ? hip * 0.6 : 0);
            double kneeX = (hip + side * 0.085 + footX) / 2 + (bearing ? 0 : side * 0.012);
            double kneeY = bearing ? -0.005 : -0.055;
            legs.add(limb(hip + side * 0.082, 0.008, 0.90, 0.092, kneeX, kneeY, 0.50, 0.064));
            legs.add(limb(kneeX, kneeY, 0.50, 0.064, footX, footY + 0.02, 0.10, 0.052));
            double toe = side * 0.05;
            shoes.add(limb(footX, footY + 0.05, 0.035, 0.040, footX, footY + 0.03, 0.10, 0.038));
            shoes.add(
                    limb(
                            footX,
                            footY + 0.045,
                            0.030,
                            0.040,
                            footX + toe,
                            footY - 0.135,
                            0.022,
                            0.042));
        }
        legs.add(new Shape.Ellipsoid(hip, 0.01, 0.94, 0.158 * w, 0.112, 0.12));
    }

    private void hand(double[] elbow, double[] wrist, int side) {
        double dx = wrist[0] - elbow[0];
        double dy = wrist[1] - elbow[1];
        double dz = wrist[2] - elbow[2];
        double l = Math.sqrt(dx * dx + dy * dy + dz * dz);
        dx /= l;
        dy /= l;
        dz /= l;
        double px = wrist[0] + dx * 0.075;
        double py = wrist[1] + dy * 0.075;
        double pz = wrist[2] + dz * 0.075;
        bare.add(limb(wrist[0], wrist[1], wrist[2], 0.026, px, py, pz, 0.034));
        bare.add(
                limb(
                        px,
                        py,
                        pz,
                        0.030,
                        px + dx * 0.07 - side * 0.012,
                        py + dy * 0.07 - 0.015,
                        pz + dz * 0.07,
                        0.018));
        bare.add(
                limb(
                        px - dx * 0.03,
                        py - 0.02,
                        pz - dz * 0.03,
                        0.014,
                        px + dx * 0.03,
                        py - 0.042,
                        pz + dz * 0.03,
                        0.010));
    }

    /** The elbow between shoulder and hand, bent towards the pole. */
    private static double[] elbow(
            double[] shoulder, double[] hand, double[] pole, double upper, double fore) {
        Vec3 s = new Vec3(shoulder[0], shoulder[1], shoulder[2]);
        Vec3 h = new Vec3(hand[0], hand[1], hand[2]);
        Vec3 way = h.minus(s);
        double d = Math.min(way.length(), (upper + fore) * 0.999);
        Vec3 axis = way.unit();
        double along = (upper * upper - fore * fore + d * d) / (2 * d);
        double off = Math.sqrt(Math.max(0, upper * upper - along * along));
        Vec3 p = new Vec3(pole[0], pole[1], pole[2]);
        Vec3 across = p.minus(axis.times(p.dot(axis))).unit();
        Vec3 e = s.plus(axis.times(along)).plus(across.times(off));
        return new double[] {e.x(), e.y(), e.z()};
    }

    private static Shape limb(
            double ax,
            double ay,
            double az,
            double ra,
            double bx,
            double by,
            double bz,
            double rb) {
        return new Shape.Limb(ax, ay, az, ra, bx, by, bz, rb);
    }

    double heightMetres() {
        return figure.heightMetres();
    }

    /** World to body, direction or point already taken from the feet. */
    double localX(double x, double y) {
        return cos * x + sin * y;
    }

    double localY(double x, double y) {
        return -sin * x + cos * y;
    }

    double worldX(double x, double y) {
        return cos * x - sin * y;
    }

    double worldY(double x, double y) {
        return sin * x + cos * y;
    }

    Vec3 feet() {
        return figure.feet();
    }

    /** Signed distance in metres at a point in body coordinates, metres. */
    double distance(double x, double y, double z) {
        double px = x / scale;
        double py = y / scale;
        double pz = z / scale;
        double d = head(px, py, pz, Double.MAX_VALUE);
        d = Math.min(d, hair(px, py, pz, d));
        d = Math.min(d, top(px, py, pz, d));
        d = Math.min(d, hands(px, py, pz, d));
        d = Math.min(d, legs(px, py, pz, d));
        d = Math.min(d, shoes(px, py, pz, d));
        return d * scale;
    }

    /** Which part the surface at a point is. */
    Part part(double x, double y, double z) {
        double px = x / scale;
        double py = y / scale;
        double pz = z / scale;
        double skin = Math.min(head(px, py, pz, 1e9), hands(px, py, pz, 1e9));
        double hair = hair(px, py, pz, 1e9);
        double top = top(px, py, pz, 1e9);
        double bottom = legs(px, py, pz, 1e9);
        double shoes = shoes(px, py, pz, 1e9);
        double least = Math.min(Math.min(skin, hair), Math.min(top, Math.min(bottom, shoes)));
        if (least == hair) {
            return Part.HAIR;
        }
        if (least == skin) {
            return feature(px, py, pz) == null ? Part.SKIN : Part.FEATURE;
        }
        if (least == top) {
            return Part.TOP;
        }
        return least == bottom ? Part.BOTTOM : Part.SHOES;
    }

    /** How the surface at a point of that part reflects. */
    Reflectance reflectance(Part part, double x, double y, double z) {
        return switch (part) {
            case SKIN -> figure.skin();
            case HAIR -> figure.hair();
            case TOP -> figure.top();
            case BOTTOM -> figure.bottom();
            case FEATURE -> {
                Reflectance r = feature(x / scale, y / scale, z / scale);
                yield r == null ? figure.skin() : r;
            }
            default -> new Reflectance(0.035, 0.03, 0.028);
        };
    }

    // The head turns and leans about the top of the neck.
    private double headX(double x, double y, double z) {
        double tx = x - leanX - (z - 1.5) * lean;
        return headCos * tx + headSin * (y - 0.01);
    }

    private double headY(double x, double y, double z) {
        double tx = x - leanX - (z - 1.5) * lean;
        return -headSin * tx + headCos * (y - 0.01) + 0.01;
    }

    private static double ellipsoid(
            double x,
            double y,
            double z,
            double cx,
            double cy,
            double cz,
            double rx,
            double ry,
            double rz) {
        double px = (x - cx) / rx;
        double py = (y - cy) / ry;
        double pz = (z - cz) / rz;
        double k0 = Math.sqrt(px * px + py * py + pz * pz);
        px /= rx;
        py /= ry;
        pz /= rz;
        double k1 = Math.sqrt(px * px + py * py + pz * pz);
        return k1 < 1e-9 ? -Math.min(rx, Math.min(ry, rz)) : k0 * (k0 - 1) / k1;
    }

    private static double ball(
            double x, double y, double z, double cx, double cy, double cz, double r) {
        return Math.sqrt((x - cx) * (x - cx) + (y - cy) * (y - cy) + (z - cz) * (z - cz)) - r;
    }

    private double head(double x, double y, double z, double enough) {
        double bound = ball(x, y, z, 0, 0, 1.60, 0.24);
        if (bound > Math.min(enough, 0.12)) {
            return bound;
        }
        double hx = Math.abs(headX(x, y, z));
        double hy = headY(x, y, z);
        double d = ellipsoid(hx, hy, z, 0, 0.012, 1.662, 0.073, 0.094, 0.084);
        d = Shape.join(d, ellipsoid(hx, hy, z, 0, -0.022, 1.597, 0.055, 0.066, 0.078), 0.03);
        // Cheekbone, chin, brow.
        d = Shape.join(d, ellipsoid(hx, hy, z, 0.036, -0.052, 1.628, 0.026, 0.028, 0.022), 0.02);
        d = Shape.join(d, ball(hx, hy, z, 0, -0.070, 1.541, 0.020), 0.025);
        d = Shape.join(d, ellipsoid(hx, hy, z, 0.026, -0.074, 1.671, 0.026, 0.012, 0.009), 0.015);
        // Eye sockets, then the eyes in them.
        d = Shape.meet(d, -ellipsoid(hx, hy, z, 0.031, -0.098, 1.653, 0.021, 0.024, 0.0125), 0.012);
        d = Shape.join(d, ball(hx, hy, z, 0.031, -0.068, 1.653, 0.0125), 0.003);
        // Nose: bridge and tip; nostril wings.
        double nose = NOSE.distance(hx, hy, z);
        nose = Shape.join(nose, ball(hx, hy, z, 0.011, -0.092, 1.6145, 0.0085), 0.008);
        d = Shape.join(d, nose, 0.012);
        // Lips and the dent between them.
        double lips = ellipsoid(hx, hy, z, 0, -0.0815, 1.583, 0.024, 0.012, 0.0065);
        lips = Shape.join(lips, ellipsoid(hx, hy, z, 0, -0.080, 1.574, 0.019, 0.012, 0.006), 0.004);
        d = Shape.join(d, lips, 0.006);
        // Ear.
        d = Shape.join(d, ellipsoid(hx, hy, z, 0.0745, 0.016, 1.635, 0.011, 0.020, 0.031), 0.006);
        // The neck does not turn.
        d = Shape.join(d, NECK.distance(x - leanX * 0.5, y, z), 0.025);
        return d;
    }

    private static final Shape NOSE =
            new Shape.Limb(0, -0.083, 1.658, 0.0075, 0, -0.1035, 1.6195, 0.0115);
    private static final Shape NECK = new Shape.Limb(0, 0.028, 1.44, 0.060, 0, 0.012, 1.585, 0.053);

    private double hair(double x, double y, double z, double enough) {
        double bound = ball(x, y, z, 0, 0.01, 1.63, 0.27);
        if (bound > Math.min(enough, 0.12)) {
            return bound;
        }
        double sx = headX(x, y, z);
        double hx = Math.abs(sx);
        double hy = headY(x, y, z);
        double strands =
                0.0016
                        * Math.sin(sx * 190 + 2 * Math.sin(z * 40 + folds))
                        * Math.cos(hy * 60 + z * 25);
        // Everything above and behind the hairline: forehead to nape.
        double line = 0.62 * (hy + 0.082) + 0.785 * (z - 1.708);
        // Temples fall back, sideburns come down in front of the ear.
        double cut = -(line + 0.10 * Math.max(0, hx - 0.035));
        double crop = ellipsoid(hx, hy, z, 0, 0.016, 1.664, 0.080, 0.099, 0.091);
        double d;
        switch (hairStyle) {
            case 1 -> {
                // Long, over the shoulders at the back and beside the face.
                double fall = ellipsoid(hx, hy, z, 0, 0.040, 1.56, 0.105, 0.078, 0.20);
                double face = -(hy + 0.012 + 0.9 * Math.max(0, 0.085 - hx) - 0.03);
                fall = Shape.meet(fall, face, 0.02);
                d = Shape.join(Shape.meet(crop - 0.006, cut, 0.01), fall, 0.03);
            }
            case 2 -> {
                // Tied up in a knot.
                d = Shape.meet(crop - 0.001, cut, 0.008);
                d = Shape.join(d, ball(hx, hy, z, 0, 0.075, 1.755, 0.042), 0.012);
            }
            case 3 -> {
                // Full and curly.
                double curls =
                        0.008
                                * Math.sin(sx * 85 + folds)
                                * Math.sin(hy * 85 + 1)
                                * Math.sin(z * 85 + 2);
                double cloud = ellipsoid(hx, hy, z, 0, 0.030, 1.690, 0.125, 0.120, 0.112) + curls;
                d = Shape.meet(cloud, cut - 0.004, 0.02);
            }
            case 4 -> {
                // Short at the sides, swept up in front.
                double quiff = ellipsoid(sx, hy, z, 0.012, -0.035, 1.748, 0.062, 0.062, 0.034);
                d = Shape.join(Shape.meet(crop + 0.001, cut, 0.008), quiff, 0.02);
            }
            case 5 -> {
                // To the chin, with a fringe.
                double bob = ellipsoid(hx, hy, z, 0, 0.022, 1.635, 0.103, 0.112, 0.125);
                double window = Math.max(-(1.690 - z) * 0.9, Math.max(hx - 0.062, hy + 0.015));
                bob = Shape.meet(bob, -window, 0.012);
                d = Shape.meet(bob, 1.545 - z, 0.02);
            }
            default -> d = Shape.meet(crop - 0.002, cut, 0.008);
        }
        if (beard) {
            double jaw = ellipsoid(hx, hy, z, 0, -0.025, 1.590, 0.061, 0.070, 0.084);
            double mouth = -ellipsoid(hx, hy, z, 0, -0.095, 1.580, 0.021, 0.04, 0.0085);
            double cheek = z - 1.600 + 0.25 * (0.05 - hx);
            jaw = Shape.meet(Shape.meet(jaw, cheek, 0.015), mouth, 0.006);
            d = Math.min(d, jaw);
        }
        return d + strands;
    }

    /** What is painted on the face; null for plain skin. */
    private Reflectance feature(double x, double y, double z) {
        if (z < 1.5) {
            return null;
        }
        double hx = Math.abs(headX(x, y, z));
        double hy = headY(x, y, z);
        if (hy > -0.05) {
            return null;
        }
        double ex = (hx - 0.031) / 0.0125;
        double lid = (z - 1.6525) / (0.0062 * Math.sqrt(Math.max(0.01, 1 - ex * ex)));
        if (Math.abs(ex) < 1 && Math.abs(lid) < 1) {
            double iris = Math.hypot(hx - 0.031, z - 1.6535);
            return iris < 0.0058 || lid > 0.72 ? IRIS : EYE_WHITE;
        }
        double arch = 1.6715 + 0.16 * (hx - 0.014) - 4.2 * (hx - 0.014) * (hx - 0.014);
        if (hx > 0.013 && hx < 0.050 && Math.abs(z - arch) < 0.0042 - 0.05 * (hx - 0.013)) {
            return figure.hair();
        }
        double lx = hx / 0.0235;
        if (lx < 1 && Math.abs(z - 1.5790) < 0.0098 * Math.sqrt(1 - lx * lx)) {
            Reflectance s = figure.skin();
            double line = Math.abs(z - 1.5785) < 0.0011 ? 0.35 : 1;
            return new Reflectance(s.r() * 0.72 * line, s.g() * 0.5 * line, s.b() * 0.52 * line);
        }
        return null;
    }

    private double cloth(double d, double x, double y, double z, double depth) {
        if (d > 0.04) {
            return d - depth;
        }
        double drape =
                Math.sin(x * 31 + z * 17 + folds + 1.7 * Math.sin(z * 13 + y * 9))
                        + 0.6 * Math.sin(z * 47 - x * 23 + 2 * Math.sin(y * 21 + folds));
        return d + depth * drape;
    }

    private double top(double x, double y, double z, double enough) {
        double bound = Math.max(Math.abs(z - 1.14) - 0.38, Math.hypot(x, y) - 0.48);
        if (bound > Math.min(enough, 0.15)) {
            return bound;
        }
        double d = joinAll(torso, x, y, z, 0.05);
        // Neckline and hem.
        double neckline = -ellipsoid(x, y, z, 0, -0.03, 1.50, 0.075, 0.11, 0.075);
        d = Shape.meet(d, neckline, 0.008);
        d = Shape.meet(d, (longCoat ? 0.80 : 0.90) - z, 0.01);
        double arms = joinAll(sleeves, x, y, z, 0.02);
        if (shortSleeves) {
            arms = Shape.meet(arms, 1.19 - z, 0.008);
        }
        return cloth(Shape.join(d, arms, 0.03), x, y, z, 0.0022);
    }

    private double hands(double x, double y, double z, double enough) {
        double bound = Math.max(Math.abs(z - 1.05) - 0.38, Math.hypot(x, y) - 0.48);
        if (bare.isEmpty() || bound > Math.min(enough, 0.15)) {
            return Math.max(bound, 0.05);
        }
        return joinAll(bare, x, y, z, 0.012);
    }

    private double legs(double x, double y, double z, double enough) {
        double bound = Math.max(Math.abs(z - 0.54) - 0.54, Math.hypot(x, y) - 0.34);
        if (bound > Math.min(enough, 0.15)) {
            return bound;
        }
        return cloth(joinAll(legs, x, y, z, 0.03), x, y, z, 0.0018);
    }

    private double shoes(double x, double y, double z, double enough) {
        double bound = Math.max(z - 0.15, Math.hypot(x, y) - 0.36);
        if (bound > Math.min(enough, 0.15)) {
            return bound;
        }
        return Shape.meet(joinAll(shoes, x, y, z, 0.02), -z, 0.006);
    }

    private static double joinAll(List<Shape> shapes, double x, double y, double z, double k) {
        double d = Double.MAX_VALUE;
        for (int i = 0; i < shapes.size(); i++) {
            d = Shape.join(d, shapes.get(i).distance(x, y, z), k);
        }
        return d;
    }
}

package lookstep.simulator.model.picture;

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

    private static final Reflectance EYE_WHITE = new Reflectance(0.26, 0.245, 0.23);
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
    private final boolean jacket;
    private final double hem;
    private final double jaw;
    private final Reflectance shirt;
    private final double folds;

    private final Solid torso = new Solid(0.05);
    private final Solid leftSleeve = new Solid(0.02);
    private final Solid rightSleeve = new Solid(0.02);
    private final Solid leftHand = new Solid(0.012);
    private final Solid rightHand = new Solid(0.012);
    private final Solid hips = new Solid(0.03);
    private final Solid leftLeg = new Solid(0.03);
    private final Solid rightLeg = new Solid(0.03);
    private final Solid shoes = new Solid(0.02);

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
        this.jacket = !shortSleeves && random.nextInt(5) < 3;
        this.hem = jacket ? 0.80 + 0.06 * random.nextDouble() : 0.865 + 0.05 * random.nextDouble();
        this.jaw = 0.051 + 0.008 * random.nextDouble();
        // Under a dark jacket a lighter shirt, under a light one a darker.
        this.shirt = Reflectance.grey(figure.top().luminous() < 0.12 ? 0.22 : 0.04);
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
        torso.ellipsoid(up, 0.0, 1.265, 0.165 * w, 0.112, 0.20);
        torso.ellipsoid(hip * 0.5, 0.0, 1.08, 0.142 * w, 0.100, 0.18);
        torso.ellipsoid(hip, 0.01, 0.955, 0.160 * w, 0.112, 0.13);
        torso.limb(up - 0.145 * w, 0.012, 1.395, 0.056, up + 0.145 * w, 0.012, 1.395, 0.056);
        torso.limb(up * 0.5, 0.025, 1.455, 0.052, up - 0.12 * w, 0.015, 1.41, 0.042);
        torso.limb(up * 0.5, 0.025, 1.455, 0.052, up + 0.12 * w, 0.015, 1.41, 0.042);

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
            Solid sleeve = side < 0 ? leftSleeve : rightSleeve;
            Solid bare = side < 0 ? leftHand : rightHand;
            Solid fore = shortSleeves ? bare : sleeve;
            double thick = shortSleeves ? 0 : 0.006;
            sleeve.limb(
                    shoulder[0],
                    shoulder[1],
                    shoulder[2],
                    0.056,
                    elbow[0],
                    elbow[1],
                    elbow[2],
                    0.040 + thick);
            if (shortSleeves) {
                bare.limb(
                        shoulder[0],
                        shoulder[1],
                        shoulder[2],
                        0.03,
                        elbow[0],
                        elbow[1],
                        elbow[2],
                        0.037);
            }
            fore.limb(
                    elbow[0],
                    elbow[1],
                    elbow[2],
                    0.040 + thick,
                    hand[0],
                    hand[1],
                    hand[2],
                    0.027 + thick);
            boolean pocket = arms == 1 || (arms == 4 && !relaxed);
            if (!pocket) {
                hand(bare, elbow, hand, side);
            }
        }

        for (int side = -1; side <= 1; side += 2) {
            boolean bearing = side * sway > 0;
            double out = bearing ? 0.10 : 0.135 + 0.02 * random.nextDouble();
            double footY = bearing ? 0.02 : -0.05;
            double footX = side * out + (bearing ? hip * 0.6 : 0);
            double kneeX = (hip + side * 0.085 + footX) / 2 + (bearing ? 0 : side * 0.012);
            double kneeY = bearing ? -0.005 : -0.055;
            Solid leg = side < 0 ? leftLeg : rightLeg;
            leg.limb(hip + side * 0.082, 0.008, 0.90, 0.092, kneeX, kneeY, 0.50, 0.064);
            leg.limb(kneeX, kneeY, 0.50, 0.064, footX, footY + 0.02, 0.10, 0.052);
            double toe = side * 0.05;
            shoes.limb(footX, footY + 0.05, 0.035, 0.040, footX, footY + 0.03, 0.10, 0.038);
            shoes.limb(
                    footX, footY + 0.045, 0.030, 0.040, footX + toe, footY - 0.135, 0.022, 0.042);
        }
        hips.ellipsoid(hip, 0.01, 0.94, 0.158 * w, 0.112, 0.12);
    }

    private static void hand(Solid bare, double[] elbow, double[] wrist, int side) {
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
        bare.limb(wrist[0], wrist[1], wrist[2], 0.026, px, py, pz, 0.034);
        bare.limb(
                px,
                py,
                pz,
                0.030,
                px + dx * 0.07 - side * 0.012,
                py + dy * 0.07 - 0.015,
                pz + dz * 0.07,
                0.018);
        bare.limb(
                px - dx * 0.03,
                py - 0.02,
                pz - dz * 0.03,
                0.014,
                px + dx * 0.03,
                py - 0.042,
                pz + dz * 0.03,
                0.010);
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
        double d = Math.min(head(px, py, pz), hair(px, py, pz));
        if (pz < 1.57) {
            double trunk = torso(px, py, pz);
            double limbs = pz < 1.10 ? legs(px, py, pz) : Solid.FAR;
            d = Math.min(d, top(px, py, pz, trunk, limbs));
            d = Math.min(d, shirt(px, py, pz, trunk));
            d = Math.min(d, trousers(px, py, pz, limbs));
            d = Math.min(d, hands(px, py, pz));
            d = Math.min(d, shoes(px, py, pz));
        }
        return d * scale;
    }

    /** Which part the surface at a point is. */
    Part part(double x, double y, double z) {
        double px = x / scale;
        double py = y / scale;
        double pz = z / scale;
        double trunk = torso(px, py, pz);
        double limbs = legs(px, py, pz);
        double skin = Math.min(head(px, py, pz), hands(px, py, pz));
        double hair = hair(px, py, pz);
        double top = top(px, py, pz, trunk, limbs);
        double bottom = trousers(px, py, pz, limbs);
        double shoes = shoes(px, py, pz);
        double least = Math.min(Math.min(skin, hair), Math.min(top, Math.min(bottom, shoes)));
        if (shirt(px, py, pz, trunk) < least) {
            return Part.FEATURE;
        }
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
                yield r == null ? shirt : r;
            }
            default -> new Reflectance(0.035, 0.03, 0.028);
        };
    }

    // The head is drawn apart and set on the neck: a little larger, turned, leaning.
    private static final double HEAD_SIZE = 1.06;
    private static final double HEAD_DRAWN_Z = 1.555;
    private static final double HEAD_Z = 1.530;

    private double headX(double x, double y, double z) {
        double tx = x - leanX - (z - HEAD_Z) * lean;
        return (headCos * tx + headSin * (y - 0.005)) / HEAD_SIZE;
    }

    private double headY(double x, double y, double z) {
        double tx = x - leanX - (z - HEAD_Z) * lean;
        return (-headSin * tx + headCos * (y - 0.005)) / HEAD_SIZE + 0.01;
    }

    private static double headZ(double z) {
        return HEAD_DRAWN_Z + (z - HEAD_Z) / HEAD_SIZE;
    }

    private double head(double x, double y, double z) {
        double bound = Solid.ball(x, y, z, 0, 0, 1.58, 0.23);
        if (bound > Solid.NEAR) {
            return bound;
        }
        double hx = Math.abs(headX(x, y, z));
        double hy = headY(x, y, z);
        double hz = headZ(z);
        double d = Solid.ellipsoid(hx, hy, hz, 0, 0.012, 1.662, 0.073, 0.094, 0.084);
        d = Solid.join(d, Solid.ellipsoid(hx, hy, hz, 0, -0.020, 1.598, jaw, 0.064, 0.077), 0.03);
        // Cheekbone, chin, brow.
        d =
                Solid.join(
                        d,
                        Solid.ellipsoid(hx, hy, hz, 0.037, -0.050, 1.627, 0.026, 0.028, 0.022),
                        0.025);
        d = Solid.join(d, Solid.ball(hx, hy, hz, 0, -0.066, 1.543, 0.020), 0.03);
        d =
                Solid.join(
                        d,
                        Solid.ellipsoid(hx, hy, hz, 0.026, -0.072, 1.670, 0.026, 0.011, 0.008),
                        0.02);
        // Eye sockets, then the lids over the eyes.
        d =
                Solid.meet(
                        d,
                        -Solid.ellipsoid(hx, hy, hz, 0.031, -0.096, 1.652, 0.019, 0.020, 0.011),
                        0.016);
        d = Solid.join(d, Solid.ball(hx, hy, hz, 0.031, -0.0665, 1.651, 0.0135), 0.005);
        // Nose: bridge and tip; nostril wings.
        double nose = NOSE.distance(hx, hy, hz);
        nose = Solid.join(nose, Solid.ball(hx, hy, hz, 0.011, -0.088, 1.6135, 0.0075), 0.010);
        d = Solid.join(d, nose, 0.016);
        // Lips.
        double lips = Solid.ellipsoid(hx, hy, hz, 0, -0.0775, 1.5845, 0.024, 0.011, 0.0055);
        lips =
                Solid.join(
                        lips,
                        Solid.ellipsoid(hx, hy, hz, 0, -0.077, 1.576, 0.019, 0.0115, 0.006),
                        0.003);
        d = Solid.join(d, lips, 0.009);
        // Ear.
        d =
                Solid.join(
                        d,
                        Solid.ellipsoid(hx, hy, hz, 0.0735, 0.016, 1.635, 0.010, 0.019, 0.030),
                        0.006);
        // The neck does not turn.
        return Solid.join(d * HEAD_SIZE, NECK.distance(x - leanX * 0.5, y, z), 0.03);
    }

    private static final Solid NOSE = new Solid(0.01);
    private static final Solid NECK = new Solid(0.01);

    static {
        NOSE.limb(0, -0.081, 1.657, 0.0075, 0, -0.0975, 1.6185, 0.0115);
        NECK.limb(0, 0.030, 1.42, 0.062, 0, 0.012, 1.565, 0.054);
    }

    private double hair(double x, double y, double worldZ) {
        double bound = Solid.ball(x, y, worldZ, 0, 0.02, 1.60, hairStyle == 1 ? 0.27 : 0.22);
        if (bound > Solid.NEAR) {
            return bound;
        }
        double z = headZ(worldZ);
        double sx = headX(x, y, worldZ);
        double hx = Math.abs(sx);
        double hy = headY(x, y, worldZ);
        double strands =
                0.0016
                        * Math.sin(sx * 190 + 2 * Math.sin(z * 40 + folds))
                        * Math.cos(hy * 60 + z * 25);
        // Everything above and behind the hairline: forehead to nape.
        double line = 0.62 * (hy + 0.082) + 0.785 * (z - 1.708);
        // Temples fall back, sideburns come down in front of the ear.
        double cut = -(line + 0.10 * Math.max(0, hx - 0.035));
        double crop = Solid.ellipsoid(hx, hy, z, 0, 0.016, 1.664, 0.080, 0.099, 0.091);
        double d;
        switch (hairStyle) {
            case 1 -> {
                // Long, over the shoulders at the back and beside the face.
                double fall = Solid.ellipsoid(hx, hy, z, 0, 0.040, 1.56, 0.105, 0.078, 0.20);
                double face = 0.022 + 0.55 * Math.max(0, 0.085 - hx) - hy;
                fall = Solid.meet(fall, face, 0.02);
                d = Solid.join(Solid.meet(crop - 0.006, cut, 0.01), fall, 0.03);
            }
            case 2 -> {
                // Tied up in a knot.
                d = Solid.meet(crop - 0.001, cut, 0.008);
                d = Solid.join(d, Solid.ball(hx, hy, z, 0, 0.075, 1.755, 0.042), 0.012);
            }
            case 3 -> {
                // Full and curly.
                double curls =
                        0.0055
                                * (Math.sin(sx * 110 + folds + 2 * Math.sin(z * 60))
                                        + Math.sin(hy * 105 + 1 + 2 * Math.sin(sx * 70))
                                                * Math.sin(z * 115 + 2));
                double cloud =
                        Solid.ellipsoid(hx, hy, z, 0, 0.030, 1.690, 0.125, 0.120, 0.112) + curls;
                d = Solid.meet(cloud, cut - 0.004, 0.02);
            }
            case 4 -> {
                // Short at the sides, swept up in front.
                double quiff =
                        Solid.ellipsoid(sx, hy, z, 0.012, -0.035, 1.748, 0.062, 0.062, 0.034);
                d = Solid.join(Solid.meet(crop + 0.001, cut, 0.008), quiff, 0.02);
            }
            case 5 -> {
                // To the chin, with a fringe.
                double bob = Solid.ellipsoid(hx, hy, z, 0, 0.022, 1.635, 0.103, 0.112, 0.125);
                double window = Math.max(-(1.690 - z) * 0.9, Math.max(hx - 0.062, hy + 0.015));
                bob = Solid.meet(bob, -window, 0.012);
                d = Solid.meet(bob, 1.545 - z, 0.02);
            }
            default -> d = Solid.meet(crop - 0.002, cut, 0.008);
        }
        if (beard) {
            double chin = Solid.ellipsoid(hx, hy, z, 0, -0.022, 1.592, jaw + 0.005, 0.069, 0.080);
            chin = Solid.join(chin, Solid.ball(hx, hy, z, 0, -0.066, 1.540, 0.027), 0.03);
            double mouth = -Solid.ellipsoid(hx, hy, z, 0, -0.095, 1.580, 0.021, 0.04, 0.0085);
            double cheek = z - 1.600 + 0.25 * (0.05 - hx);
            chin = Solid.meet(Solid.meet(chin, cheek, 0.015), mouth, 0.006);
            d = Math.min(d, chin);
        }
        return (d + strands) * HEAD_SIZE;
    }

    /** What is painted on the face; null for plain skin. */
    private Reflectance feature(double x, double y, double worldZ) {
        if (worldZ < 1.45) {
            return null;
        }
        double hx = Math.abs(headX(x, y, worldZ));
        double hy = headY(x, y, worldZ);
        double z = headZ(worldZ);
        if (hy > -0.045) {
            return null;
        }
        // Almond eyes: a lid line above, the iris half under it.
        double ex = (hx - 0.031) / 0.0128;
        if (Math.abs(ex) < 1) {
            double open = 0.0046 * Math.sqrt(1 - ex * ex);
            double lid = z - 1.6512;
            if (lid > open && lid < open + 0.0018) {
                return IRIS;
            }
            if (Math.abs(lid) <= open) {
                return Math.hypot(hx - 0.031, z - 1.6520) < 0.0058 ? IRIS : EYE_WHITE;
            }
        }
        double arch = 1.6665 + 0.16 * (hx - 0.014) - 4.2 * (hx - 0.014) * (hx - 0.014);
        if (hx > 0.013 && hx < 0.050 && Math.abs(z - arch) < 0.0038 - 0.05 * (hx - 0.013)) {
            return figure.hair();
        }
        double lx = hx / 0.0235;
        if (lx < 1 && hy < -0.06 && Math.abs(z - 1.5800) < 0.0088 * Math.sqrt(1 - lx * lx)) {
            Reflectance s = figure.skin();
            double line = Math.abs(z - 1.5802) < 0.0009 ? 0.45 : 1;
            return new Reflectance(s.r() * 0.80 * line, s.g() * 0.62 * line, s.b() * 0.64 * line);
        }
        return null;
    }

    /** Folds: long ones along the cloth, short ones where it is pushed together. */
    private double cloth(double d, double x, double y, double z, double depth, double bunch) {
        if (d > 0.04) {
            return d - 2 * depth;
        }
        double warp = 1.9 * Math.sin(z * 11 + y * 8 + folds) + 1.1 * Math.sin(x * 19 - z * 7);
        double drape = Math.sin(x * 27 + z * 13 + y * 15 + folds + warp);
        double creases = Math.sin(z * 62 + 2.2 * warp + x * 18) * bunch;
        return d + depth * (drape + creases);
    }

    private static double bump(double z, double at, double width) {
        double t = (z - at) / width;
        return t > 1 || t < -1 ? 0 : (1 - t * t) * (1 - t * t);
    }

    private double torso(double x, double y, double z) {
        return z < 0.70 ? Solid.FAR : torso.distance(x, y, z);
    }

    private double top(double x, double y, double z, double trunk, double limbs) {
        double bound = Math.max(Math.abs(z - 1.14) - 0.39, Math.sqrt(x * x + y * y) - 0.49);
        if (bound > Solid.NEAR) {
            return bound;
        }
        double d = trunk;
        // It hangs over the trousers.
        d = Solid.join(d, limbs - 0.010, 0.03);
        double arms = Solid.join(leftSleeve.distance(x, y, z), rightSleeve.distance(x, y, z), 0.02);
        if (jacket) {
            d -= 0.012;
            double edge = 0.026 + 0.16 * Math.max(0, z - 1.02) - 0.10 * Math.max(0, z - 1.30);
            double open = Math.max(Math.abs(x - leanX) - edge, y + 0.02);
            d = Solid.meet(d, -open, 0.010);
            d = Solid.join(d, collar(x, y, z), 0.006);
            d =
                    Solid.meet(
                            d,
                            -Solid.ellipsoid(x, y, z, leanX * 0.5, 0.0, 1.50, 0.062, 0.075, 0.075),
                            0.006);
        } else {
            d =
                    Solid.meet(
                            d,
                            -Solid.ellipsoid(x, y, z, 0, -0.03, 1.50, 0.078, 0.105, 0.070),
                            0.008);
        }
        d = Solid.meet(d, hem - z + 0.012 * Math.sin(x * 14 + folds), 0.008);
        if (shortSleeves) {
            arms = Solid.meet(arms - 0.004, 1.20 - z, 0.006);
        }
        double bunch = 0.9 * bump(z, 1.02, 0.14) + 0.7 * bump(z, 1.13, 0.12) + 0.25;
        return cloth(Solid.join(d, arms, 0.03), x, y, z, 0.0026, bunch);
    }

    private double collar(double x, double y, double z) {
        double outer = Solid.ellipsoid(x, y, z, leanX * 0.5, 0.018, 1.462, 0.082, 0.080, 0.048);
        return Solid.meet(outer, 0.42 * (-y - 0.02) + (z - 1.492) * 0.9, 0.006);
    }

    /** The shirt under an open jacket. */
    private double shirt(double x, double y, double z, double trunk) {
        double bound = Math.max(Math.abs(z - 1.17) - 0.31, Math.sqrt(x * x + y * y) - 0.26);
        if (!jacket || bound > Solid.NEAR) {
            return Math.max(bound, 0.05);
        }
        double d =
                Solid.meet(
                        trunk,
                        -Solid.ellipsoid(x, y, z, 0, -0.03, 1.50, 0.078, 0.105, 0.070),
                        0.008);
        d = Solid.meet(d, 0.925 - z, 0.008);
        return cloth(d, x, y, z, 0.0018, 0.5);
    }

    private double hands(double x, double y, double z) {
        return Math.min(leftHand.distance(x, y, z), rightHand.distance(x, y, z));
    }

    private double legs(double x, double y, double z) {
        double d = Solid.join(leftLeg.distance(x, y, z), rightLeg.distance(x, y, z), 0.03);
        return Solid.join(d, hips.distance(x, y, z), 0.03);
    }

    private double trousers(double x, double y, double z, double limbs) {
        double bound = Math.max(Math.abs(z - 0.54) - 0.54, Math.sqrt(x * x + y * y) - 0.34);
        if (bound > Solid.NEAR) {
            return bound;
        }
        double bunch = 0.3 + bump(z, 0.14, 0.10) + 0.8 * bump(z, 0.50, 0.09) + bump(z, 0.84, 0.09);
        return cloth(limbs, x, y, z, 0.0022, bunch);
    }

    private double shoes(double x, double y, double z) {
        double bound = Math.max(z - 0.15, Math.sqrt(x * x + y * y) - 0.36);
        if (bound > Solid.NEAR) {
            return bound;
        }
        return Solid.meet(shoes.distance(x, y, z), -z, 0.006);
    }
}

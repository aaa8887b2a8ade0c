package lookstep.server.suggest;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import lookstep.server.plan.Light;
import lookstep.server.plan.Placing;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.prediction.Sight;
import lookstep.server.prediction.Staging;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.scene.Scene;
import lookstep.simulator.model.space.Vec3;

/**
 * Somewhere else that a light could be stood: mirrored, to the side, behind as a rim, above in
 * front, low in front; in the room, out of the picture, clear of the people and of other stands.
 *
 * @param words such as {@code behind them to the left}
 * @param caution what to look out for; empty if it is as any stand
 */
record OtherPlace(Placing placing, String words, String caution) {
    /** A housing and its stand need so much to a wall or ceiling. */
    private static final double FREE_METRES = 0.35;

    /** Nobody stands nearer to a lamp that gets hot (figure of our own). */
    private static final double PEOPLE_METRES = 0.9;

    private static final double STANDS_METRES = 0.5;
    private static final double MOVED_METRES = 0.8;
    private static final double STEP_METRES = 0.2;

    /** How much outside the picture a housing has to be, as a share of it. */
    private static final double OUTSIDE = 0.04;

    /** Higher than this a stand goes over heads. */
    private static final double OVERHEAD_METRES = 2.6;

    /** No usual stand is so high (common practice). */
    private static final double HANGS_METRES = 3.5;

    private static final double FACES_METRES = 1.5;

    /**
     * Those there are for a light in a shot; none for one that hangs over heads, which stays where
     * somebody licensed put it.
     */
    static List<OtherPlace> of(ShootPlan plan, Shot shot, Light light) {
        if (light.position().z() > HANGS_METRES) {
            return List.of();
        }
        Scene scene = Staging.scene(plan, shot);
        Camera camera = Staging.camera(plan, shot);
        double deep = scene.figures().stream().mapToDouble(f -> f.feet().y()).max().orElse(0);
        double wide =
                scene.figures().stream().mapToDouble(f -> Math.abs(f.feet().x())).max().orElse(0);
        Vec3 faces = rounded(new Vec3(0, deep / 2, FACES_METRES));
        Vec3 now = light.position();
        double high = plan.place().heightMetres() - FREE_METRES;
        List<OtherPlace> all = new ArrayList<>();
        List<Vec3> wanted = new ArrayList<>();
        if (Math.abs(now.x()) > MOVED_METRES / 2) {
            wanted.add(new Vec3(-now.x(), now.y(), now.z()));
        }
        for (int side : new int[] {-1, 1}) {
            wanted.add(new Vec3(side * (wide + 1.5), deep / 2 - 0.1, 1.9));
            wanted.add(new Vec3(side * (wide + 0.9), deep + 1.1, 2.3));
            wanted.add(new Vec3(side * 1.1, -1.8, 0.6));
        }
        wanted.add(new Vec3(0, -1.4, Math.min(high, 3.2)));
        for (Vec3 place : wanted) {
            outOfThePicture(plan, camera, place)
                    .filter(p -> free(plan, scene, light, p))
                    .filter(p -> all.stream().noneMatch(o -> near(o.placing().position(), p)))
                    .ifPresent(p -> all.add(at(p, faces, deep)));
        }
        return all;
    }

    private static boolean near(Vec3 one, Vec3 other) {
        return one.minus(other).length() < MOVED_METRES;
    }

    private static OtherPlace at(Vec3 p, Vec3 faces, double deep) {
        boolean behind = p.y() > deep + 0.2;
        boolean overhead = p.z() > OVERHEAD_METRES;
        String side =
                Math.abs(p.x()) < 0.5
                        ? "in the middle"
                        : p.x() < 0 ? "to the left" : "to the right";
        String depth =
                behind
                        ? "behind them "
                        : p.y() > -0.6 ? "beside them " : p.z() < 1 ? "low in front " : "in front ";
        String caution =
                overhead
                        ? "over heads: a second, independent securing, weighted stand, only by those"
                                + " who may rig; local rules come first"
                        : behind
                                ? "a stand behind people: weight it, tape its cable, mind the heat;"
                                        + " local rules come first"
                                : "";
        return new OtherPlace(
                new Placing(p, faces),
                (overhead ? "above, " : "")
                        + depth
                        + side
                        + String.format(Locale.ROOT, ", %.1f m high", p.z()),
                caution);
    }

    /** There, or farther out until it is not seen. */
    private static Optional<Vec3> outOfThePicture(ShootPlan plan, Camera camera, Vec3 wanted) {
        double sensor = plan.around().sensor().longMillimetres();
        Sight sight = new Sight(camera, sensor, plan.around().sensor().shortMillimetres());
        double most = plan.place().widthMetres() / 2 - FREE_METRES;
        for (double x = Math.abs(wanted.x()); x <= most; x += STEP_METRES) {
            Vec3 p = rounded(new Vec3(Math.copySign(x, wanted.x()), wanted.y(), wanted.z()));
            double ahead = camera.depthMetres(p);
            if (ahead < 0.1 || !seen(sight.at(p))) {
                return inTheRoom(plan, p) ? Optional.of(p) : Optional.empty();
            }
            if (wanted.x() == 0) {
                break;
            }
        }
        return Optional.empty();
    }

    private static boolean seen(Sight.At at) {
        return at.x() > -OUTSIDE
                && at.x() < 1 + OUTSIDE
                && at.y() > -OUTSIDE
                && at.y() < 1 + OUTSIDE;
    }

    private static Vec3 rounded(Vec3 p) {
        return new Vec3(tenths(p.x()), tenths(p.y()), tenths(p.z()));
    }

    private static double tenths(double metres) {
        return Math.round(metres * 10) / 10.0;
    }

    private static boolean inTheRoom(ShootPlan plan, Vec3 p) {
        double back = plan.place().backgroundMetres();
        return Math.abs(p.x()) <= plan.place().widthMetres() / 2 - FREE_METRES
                && p.y() <= back - FREE_METRES
                && p.y() >= back - plan.place().depthMetres() + FREE_METRES
                && p.z() <= plan.place().heightMetres() - FREE_METRES;
    }

    private static boolean free(ShootPlan plan, Scene scene, Light light, Vec3 p) {
        for (Figure f : scene.figures()) {
            Vec3 off = p.minus(f.face());
            if (Math.hypot(off.x(), off.y()) < PEOPLE_METRES) {
                return false;
            }
        }
        for (Light other : plan.rig()) {
            double away = p.minus(other.position()).length();
            if (away < (other.equals(light) ? MOVED_METRES : STANDS_METRES)) {
                return false;
            }
        }
        return true;
    }
}

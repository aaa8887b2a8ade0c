package lookstep.server.checks;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Place;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.simulator.model.scene.Positions;
import lookstep.simulator.model.space.Vec3;

/**
 * Lights that stand too near to people or to cloth, and lights that hang over people. Half a metre
 * from cloth unless the label says otherwise (common practice), a metre from a face (figure of our
 * own).
 */
final class HeatCheck {
    static final double CLOTH_METRES = 0.5;
    static final double FACE_METRES = 1;

    /** Seen from above, somebody within this of a high light stands under it. */
    private static final double UNDER_METRES = 1;

    private static final double HIGH_METRES = 2.6;

    /** Between people who stand close there may be no such point. */
    private static final int MOST_STEPS = 20;

    private HeatCheck() {}

    static List<Finding> of(ShootPlan plan) {
        List<Finding> all = new ArrayList<>();
        for (Light light : plan.rig()) {
            List<Standing> standing = new ArrayList<>();
            for (Shot shot : plan.shots()) {
                standing.add(Standing.of(plan, shot, light));
            }
            near(plan, light, standing).ifPresent(all::add);
            hanging(light, standing).ifPresent(all::add);
        }
        return all;
    }

    /**
     * A light in one shot.
     *
     * @param asRig true if it is moved by an edit of the rig
     */
    private record Standing(Vec3 at, boolean asRig, List<Vec3> feet, List<Double> tall) {
        static Standing of(ShootPlan plan, Shot shot, Light light) {
            Look look = plan.look(shot.look());
            return new Standing(
                    plan.placed(look).light(light.name()).position(),
                    WhereItStands.asTheRigHasIt(plan, look, light.name()),
                    Positions.of(shot.arrangement(), shot.people().size()),
                    shot.people().stream().map(p -> plan.person(p).heightMetres()).toList());
        }

        /** From the nearest point of anybody's head and body to where the light would stand. */
        Optional<Vec3> awayFromNearest(Vec3 stands) {
            Optional<Vec3> nearest = Optional.empty();
            for (int i = 0; i < feet.size(); i++) {
                double high = Math.min(stands.z(), 0.95 * tall.get(i));
                Vec3 away = stands.minus(feet.get(i).plus(new Vec3(0, 0, high)));
                if (nearest.isEmpty() || away.length() < nearest.get().length()) {
                    nearest = Optional.of(away);
                }
            }
            return nearest;
        }

        double face(Vec3 stands) {
            return awayFromNearest(stands).map(Vec3::length).orElse(Double.POSITIVE_INFINITY);
        }

        double face() {
            return face(at);
        }

        double under() {
            return feet.stream()
                    .mapToDouble(f -> Math.hypot(at.x() - f.x(), at.y() - f.y()))
                    .min()
                    .orElse(Double.POSITIVE_INFINITY);
        }
    }

    private static Optional<Finding> near(ShootPlan plan, Light light, List<Standing> standing) {
        double face = Double.POSITIVE_INFINITY;
        double cloth = Double.POSITIVE_INFINITY;
        for (Standing s : standing) {
            face = Math.min(face, s.face());
            cloth = Math.min(cloth, cloth(plan, s.at()));
        }
        boolean people = face < FACE_METRES;
        if (!people && cloth >= CLOTH_METRES) {
            return Optional.empty();
        }
        double has = people ? face : cloth;
        double wants = people ? FACE_METRES : CLOTH_METRES;
        return Optional.of(
                new Finding(
                        Kind.HEAT,
                        has < CLOTH_METRES ? Weight.WRONG : Weight.LOOK,
                        Subject.light(light.name()),
                        Words.text(
                                "‘%s’ is %.2f m from %s; %.1f m is wanted, and the label prevails",
                                light.name(), has, people ? "a head" : "the background", wants),
                        new Numbers()
                                .put("nearestHeadMetres", face)
                                .put("backgroundMetres", cloth)
                                .put("watts", light.fixture().watts())
                                .all(),
                        Optional.of(
                                people
                                        ? away(plan, light, standing)
                                        : Mend.words("move it away from the background"))));
    }

    private static double cloth(ShootPlan plan, Vec3 at) {
        return Math.abs(plan.place().backgroundMetres() - at.y());
    }

    /** Straight away from the nearest head, and once more if another is nearest then. */
    private static Mend away(ShootPlan plan, Light light, List<Standing> standing) {
        Mend words = Mend.words("move it away from the nearest head");
        if (!standing.stream().allMatch(s -> s.asRig() || s.face() >= FACE_METRES)) {
            return words;
        }
        List<Standing> moving = standing.stream().filter(Standing::asRig).toList();
        Vec3 to = light.position();
        for (int i = 0; i < MOST_STEPS && face(moving, to) < FACE_METRES; i++) {
            Vec3 from = to;
            Vec3 away =
                    moving.stream()
                            .flatMap(s -> s.awayFromNearest(from).stream())
                            .min(Comparator.comparingDouble(Vec3::length))
                            .orElseThrow();
            if (away.length() < 0.01) {
                return words;
            }
            to = to.plus(away.unit().times(FACE_METRES - away.length() + 0.05));
        }
        Vec3 there = to;
        double face = face(moving, there);
        boolean good = face >= FACE_METRES && inside(plan, there) && !there.equals(light.aim());
        return good
                ? new Mend(
                        Words.text(
                                "move it away from the nearest head: at (%.2f, %.2f, %.2f) it is"
                                        + " %.2f m from one",
                                there.x(), there.y(), there.z(), face),
                        List.of(
                                new Change(
                                        Paths.light(light.name(), "position"), Paths.point(there))))
                : words;
    }

    private static double face(List<Standing> standing, Vec3 stands) {
        return standing.stream()
                .mapToDouble(s -> s.face(stands))
                .min()
                .orElse(Double.POSITIVE_INFINITY);
    }

    /** In the room, and not at the cloth instead. */
    private static boolean inside(ShootPlan plan, Vec3 at) {
        Place room = plan.place();
        double front = room.backgroundMetres() - room.depthMetres();
        return Math.abs(at.x()) < room.widthMetres() / 2
                && at.y() > front
                && at.y() <= room.backgroundMetres() - CLOTH_METRES
                && at.z() > 0
                && at.z() < room.heightMetres();
    }

    private static Optional<Finding> hanging(Light light, List<Standing> standing) {
        double under = Double.POSITIVE_INFINITY;
        double high = 0;
        for (Standing s : standing) {
            under = Math.min(under, s.under());
            high = Math.max(high, s.at().z());
        }
        if (under >= UNDER_METRES || high < HIGH_METRES) {
            return Optional.empty();
        }
        return Optional.of(
                new Finding(
                        Kind.HEAT,
                        Weight.LOOK,
                        Subject.light(light.name()),
                        Words.text(
                                "‘%s’ hangs %.1f m high over people: a second, independent steel,"
                                        + " hung by those who are licensed for it",
                                light.name(), high),
                        new Numbers()
                                .put("highMetres", high)
                                .put("besidePeopleMetres", under)
                                .all(),
                        Optional.empty()));
    }
}

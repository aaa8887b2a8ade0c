package lookstep.server.checks;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
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

    private HeatCheck() {}

    static List<Finding> of(ShootPlan plan) {
        List<Finding> all = new ArrayList<>();
        for (int i = 0; i < plan.rig().size(); i++) {
            Light light = plan.rig().get(i);
            double face = Double.POSITIVE_INFINITY;
            double under = Double.POSITIVE_INFINITY;
            double high = 0;
            double cloth = Double.POSITIVE_INFINITY;
            for (Shot shot : plan.shots()) {
                Look look = plan.look(shot.look());
                Vec3 at = plan.placed(look).rig().get(i).position();
                high = Math.max(high, at.z());
                cloth = Math.min(cloth, Math.abs(plan.place().backgroundMetres() - at.y()));
                for (int p = 0; p < shot.people().size(); p++) {
                    Vec3 feet = Positions.of(shot.arrangement(), shot.people().size()).get(p);
                    double tall = plan.person(shot.people().get(p)).heightMetres();
                    Vec3 head = feet.plus(new Vec3(0, 0, Math.min(at.z(), 0.95 * tall)));
                    face = Math.min(face, at.minus(head).length());
                    under = Math.min(under, Math.hypot(at.x() - feet.x(), at.y() - feet.y()));
                }
            }
            near(light, face, cloth).ifPresent(all::add);
            hanging(light, under, high).ifPresent(all::add);
        }
        return all;
    }

    private static Optional<Finding> near(Light light, double face, double cloth) {
        boolean people = face < FACE_METRES;
        if (!people && cloth >= CLOTH_METRES) {
            return Optional.empty();
        }
        double has = people ? face : cloth;
        double wants = people ? FACE_METRES : CLOTH_METRES;
        Vec3 back = light.position().minus(light.aim()).unit().times(wants - has + 0.05);
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
                                        ? new Mend(
                                                "move it back along its aim",
                                                List.of(
                                                        new Change(
                                                                Paths.light(
                                                                        light.name(), "position"),
                                                                Paths.point(
                                                                        light.position()
                                                                                .plus(back)))))
                                        : Mend.words("move it away from the background"))));
    }

    private static Optional<Finding> hanging(Light light, double under, double high) {
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

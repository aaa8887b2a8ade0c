package lookstep.server.window;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import lookstep.server.live.Frame;
import lookstep.server.live.LiveState;
import lookstep.server.live.NotPossible;
import lookstep.server.plan.Person;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.simulator.model.scene.Arrangement;

/**
 * One solo for each of those who lack one, on the present look, as the next shots.
 *
 * @param ids of the shots that come next
 * @param added those of them that are new
 */
public record SolosRound(List<String> ids, List<Shot> added) {
    /** Head and shoulders with room around them: figures of our own. */
    private static final double LENS_MILLIMETRES = 85;

    private static final double DISTANCE_METRES = 2.4;
    private static final double CAMERA_METRES = 1.5;
    private static final int IMPORTANCE = 6;

    /** Who has no solo yet, in the plan's order. Where no frame comes in, a step counts as one. */
    public static List<String> missing(ShootPlan plan, LiveState state) {
        return plan.people().stream()
                .map(Person::name)
                .filter(name -> !hasOne(plan, state, name))
                .toList();
    }

    private static boolean hasOne(ShootPlan plan, LiveState state, String name) {
        boolean frame =
                state.frames().stream()
                        .anyMatch(
                                f ->
                                        f.mark() != Frame.Mark.OUT
                                                && f.people().equals(List.of(name)));
        return frame
                || plan.shots().stream()
                        .anyMatch(s -> s.people().equals(List.of(name)) && state.made(s.id()));
    }

    /**
     * The round.
     *
     * @param people who is asked for; empty for all who lack one
     * @throws NotPossible if nobody lacks one, there is no such person, or no look is on
     */
    public static SolosRound of(ShootPlan plan, LiveState state, List<String> people)
            throws NotPossible {
        Optional<Shot> on = plan.shot(state.shot());
        if (on.isEmpty()) {
            throw new NotPossible("no look is on yet: step to the first shot");
        }
        List<String> who =
                (people.isEmpty() ? missing(plan, state) : people)
                        .stream()
                                .distinct()
                                .filter(name -> !on.get().people().equals(List.of(name)))
                                .toList();
        if (who.isEmpty()) {
            throw new NotPossible("everybody has a solo");
        }
        List<String> ids = new ArrayList<>();
        List<Shot> added = new ArrayList<>();
        Set<String> taken = new HashSet<>(plan.shots().stream().map(Shot::id).toList());
        for (String name : who) {
            if (plan.people().stream().noneMatch(p -> p.name().equals(name))) {
                throw new NotPossible("there is no '" + name + "' in the plan; reload the page");
            }
            Optional<Shot> planned =
                    plan.shots().stream()
                            .filter(s -> s.people().equals(List.of(name)))
                            .filter(s -> s.look().equals(on.get().look()))
                            .filter(s -> !s.id().equals(state.shot()) && !state.made(s.id()))
                            .findFirst();
            if (planned.isPresent()) {
                ids.add(planned.get().id());
            } else {
                Shot shot = solo(plan, on.get(), name, taken);
                taken.add(shot.id());
                ids.add(shot.id());
                added.add(shot);
            }
        }
        return new SolosRound(ids, added);
    }

    /** Like the plan's own solos, if it has any. */
    private static Shot solo(ShootPlan plan, Shot on, String name, Set<String> taken) {
        Optional<Shot> like =
                plan.shots().stream()
                        .filter(s -> s.people().equals(List.of(name)))
                        .findFirst()
                        .or(() -> plan.shots().stream().filter(Shot::solo).findFirst());
        return new Shot(
                Ids.free("solo-" + Ids.slug(name), taken),
                "Solo, " + name,
                false,
                on.look(),
                List.of(name),
                new Arrangement(Arrangement.Kind.SOLO, false, 0.55, 0.6, List.of()),
                like.map(Shot::lensMillimetres).orElse(LENS_MILLIMETRES),
                like.map(Shot::distanceMetres).orElse(DISTANCE_METRES),
                like.map(Shot::cameraHeightMetres).orElse(CAMERA_METRES),
                like.map(Shot::framing).orElse("portrait 4:5"),
                like.map(Shot::say).orElse(List.of("Only you now")),
                like.map(Shot::importance).orElse(IMPORTANCE),
                new Shot.Use("", "solos on " + on.look(), true, 0, ""));
    }
}

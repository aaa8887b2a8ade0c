package lookstep.server.live;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import lookstep.server.plan.Look;
import lookstep.server.plan.Person;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;

/** The plan as it stands in a state: at the place where the shoot is, with what was added to it. */
public final class PlanInState {
    private PlanInState() {}

    /**
     * The plan there and then. What was added and can no longer be made, because its look or
     * somebody on it has gone, is left out.
     *
     * @param read as its file says
     */
    public static ShootPlan of(ShootPlan read, LiveState state) {
        ShootPlan there = read.at(place(read, state));
        if (state.added().isEmpty()) {
            return there;
        }
        Set<String> looks = there.looks().stream().map(Look::name).collect(Collectors.toSet());
        Set<String> people = there.people().stream().map(Person::name).collect(Collectors.toSet());
        Set<String> known = there.shots().stream().map(Shot::id).collect(Collectors.toSet());
        List<Shot> shots = new ArrayList<>(there.shots());
        for (Shot s : state.added()) {
            if (looks.contains(s.look()) && people.containsAll(s.people()) && known.add(s.id())) {
                shots.add(s);
            }
        }
        return there.withShots(shots);
    }

    /** The name of the place; the first if it was taken out of the plan. */
    public static String place(ShootPlan read, LiveState state) {
        return read.locations().stream().anyMatch(l -> l.name().equals(state.place()))
                ? state.place()
                : read.locations().get(0).name();
    }
}

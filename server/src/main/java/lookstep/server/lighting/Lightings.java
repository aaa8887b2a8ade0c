package lookstep.server.lighting;

import java.util.List;
import java.util.Optional;
import lookstep.server.live.LiveState;
import lookstep.server.live.PlanInState;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;

/**
 * The plan and its light as they stand in a state: the plan file may be edited, and the shoot may
 * go on elsewhere. Safe for any thread.
 */
public final class Lightings {
    private volatile ShootPlan read;
    private volatile Known newest;

    /** What was worked out last; the rest of a state does not matter to it. */
    private record Known(ShootPlan read, String place, List<Shot> added, Lighting lighting) {
        @SuppressWarnings("ReferenceEquality") // the same plan, read once
        boolean holds(ShootPlan nowRead, LiveState state) {
            return read == nowRead && place.equals(state.place()) && added.equals(state.added());
        }
    }

    /**
     * @param read the plan as its file says
     */
    public Lightings(ShootPlan read) {
        this.read = read;
    }

    /** The plan as its file says. */
    public ShootPlan read() {
        return read;
    }

    /** The file says otherwise now. */
    public void read(ShootPlan plan) {
        read = plan;
    }

    /** The plan's light in a state; {@link Lighting#plan()} is the plan then. */
    public Lighting of(LiveState state) {
        Known known = newest;
        ShootPlan now = read;
        if (known == null || !known.holds(now, state)) {
            known =
                    new Known(
                            now,
                            state.place(),
                            state.added(),
                            new Lighting(PlanInState.of(now, state)));
            newest = known;
        }
        return known.lighting();
    }

    /** A shot of the plan or of the set, here or at another place. */
    public Optional<Shot> shot(LiveState state, String id) {
        return of(state)
                .plan()
                .shot(id)
                .or(() -> read.shot(id))
                .or(() -> state.added().stream().filter(s -> s.id().equals(id)).findFirst());
    }

    /** The ids of the shots that can be made in a state, in the plan's order. */
    public List<String> possible(LiveState state) {
        return PlanInState.of(read, state).shots().stream().map(Shot::id).toList();
    }
}

package lookstep.server.checks;

import java.util.HashSet;
import java.util.Set;
import lookstep.server.plan.Light;
import lookstep.server.plan.Location;
import lookstep.server.plan.Look;
import lookstep.server.plan.Placing;
import lookstep.server.plan.ShootPlan;

/** Which words of the plan say where a light stands: its rig's, a place's own, or a look's. */
final class WhereItStands {
    private WhereItStands() {}

    /**
     * True if an edit of the rig would move the light in this look. Where places have it at
     * different points at least one has a line of its own. Of a place that is alone a plan does not
     * tell whether it is the rig's point or the place's.
     *
     * @param plan at one of its places
     */
    static boolean asTheRigHasIt(ShootPlan plan, Look look, String light) {
        Set<Placing> points = new HashSet<>();
        for (Location location : plan.locations()) {
            location.rig().stream()
                    .filter(l -> l.name().equals(light))
                    .forEach(l -> points.add(placing(l)));
        }
        if (!look.moved().containsKey(light)) {
            points.add(placing(plan.light(light)));
        }
        return !look.moved().containsKey(light) && points.size() <= 1;
    }

    private static Placing placing(Light light) {
        return new Placing(light.position(), light.aim());
    }
}

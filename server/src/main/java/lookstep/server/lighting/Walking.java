package lookstep.server.lighting;

import java.util.ArrayList;
import java.util.List;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.sacn.SacnAddress;
import lookstep.server.live.Event;
import lookstep.server.live.LiveState;
import lookstep.server.live.NotPossible;
import lookstep.server.live.RigTest;
import lookstep.server.plan.Light;
import lookstep.server.plan.ShootPlan;

/** Walks through the rig, one light at a time and then each of its slots. */
public final class Walking {
    private final List<RigTest> steps = new ArrayList<>();

    public Walking(ShootPlan plan) {
        for (Light light : plan.rig()) {
            steps.add(whole(light));
            for (int i = 0; i < light.mode().slots(); i++) {
                steps.add(new RigTest(light.name(), light.universe(), light.startSlot() + i));
            }
        }
    }

    private static RigTest whole(Light light) {
        return new RigTest(light.name(), light.universe(), 0);
    }

    /** This light alone. */
    public Event light(Light light) {
        return new Event.Testing(whole(light));
    }

    /**
     * This slot alone.
     *
     * @throws NotPossible if there is no such slot
     */
    public Event slot(int universe, int slot) throws NotPossible {
        if (!SacnAddress.isUniverse(universe) || slot < 1 || slot > DmxPacket.SLOTS) {
            throw new NotPossible(
                    "universe %d, slot %d: universes go from 1 to 63999, slots from 1 to 512"
                            .formatted(universe, slot));
        }
        return new Event.Testing(
                steps.stream()
                        .filter(s -> s.universe() == universe && s.slot() == slot)
                        .findFirst()
                        .orElse(new RigTest("", universe, slot)));
    }

    /** The next step of the walk, or the one before; from its end to its beginning. */
    public Event on(LiveState now, int by) {
        int at = now.test().map(steps::indexOf).orElse(-1);
        int from = at < 0 && by < 0 ? 0 : at;
        return new Event.Testing(steps.get(Math.floorMod(from + by, steps.size())));
    }

    /**
     * Back to the look.
     *
     * @throws NotPossible if nothing is being tested
     */
    public Event end(LiveState now) throws NotPossible {
        if (now.test().isEmpty()) {
            throw new NotPossible("nothing is being tested");
        }
        return new Event.TestEnded();
    }
}

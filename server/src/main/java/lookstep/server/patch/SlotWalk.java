package lookstep.server.patch;

import java.util.ArrayList;
import java.util.List;
import lookstep.server.plan.Light;
import lookstep.server.plan.ShootPlan;

/**
 * The walk from slot to slot: one person steps, another looks at the light.
 *
 * @param steps the lights in the rig's order, the slots of each in theirs
 */
public record SlotWalk(List<Step> steps) {
    public SlotWalk {
        steps = List.copyOf(steps);
    }

    /**
     * One slot.
     *
     * @param light the light's name
     * @param universe the light's
     * @param slot 1..512
     * @param offset the same counted from 0 at the light's first slot
     * @param words what the slot does, such as "cool, coarse"
     * @param test what is sent, all 512 slots of the universe
     * @param expected what is seen if all is as planned, such as "cool, full"
     * @param others what is seen instead if the light is set otherwise
     */
    public record Step(
            String light,
            int universe,
            int slot,
            int offset,
            String words,
            SlotTest test,
            String expected,
            List<WrongMode.Instead> others) {
        public Step {
            others = List.copyOf(others);
        }

        private static Step of(Light light, int offset) {
            WrongMode looked = WrongMode.of(light, offset);
            return new Step(
                    light.name(),
                    light.universe(),
                    looked.test().slot(),
                    offset,
                    light.mode().slotWords(light.fixture().emitters(), offset),
                    looked.test(),
                    looked.expected(),
                    looked.others());
        }
    }

    /**
     * Through the whole rig.
     *
     * @throws IllegalArgumentException if a light does not lie in slots 1 to 512
     */
    public static SlotWalk of(ShootPlan plan) {
        List<Step> steps = new ArrayList<>();
        for (Light light : plan.rig()) {
            for (int offset = 0; offset < light.mode().slots(); offset++) {
                steps.add(Step.of(light, offset));
            }
        }
        return new SlotWalk(steps);
    }
}

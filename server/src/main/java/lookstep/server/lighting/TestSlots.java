package lookstep.server.lighting;

import lookstep.server.live.RigTest;
import lookstep.server.look.RawSlots;
import lookstep.server.plan.ShootPlan;

final class TestSlots {
    private TestSlots() {}

    static RawSlots of(ShootPlan plan, RigTest test) {
        byte[] slots = new byte[512];
        slots[test.slot() - 1] = (byte) 255;
        return new RawSlots(test.universe(), slots);
    }
}

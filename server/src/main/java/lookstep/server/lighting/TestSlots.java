package lookstep.server.lighting;

import java.util.Optional;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.server.live.RigTest;
import lookstep.server.look.RawSlots;
import lookstep.server.patch.SlotWalk;

/** The slots of a test, and what should be seen. */
final class TestSlots {
    private static final byte FULL = (byte) 255;

    private TestSlots() {}

    /** The step of the walk that a test is; empty for a slot that is no light's. */
    static Optional<SlotWalk.Step> step(SlotWalk walk, RigTest test) {
        return walk.steps().stream()
                .filter(s -> s.universe() == test.universe() && s.slot() == test.slot())
                .findFirst();
    }

    static RawSlots of(SlotWalk walk, RigTest test) {
        DmxPacket packet =
                step(walk, test)
                        .map(step -> step.test().packet())
                        .orElseGet(() -> DmxPacket.BLACK.withSlots(test.slot(), new byte[] {FULL}));
        byte[] slots = new byte[DmxPacket.SLOTS];
        for (int i = 0; i < slots.length; i++) {
            slots[i] = (byte) packet.slot(i + 1);
        }
        return new RawSlots(test.universe(), slots);
    }
}

package lookstep.server.look;

import lookstep.protocols.dmx.DmxPacket;
import lookstep.server.plan.Light;
import lookstep.server.plan.ShootPlan;

/** Levels become slots, and slots levels. */
public final class RigPackets {
    private RigPackets() {}

    /** One packet for one universe; slots that belong to no light are 0. */
    public static DmxPacket packet(ShootPlan plan, RigLevels levels, int universe) {
        byte[] slots = new byte[512];
        for (int i = 0; i < plan.rig().size(); i++) {
            Light light = plan.rig().get(i);
            if (light.universe() == universe) {
                light.mode()
                        .encode(
                                light.fixture().curve(),
                                levels.shared(i),
                                slots,
                                light.startSlot());
            }
        }
        return DmxPacket.ofSlots(slots);
    }

    /** What the lights make of one universe's 512 slots; the lights of others are dark. */
    public static RigLevels levels(ShootPlan plan, int universe, byte[] slots) {
        return new RigLevels(
                plan.rig().stream()
                        .map(
                                light -> {
                                    int emitters = light.fixture().emitters().size();
                                    return light.universe() == universe
                                            ? light.mode()
                                                    .decode(
                                                            light.fixture().curve(),
                                                            slots,
                                                            light.startSlot(),
                                                            emitters)
                                            : new double[emitters];
                                })
                        .toList());
    }

    /**
     * What one light's own slots make of emitter levels: what really comes out.
     *
     * @param levels light fraction of each emitter, 0..1
     */
    public static double[] throughSlots(Light light, double[] levels) {
        return ColourMix.throughSlots(light, levels);
    }
}

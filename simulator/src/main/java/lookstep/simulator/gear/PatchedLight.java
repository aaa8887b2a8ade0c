package lookstep.simulator.gear;

import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.Mode;

/**
 * A light as it is set on its own back panel: which mode, and from which slot it reads.
 *
 * @param name what the plan calls it
 * @param fixture what kind of light it is
 * @param mode how it reads its slots
 * @param startSlot its first slot, 1 or more; all its slots lie in 1..512
 */
public record PatchedLight(String name, Fixture fixture, Mode mode, int startSlot) {
    public PatchedLight {
        if (startSlot < 1 || startSlot + mode.slots() - 1 > 512) {
            throw new IllegalArgumentException(
                    "%s: %d slots from slot %d do not lie in 1 to 512"
                            .formatted(name, mode.slots(), startSlot));
        }
    }
}

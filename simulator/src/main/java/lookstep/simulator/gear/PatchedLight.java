package lookstep.simulator.gear;

import java.util.List;
import lookstep.protocols.fixture.Emitter;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.Mode;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.Xyz;

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

    /**
     * What it gives on the axis of its beam: CIE XYZ, Y in candela.
     *
     * @param slots the 512 slots of its universe, slot 1 first
     */
    Xyz intensity(byte[] slots) {
        List<Emitter> emitters = fixture.emitters();
        double[] levels = mode.decode(fixture.curve(), slots, startSlot, emitters.size());
        Xyz sum = Xyz.ZERO;
        for (int i = 0; i < levels.length; i++) {
            Emitter emitter = emitters.get(i);
            sum =
                    sum.plus(
                            new Chromaticity(emitter.x(), emitter.y())
                                    .toXyz(emitter.candela() * levels[i]));
        }
        return sum;
    }
}

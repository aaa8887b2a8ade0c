package lookstep.server.look;

import java.util.List;
import lookstep.protocols.fixture.Reach;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look.Blend;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.Mix;
import lookstep.simulator.model.colour.Mixing;
import lookstep.simulator.model.colour.Xyz;

/**
 * How one light makes a colour in its mode.
 *
 * @param levels light fraction of each emitter, 0..1, at the most of this mix
 * @param full what comes out then, on the beam's axis in front of the modifier; Y in candela
 * @param wanted what it is to be
 * @param reached true if it comes within {@link Mixing#REACHED_UV}
 */
// An array in a record: written once, never handed out to be changed.
@SuppressWarnings("ArrayRecordComponent")
record ColourMix(double[] levels, Xyz full, Chromaticity wanted, boolean reached) {
    /** Two ways of a mode to one colour count as equally near within this. */
    private static final double SAME_UV = 1e-5;

    /** The nearest that one of the mode's reaches comes to the colour; of equals the brightest. */
    static ColourMix of(Light light, Chromaticity wanted, Blend blend) {
        List<Xyz> emitters = Photometry.emitters(light);
        Mix best = null;
        Reach with = null;
        for (Reach reach : light.mode().reaches(emitters.size())) {
            List<Xyz> parts = reach.parts().stream().map(p -> sum(emitters, p)).toList();
            Mix mix =
                    blend == Blend.BROAD
                            ? Mixing.broadest(parts, reach.shared(), wanted)
                            : Mixing.maximum(parts, reach.shared(), wanted);
            if (best == null || better(mix, best)) {
                best = mix;
                with = reach;
            }
        }
        if (best == null) {
            throw new IllegalStateException("mode " + light.mode().id() + " reaches nothing");
        }
        double[] levels = new double[emitters.size()];
        for (int i = 0; i < levels.length; i++) {
            for (int p = 0; p < best.levels().length; p++) {
                levels[i] += best.levels()[p] * with.parts().get(p)[i];
            }
            levels[i] = Math.min(1, levels[i]);
        }
        return new ColourMix(levels, sum(emitters, levels), wanted, best.reached());
    }

    private static boolean better(Mix mix, Mix than) {
        return Math.abs(mix.distanceUv() - than.distanceUv()) <= SAME_UV
                ? mix.total().y() > than.total().y()
                : mix.distanceUv() < than.distanceUv();
    }

    private static Xyz sum(List<Xyz> emitters, double[] levels) {
        Xyz sum = Xyz.ZERO;
        for (int i = 0; i < levels.length; i++) {
            sum = sum.plus(emitters.get(i).times(levels[i]));
        }
        return sum;
    }

    /** The emitters at a share (0..1) of the most. */
    double[] at(double share) {
        double[] at = new double[levels.length];
        for (int i = 0; i < at.length; i++) {
            at[i] = Math.min(1, Math.max(0, levels[i] * share));
        }
        return at;
    }

    /**
     * What the light's own slots make of emitter levels: written to a packet and read again as the
     * light reads it.
     */
    static double[] throughSlots(Light light, double[] levels) {
        byte[] slots = new byte[512];
        light.mode().encode(light.fixture().curve(), levels, slots, light.startSlot());
        return light.mode()
                .decode(light.fixture().curve(), slots, light.startSlot(), levels.length);
    }
}

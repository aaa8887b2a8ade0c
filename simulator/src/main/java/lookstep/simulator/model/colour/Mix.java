package lookstep.simulator.model.colour;

/**
 * What to set the emitters of one light to.
 *
 * @param levels one for each emitter, 0..1, as share of its full light (not of a slider)
 * @param total the light that comes out
 * @param reached true if {@code distanceUv} is at most {@link Mixing#REACHED_UV}
 * @param distanceUv from the wanted chromaticity to the one that comes out, in CIE 1976 u'v'
 */
// An array in a record: levels are written once and handed over; nobody compares mixes.
@SuppressWarnings("ArrayRecordComponent")
public record Mix(double[] levels, Xyz total, boolean reached, double distanceUv) {}

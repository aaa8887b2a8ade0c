package lookstep.server.checks;

import java.util.List;

/**
 * What plates say of each light against what is computed of it: factors on its luminance in the
 * picture, 1 where nothing was measured. They hold for the rig as it stood when the plates were
 * taken; of people they hold as far as the skin of those who stood in is like that of the band.
 *
 * @param says when and of what it was measured, in words; empty if nothing was
 * @param lights in the rig's order; empty if nothing was
 * @param house of the light that is there already
 */
public record MeasuredLight(String says, List<Factors> lights, Factors house) {
    /** Everything as computed. */
    public static final MeasuredLight NONE = new MeasuredLight("", List.of(), Factors.ONE);

    public MeasuredLight {
        lights = List.copyOf(lights);
    }

    /**
     * Measured over computed.
     *
     * @param people on faces and hands
     * @param background on the far wall or cloth
     * @param floor on the floor
     */
    public record Factors(double people, double background, double floor) {
        public static final Factors ONE = new Factors(1, 1, 1);

        /** Ready to be multiplied with. */
        public Factors {
            if (!(people > 0 && background > 0 && floor > 0)) {
                throw new IllegalArgumentException(
                        "factors of %s, %s and %s".formatted(people, background, floor));
            }
        }
    }

    /** Whether anything was measured. */
    public boolean measured() {
        return !lights.isEmpty();
    }

    /** Of a light of the rig. */
    Factors of(int light) {
        return light < lights.size() ? lights.get(light) : Factors.ONE;
    }
}

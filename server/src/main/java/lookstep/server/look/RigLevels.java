package lookstep.server.look;

import java.util.Arrays;
import java.util.List;

/**
 * What every light of the rig gives, one consistent state: for each light in the rig's order, the
 * light fraction (0..1) of each of its emitters. Immutable.
 */
public final class RigLevels {
    private final double[][] lights;

    private RigLevels(double[][] lights) {
        this.lights = lights;
    }

    public RigLevels(List<double[]> lights) {
        this.lights = new double[lights.size()][];
        for (int i = 0; i < this.lights.length; i++) {
            double[] light = lights.get(i).clone();
            for (double level : light) {
                if (!(level >= 0 && level <= 1)) {
                    throw new IllegalArgumentException("a level is 0 to 1, not " + level);
                }
            }
            this.lights[i] = light;
        }
    }

    /** Made for each packet of a fade: takes the arrays themselves, which nobody else may keep. */
    static RigLevels owning(double[][] lights) {
        return new RigLevels(lights);
    }

    /** How many lights. */
    public int size() {
        return lights.length;
    }

    /** The emitters of one light, counted from 0 in the rig's order; a copy. */
    public double[] of(int light) {
        return lights[light].clone();
    }

    /** The same, not copied: nobody may write to it. */
    double[] shared(int light) {
        return lights[light];
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof RigLevels o && Arrays.deepEquals(lights, o.lights);
    }

    @Override
    public int hashCode() {
        return Arrays.deepHashCode(lights);
    }
}

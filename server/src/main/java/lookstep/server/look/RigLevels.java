package lookstep.server.look;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * What every light of the rig gives, one consistent state: for each light in the rig's order, the
 * light fraction (0..1) of each of its emitters. Immutable.
 */
public final class RigLevels {
    private final List<double[]> lights;

    public RigLevels(List<double[]> lights) {
        List<double[]> copy = new ArrayList<>(lights.size());
        for (double[] light : lights) {
            for (double level : light) {
                if (!(level >= 0 && level <= 1)) {
                    throw new IllegalArgumentException("a level is 0 to 1, not " + level);
                }
            }
            copy.add(light.clone());
        }
        this.lights = List.copyOf(copy);
    }

    /** How many lights. */
    public int size() {
        return lights.size();
    }

    /** The emitters of one light, counted from 0 in the rig's order; a copy. */
    public double[] of(int light) {
        return lights.get(light).clone();
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof RigLevels o
                && Arrays.deepEquals(lights.toArray(), o.lights.toArray());
    }

    @Override
    public int hashCode() {
        return Arrays.deepHashCode(lights.toArray());
    }
}

package lookstep.simulator.model.plates;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * What is lit how, and how the camera is set.
 *
 * @param house share of the house light, 1 as it is
 * @param levels of each emitter, 0..1
 * @param lightOf which light each emitter belongs to, lights counted from 0
 * @param scale exposure scale of the camera
 * @param kelvin white balance of the camera
 */
// An array in a record: handed on, not compared.
@SuppressWarnings("ArrayRecordComponent")
public record Lit(
        double house, double[] levels, List<Integer> lightOf, double scale, double kelvin) {
    public Lit {
        lightOf = List.copyOf(lightOf);
        if (levels.length != lightOf.size()) {
            throw new IllegalArgumentException(
                    "%d levels, but %d emitters that belong to a light"
                            .formatted(levels.length, lightOf.size()));
        }
    }

    /** How many lights there are. */
    public int lights() {
        return lightOf.stream().mapToInt(l -> l + 1).max().orElse(0);
    }

    /** True if any emitter of a light is on. */
    public boolean on(int light) {
        for (int e = 0; e < levels.length; e++) {
            if (lightOf.get(e) == light && levels[e] > 0) {
                return true;
            }
        }
        return false;
    }

    /** All together, linear red, green, blue. */
    public float[] picture(LinearPlates plates) {
        return plates.mix(house, levels, scale, kelvin);
    }

    /** [0] what the house brings, [1 + l] what light l brings; their sum is the picture. */
    public List<float[]> parts(LinearPlates plates) {
        List<float[]> parts = new ArrayList<>();
        parts.add(plates.mix(house, new double[levels.length], scale, kelvin));
        for (int l = 0; l < lights(); l++) {
            parts.add(plates.mix(0, of(l, levels), scale, kelvin));
        }
        return parts;
    }

    /** A light with all its emitters at full. */
    float[] full(LinearPlates plates, int light) {
        double[] all = levels.clone();
        Arrays.fill(all, 1);
        return plates.mix(0, of(light, all), scale, kelvin);
    }

    private double[] of(int light, double[] from) {
        double[] only = new double[from.length];
        for (int e = 0; e < only.length; e++) {
            only[e] = lightOf.get(e) == light ? from[e] : 0;
        }
        return only;
    }
}

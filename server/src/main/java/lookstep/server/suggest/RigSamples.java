package lookstep.server.suggest;

import java.util.List;
import lookstep.server.look.LookLevels;
import lookstep.server.look.RigLevels;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Light;
import lookstep.simulator.model.colour.WhiteBalance;
import lookstep.simulator.model.plates.LinearPlates;

/** What the house and each emitter of a rig bring to the sample points. */
final class RigSamples {
    private final float[] house;
    private final float[][][] lights;
    private final double kelvin;
    private final double scale;

    private RigSamples(float[] house, float[][][] lights, double kelvin, double scale) {
        this.house = house;
        this.lights = lights;
        this.kelvin = kelvin;
        this.scale = scale;
    }

    /**
     * Reads the plates once.
     *
     * @throws IllegalArgumentException if the plates are not of these lights
     */
    static RigSamples of(LinearPlates plates, SamplePoints points, List<Light> rig) {
        int emitters = rig.stream().mapToInt(l -> l.fixture().emitters().size()).sum();
        if (emitters != plates.emitters()) {
            throw new IllegalArgumentException(
                    "plates of %d emitters for lights with %d; take plates of this rig"
                            .formatted(plates.emitters(), emitters));
        }
        float[][][] lights = new float[rig.size()][][];
        int next = 1;
        for (int l = 0; l < lights.length; l++) {
            lights[l] = new float[rig.get(l).fixture().emitters().size()][];
            for (int e = 0; e < lights[l].length; e++) {
                lights[l][e] = points.of(plates.plane(next++));
            }
        }
        return new RigSamples(points.of(plates.plane(0)), lights, plates.kelvin(), plates.scale());
    }

    /** The same with one light as another rig has one of its own. */
    RigSamples with(int light, RigSamples other, int as) {
        float[][][] changed = lights.clone();
        changed[light] = other.lights[as];
        return new RigSamples(house, changed, kelvin, scale);
    }

    /** The first lights alone. */
    RigSamples first(int count) {
        return new RigSamples(house, java.util.Arrays.copyOf(lights, count), kelvin, scale);
    }

    /** The house as a camera sees it. */
    float[] house(CameraSettings camera) {
        float[] out = new float[house.length];
        add(out, house, factor(camera));
        return balanced(out, camera);
    }

    /** One light as a camera sees it. */
    float[] light(int light, double[] levels, CameraSettings camera) {
        float[] out = new float[house.length];
        double factor = factor(camera);
        for (int e = 0; e < levels.length; e++) {
            add(out, lights[light][e], factor * levels[e]);
        }
        return balanced(out, camera);
    }

    /** The whole rig and the house. */
    float[] look(RigLevels levels, CameraSettings camera) {
        float[] out = new float[house.length];
        double factor = factor(camera);
        add(out, house, factor);
        for (int l = 0; l < lights.length; l++) {
            double[] of = levels.of(l);
            for (int e = 0; e < of.length; e++) {
                add(out, lights[l][e], factor * of[e]);
            }
        }
        return balanced(out, camera);
    }

    private double factor(CameraSettings camera) {
        return 1 / LookLevels.meteredLux(camera) / scale;
    }

    private float[] balanced(float[] rgb, CameraSettings camera) {
        if (camera.kelvin() == kelvin) {
            return rgb;
        }
        double[][] m = new WhiteBalance(camera.kelvin()).matrixFrom(new WhiteBalance(kelvin));
        for (int i = 0; i < rgb.length; i += 3) {
            double r = rgb[i];
            double g = rgb[i + 1];
            double b = rgb[i + 2];
            for (int c = 0; c < 3; c++) {
                rgb[i + c] = (float) (m[c][0] * r + m[c][1] * g + m[c][2] * b);
            }
        }
        return rgb;
    }

    static void add(float[] sum, float[] part, double times) {
        float factor = (float) times;
        if (factor != 0) {
            for (int i = 0; i < sum.length; i++) {
                sum[i] += factor * part[i];
            }
        }
    }
}

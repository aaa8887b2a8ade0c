package lookstep.simulator.model.plates;

import lookstep.simulator.model.colour.WhiteBalance;

/**
 * What the house and each emitter of a rig bring to every pixel, in linear light: taken from
 * frames, or rendered. Immutable; the planes are not copied, and nobody may write to them.
 */
public final class LinearPlates {
    private final int width;
    private final int height;
    private final double kelvin;
    private final double scale;
    private final float[][] planes;

    /**
     * @param kelvin the white balance that the planes are in
     * @param scale {@link lookstep.simulator.model.optics.Exposure#scale} of the camera settings
     *     that the planes are in: 1 in a plane is white there
     * @param planes [0] the house as it is, [1 + i] emitter i at full, over all lights in the rig's
     *     order; each red, green, blue of every pixel, linear sRGB, rows from the top; may be
     *     negative
     */
    public LinearPlates(int width, int height, double kelvin, double scale, float[][] planes) {
        for (float[] plane : planes) {
            if (plane.length != width * height * 3) {
                throw new IllegalArgumentException(
                        "a plane of %d values for %d x %d pixels"
                                .formatted(plane.length, width, height));
            }
        }
        this.width = width;
        this.height = height;
        this.kelvin = kelvin;
        this.scale = scale;
        this.planes = planes.clone();
    }

    public int width() {
        return width;
    }

    public int height() {
        return height;
    }

    public double kelvin() {
        return kelvin;
    }

    public double scale() {
        return scale;
    }

    /** How many emitters, over all lights. */
    public int emitters() {
        return planes.length - 1;
    }

    /** [0] the house, [1 + i] emitter i; not copied. */
    public float[] plane(int index) {
        return planes[index];
    }

    /**
     * The picture in linear light.
     *
     * @param house share of the house light, 1 as it is
     * @param levels of each emitter, 0..1
     * @param toScale exposure scale of the camera settings wanted
     * @param toKelvin white balance wanted
     * @return red, green, blue of every pixel, linear sRGB, 1 is white, not clipped
     * @throws IllegalArgumentException if there are more or fewer levels than emitters
     */
    public float[] mix(double house, double[] levels, double toScale, double toKelvin) {
        if (levels.length != emitters()) {
            throw new IllegalArgumentException(
                    "%d levels for %d emitters".formatted(levels.length, emitters()));
        }
        float[] sum = new float[width * height * 3];
        double factor = toScale / scale;
        for (int p = 0; p < planes.length; p++) {
            float weight = (float) (factor * (p == 0 ? house : levels[p - 1]));
            if (weight != 0) {
                float[] plane = planes[p];
                for (int i = 0; i < sum.length; i++) {
                    sum[i] += weight * plane[i];
                }
            }
        }
        if (toKelvin != kelvin) {
            balance(sum, new WhiteBalance(toKelvin).matrixFrom(new WhiteBalance(kelvin)));
        }
        return sum;
    }

    private static void balance(float[] rgb, double[][] m) {
        for (int i = 0; i < rgb.length; i += 3) {
            double r = rgb[i];
            double g = rgb[i + 1];
            double b = rgb[i + 2];
            rgb[i] = (float) (m[0][0] * r + m[0][1] * g + m[0][2] * b);
            rgb[i + 1] = (float) (m[1][0] * r + m[1][1] * g + m[1][2] * b);
            rgb[i + 2] = (float) (m[2][0] * r + m[2][1] * g + m[2][2] * b);
        }
    }
}

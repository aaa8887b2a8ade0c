package lookstep.simulator.model.colour;

/**
 * A camera set to a colour temperature: light of a black body at that temperature comes out with
 * equal red, green and blue. Bradford to D65, then linear sRGB. A real camera has a profile of its
 * own; this gives the direction and the strength.
 */
public final class WhiteBalance {
    private final double kelvin;
    private final double[][] matrix;

    /**
     * @param kelvin what the camera is set to, 1000..25000
     * @throws IllegalArgumentException outside that range
     */
    public WhiteBalance(double kelvin) {
        this.kelvin = kelvin;
        this.matrix =
                Matrix3.times(
                        Srgb.matrixFromXyz(),
                        Bradford.matrix(Planck.chromaticity(kelvin), Chromaticity.D65));
    }

    /** What the camera is set to. */
    public double kelvin() {
        return kelvin;
    }

    /** Linear red, green, blue of a light; white of this balance with Y 1 gives 1, 1, 1. */
    public double[] linearSrgb(Xyz light) {
        return Matrix3.times(matrix, light.x(), light.y(), light.z());
    }
}

package lookstep.simulator.model.colour;

/**
 * A camera set to a colour temperature: light of a black body at that temperature comes out with
 * equal red, green and blue. Bradford to D65, then linear sRGB. A real camera has a profile of its
 * own; this gives the direction and the strength.
 */
public final class WhiteBalance {
    private static final double GREY_CARD = 0.18;
    private static final double LEAST_SEEN = 0.05;

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

    /**
     * What turns linear sRGB of the same camera at another setting into that of this one; rows
     * first.
     */
    public double[][] matrixFrom(WhiteBalance other) {
        return Matrix3.times(matrix, Matrix3.inverse(other.matrix));
    }

    /** Linear red, green, blue of a light; white of this balance with Y 1 gives 1, 1, 1. */
    public double[] linearSrgb(Xyz light) {
        return Matrix3.times(matrix, light.x(), light.y(), light.z());
    }

    /** The light that this camera records as that hue and saturation. */
    public Xyz light(HueSaturation seen) {
        double[] rgb = seen.linearRgb();
        double[] c = Matrix3.times(Matrix3.inverse(matrix), rgb[0], rgb[1], rgb[2]);
        return new Xyz(c[0], c[1], c[2]);
    }

    /**
     * How an 18 % grey card looks in the picture, lit by nothing but this light and exposed right;
     * under D65, the white of sRGB.
     */
    public Lab greyCard(Chromaticity light) {
        double[] rgb = linearSrgb(light.toXyz(1));
        Xyz seen = Srgb.toXyz(rgb[0], rgb[1], rgb[2]);
        if (seen.y() < LEAST_SEEN) {
            // Bradford leaves the deepest violet no luminance under a cold white.
            seen = Srgb.toXyz(Math.max(0, rgb[0]), Math.max(0, rgb[1]), Math.max(0, rgb[2]));
        }
        return Lab.of(seen.times(GREY_CARD / seen.y()), Chromaticity.D65);
    }

    /** CIEDE2000 between grey cards, each lit by one of the lights as {@link #greyCard} says. */
    public double difference(Chromaticity one, Chromaticity other) {
        return Ciede2000.difference(greyCard(one), greyCard(other));
    }
}

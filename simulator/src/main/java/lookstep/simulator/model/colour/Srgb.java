package lookstep.simulator.model.colour;

/**
 * sRGB (IEC 61966-2-1), with matrices computed in full from its primaries and white instead of the
 * four digits printed there.
 */
public final class Srgb {
    private static final double[][] TO_XYZ = toXyzMatrix();
    private static final double[][] FROM_XYZ = Matrix3.inverse(TO_XYZ);

    private Srgb() {}

    /** Linear red, green, blue of a colour under D65; may lie outside 0..1. */
    public static double[] linear(Xyz c) {
        return Matrix3.times(FROM_XYZ, c.x(), c.y(), c.z());
    }

    /** The colour under D65 of linear red, green, blue. */
    public static Xyz toXyz(double red, double green, double blue) {
        double[] c = Matrix3.times(TO_XYZ, red, green, blue);
        return new Xyz(c[0], c[1], c[2]);
    }

    /** XYZ to linear sRGB, rows first; a copy. */
    public static double[][] matrixFromXyz() {
        return new double[][] {FROM_XYZ[0].clone(), FROM_XYZ[1].clone(), FROM_XYZ[2].clone()};
    }

    /** Luminance of linear red, green, blue; white is 1. */
    public static double luminance(double red, double green, double blue) {
        return TO_XYZ[1][0] * red + TO_XYZ[1][1] * green + TO_XYZ[1][2] * blue;
    }

    /** Linear 0..1 to signal 0..1; odd-symmetric for negative values. */
    public static double encode(double linear) {
        if (linear < 0) {
            return -encode(-linear);
        }
        return linear <= 0.0031308 ? 12.92 * linear : 1.055 * Math.pow(linear, 1 / 2.4) - 0.055;
    }

    /** Signal 0..1 to linear 0..1; odd-symmetric for negative values. */
    public static double decode(double signal) {
        if (signal < 0) {
            return -decode(-signal);
        }
        return signal <= 0.04045 ? signal / 12.92 : Math.pow((signal + 0.055) / 1.055, 2.4);
    }

    /** Linear to the 8-bit code 0..255, clipped. */
    public static int encode8(double linear) {
        return (int) Math.round(255 * encode(Math.min(1, Math.max(0, linear))));
    }

    private static double[][] toXyzMatrix() {
        Xyz r = new Chromaticity(0.64, 0.33).toXyz(1);
        Xyz g = new Chromaticity(0.30, 0.60).toXyz(1);
        Xyz b = new Chromaticity(0.15, 0.06).toXyz(1);
        double[][] primaries = {
            {r.x(), g.x(), b.x()}, {r.y(), g.y(), b.y()}, {r.z(), g.z(), b.z()}
        };
        Xyz white = Chromaticity.D65.toXyz(1);
        double[] share = Matrix3.times(Matrix3.inverse(primaries), white.x(), white.y(), white.z());
        double[][] m = new double[3][3];
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                m[i][j] = primaries[i][j] * share[j];
            }
        }
        return m;
    }
}

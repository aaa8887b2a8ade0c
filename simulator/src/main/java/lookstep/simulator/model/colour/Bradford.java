package lookstep.simulator.model.colour;

/**
 * Chromatic adaptation by the linearised Bradford transform, complete adaptation (the transform of
 * ICC.1, annex on chromatic adaptation). It does not keep luminance: Y changes with the light.
 */
public final class Bradford {
    private static final double[][] CONES = {
        {0.8951, 0.2664, -0.1614},
        {-0.7502, 1.7135, 0.0367},
        {0.0389, -0.0685, 1.0296}
    };
    private static final double[][] BACK = Matrix3.inverse(CONES);

    private Bradford() {}

    /** XYZ to XYZ, rows first, so that {@code from} becomes {@code to}. */
    public static double[][] matrix(Chromaticity from, Chromaticity to) {
        Xyz f = from.toXyz(1);
        Xyz t = to.toXyz(1);
        double[] coneFrom = Matrix3.times(CONES, f.x(), f.y(), f.z());
        double[] coneTo = Matrix3.times(CONES, t.x(), t.y(), t.z());
        double[][] scaled = new double[3][3];
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                scaled[i][j] = CONES[i][j] * coneTo[i] / coneFrom[i];
            }
        }
        return Matrix3.times(BACK, scaled);
    }

    /**
     * The colour that looks the same under {@code toWhite} as {@code c} does under {@code from}.
     */
    public static Xyz adapt(Xyz c, Chromaticity fromWhite, Chromaticity toWhite) {
        double[] r = Matrix3.times(matrix(fromWhite, toWhite), c.x(), c.y(), c.z());
        return new Xyz(r[0], r[1], r[2]);
    }
}

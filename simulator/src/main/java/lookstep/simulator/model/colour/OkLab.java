package lookstep.simulator.model.colour;

/**
 * A colour in OKLab (Björn Ottosson, 'A perceptual color space for image processing', 2020): equal
 * distances look about equally large, also over wide steps, and they are distances in the strict
 * sense, which {@link Ciede2000} is not: it breaks the triangle inequality and is fitted to small
 * differences (Sharma, Wu and Dalal 2005).
 *
 * @param lightness 0 black, 1 the white of D65
 * @param a green to red
 * @param b blue to yellow
 */
public record OkLab(double lightness, double a, double b) {
    private static final double[][] CONES = {
        {0.8189330101, 0.3618667424, -0.1288597137},
        {0.0329845436, 0.9293118715, 0.0361456387},
        {0.0482003018, 0.2643662691, 0.6338517070}
    };
    private static final double[][] LAB = {
        {0.2104542553, 0.7936177850, -0.0040720468},
        {1.9779984951, -2.4285922050, 0.4505937099},
        {0.0259040371, 0.7827717662, -0.8086757660}
    };
    private static final double[][] CONES_OF_SRGB =
            Matrix3.times(CONES, Matrix3.inverse(Srgb.matrixFromXyz()));

    /** Of a colour under D65 whose white has Y 1. */
    public static OkLab of(Xyz c) {
        return ofCones(Matrix3.times(CONES, c.x(), c.y(), c.z()));
    }

    /** Of linear red, green, blue. */
    public static OkLab ofLinearSrgb(double red, double green, double blue) {
        return ofCones(Matrix3.times(CONES_OF_SRGB, red, green, blue));
    }

    /**
     * The same for many in a row.
     *
     * @param into gets lightness, a, b
     */
    public static void ofLinearSrgb(double red, double green, double blue, double[] into) {
        double l = Math.cbrt(row(CONES_OF_SRGB[0], red, green, blue));
        double m = Math.cbrt(row(CONES_OF_SRGB[1], red, green, blue));
        double s = Math.cbrt(row(CONES_OF_SRGB[2], red, green, blue));
        into[0] = row(LAB[0], l, m, s);
        into[1] = row(LAB[1], l, m, s);
        into[2] = row(LAB[2], l, m, s);
    }

    private static double row(double[] m, double a, double b, double c) {
        return m[0] * a + m[1] * b + m[2] * c;
    }

    private static OkLab ofCones(double[] cones) {
        double[] lab =
                Matrix3.times(LAB, Math.cbrt(cones[0]), Math.cbrt(cones[1]), Math.cbrt(cones[2]));
        return new OkLab(lab[0], lab[1], lab[2]);
    }

    /** Euclidean distance. */
    public double distance(OkLab o) {
        double dl = lightness - o.lightness;
        double da = a - o.a;
        double db = b - o.b;
        return Math.sqrt(dl * dl + da * da + db * db);
    }
}

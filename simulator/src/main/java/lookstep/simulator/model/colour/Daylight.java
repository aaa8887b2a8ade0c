package lookstep.simulator.model.colour;

/** The CIE daylight locus (CIE 15:2004, formula for D illuminants). */
public final class Daylight {
    private Daylight() {}

    /**
     * The point on the daylight locus. The temperature goes into the formula as it is: the standard
     * D65 is 6503.6 K here, because its name dates from an older second radiation constant.
     *
     * @param kelvin 4000..25000
     * @throws IllegalArgumentException outside that range
     */
    public static Chromaticity chromaticity(double kelvin) {
        if (!(kelvin >= 4000 && kelvin <= 25000)) {
            throw new IllegalArgumentException(
                    "daylight of "
                            + kelvin
                            + " K is not defined; choose 4000 to 25000 K, or the Planckian locus");
        }
        double t = 1000 / kelvin;
        double x =
                kelvin <= 7000
                        ? ((-4.6070 * t + 2.9678) * t + 0.09911) * t + 0.244063
                        : ((-2.0064 * t + 1.9018) * t + 0.24748) * t + 0.237040;
        return new Chromaticity(x, (-3.000 * x + 2.870) * x - 0.275);
    }
}

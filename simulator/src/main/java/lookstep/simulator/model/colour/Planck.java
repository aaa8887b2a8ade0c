package lookstep.simulator.model.colour;

/** The black body. */
public final class Planck {
    /** Second radiation constant, metre kelvin (CODATA 2018, exact since the SI of 2019). */
    public static final double C2 = 1.438776877e-2;

    /** Lowest temperature taken. */
    public static final double MIN_KELVIN = 1000;

    /** Highest temperature taken. */
    public static final double MAX_KELVIN = 25000;

    private Planck() {}

    /**
     * Relative spectral radiant exitance.
     *
     * @param nanometres wavelength
     * @param kelvin temperature
     */
    public static double spectrum(double nanometres, double kelvin) {
        double metres = nanometres * 1e-9;
        // Divided by its value at 560 nm, as CIE 15 does, to stay near 1.
        double at560 = Math.pow(560e-9, -5) / Math.expm1(C2 / (560e-9 * kelvin));
        return Math.pow(metres, -5) / Math.expm1(C2 / (metres * kelvin)) / at560;
    }

    /**
     * The point on the Planckian locus.
     *
     * @param kelvin 1000..25000
     * @throws IllegalArgumentException outside that range
     */
    public static Chromaticity chromaticity(double kelvin) {
        if (!(kelvin >= MIN_KELVIN && kelvin <= MAX_KELVIN)) {
            throw outside(kelvin);
        }
        return Cie1931.of(nm -> spectrum(nm, kelvin)).chromaticity();
    }

    static IllegalArgumentException outside(double kelvin) {
        return new IllegalArgumentException(
                "colour temperature "
                        + kelvin
                        + " K is outside 1000 to 25000 K; choose one between");
    }
}

package lookstep.simulator.model.colour;

/** Reciprocal megakelvin: equal steps look about equal, which kelvin steps do not. */
public final class Mired {
    private Mired() {}

    /** One million over the temperature; its own inverse. */
    public static double of(double kelvin) {
        return 1e6 / kelvin;
    }

    /** The temperature of a mired value. */
    public static double kelvin(double mired) {
        return 1e6 / mired;
    }

    /** How far apart two temperatures look: negative is bluer. */
    public static double shift(double fromKelvin, double toKelvin) {
        return of(toKelvin) - of(fromKelvin);
    }
}

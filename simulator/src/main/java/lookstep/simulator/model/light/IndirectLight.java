package lookstep.simulator.model.light;

/**
 * What a room gives back: the room taken as an integrating sphere. Flux that has struck the walls
 * once goes on being reflected, so it arrives everywhere as flux x rho (1 + rho + rho^2 ...) /
 * area.
 */
public final class IndirectLight {
    private IndirectLight() {}

    /**
     * Indirect illuminance in lux, the same everywhere.
     *
     * @param fluxLumens what the lamps give
     * @param areaSquareMetres all surfaces of the room together
     * @param reflectance mean of those surfaces weighted by area, 0 or more, below 1
     */
    public static double lux(double fluxLumens, double areaSquareMetres, double reflectance) {
        if (!(reflectance >= 0 && reflectance < 1)) {
            throw new IllegalArgumentException(
                    "a mean reflectance of " + reflectance + " is not 0 to below 1");
        }
        return fluxLumens * reflectance / (areaSquareMetres * (1 - reflectance));
    }
}

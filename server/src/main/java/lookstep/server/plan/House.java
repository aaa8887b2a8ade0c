package lookstep.server.plan;

/**
 * The light that is there already.
 *
 * @param lux illuminance at the people, 0 or more
 * @param kelvin its colour temperature
 */
public record House(double lux, double kelvin) {}

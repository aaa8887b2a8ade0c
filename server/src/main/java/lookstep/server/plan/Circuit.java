package lookstep.server.plan;

import java.util.List;

/**
 * One circuit of the mains.
 *
 * @param name how it is told from the others
 * @param amps what its breaker holds
 * @param volts nominal
 * @param lights names of those that are plugged into it
 * @param otherWatts what else hangs on it
 */
public record Circuit(
        String name, double amps, double volts, List<String> lights, double otherWatts) {
    public Circuit {
        lights = List.copyOf(lights);
    }
}

package lookstep.simulator.gear;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import lookstep.simulator.model.colour.Xyz;

/**
 * What all lights give after one packet. Immutable.
 *
 * @param intensities by the light's name, in the order of the patch: CIE XYZ on the beam's axis, Y
 *     in candela
 * @param packets how many packets with levels have come so far; 0 before the first, when all is
 *     dark
 */
public record LightSnapshot(Map<String, Xyz> intensities, long packets) {
    public LightSnapshot {
        intensities = Collections.unmodifiableMap(new LinkedHashMap<>(intensities));
    }
}

package lookstep.server.live;

import java.util.List;
import lookstep.server.look.RigLevels;

/**
 * One frame that is taken with known light.
 *
 * @param name in words: {@code house only}, {@code ‘key’ warm alone}
 * @param light the one that is on; empty for the house alone
 * @param share of the light of the ramp's brightest frame, above 0 up to 1, if it is one of the
 *     frames that tell how the camera turns light into codes; 0 if it is not
 * @param levels of each light's emitters, 0..1, in the rig's order: what really goes out
 */
public record PlateStep(String name, String light, double share, List<List<Double>> levels) {
    public PlateStep {
        levels = levels.stream().map(List::copyOf).toList();
    }

    /** Whether nothing but the house is on. */
    public boolean house() {
        return light.isEmpty();
    }

    /** The levels as they go to the lights. */
    public RigLevels rig() {
        return new RigLevels(
                levels.stream()
                        .map(l -> l.stream().mapToDouble(Double::doubleValue).toArray())
                        .toList());
    }

    /** The same frame with other light. */
    PlateStep with(List<List<Double>> others) {
        return new PlateStep(name, light, share, others);
    }
}

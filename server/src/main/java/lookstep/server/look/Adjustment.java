package lookstep.server.look;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * What was changed about a look on the set.
 *
 * @param lights by the light's name; one that is not named is as planned
 * @param swapped left and right are exchanged
 * @param cameraKelvin the camera stays at this setting, and the lights make up for it; 0 if it is
 *     set as the look says
 */
public record Adjustment(Map<String, Nudge> lights, boolean swapped, double cameraKelvin) {
    public static final Adjustment NONE = new Adjustment(Map.of(), false, 0);

    public Adjustment {
        Map<String, Nudge> changed = new LinkedHashMap<>(lights);
        changed.values().removeIf(Nudge.NONE::equals);
        lights = Collections.unmodifiableMap(changed);
    }

    public Nudge of(String light) {
        return lights.getOrDefault(light, Nudge.NONE);
    }

    public Adjustment with(String light, Nudge nudge) {
        Map<String, Nudge> next = new LinkedHashMap<>(lights);
        next.put(light, nudge);
        return new Adjustment(next, swapped, cameraKelvin);
    }

    /**
     * Left and right exchanged, with what was changed about each.
     *
     * @param counterparts by name, in both directions
     */
    public Adjustment swap(Map<String, String> counterparts) {
        Map<String, Nudge> next = new LinkedHashMap<>();
        lights.forEach((light, nudge) -> next.put(counterparts.getOrDefault(light, light), nudge));
        return new Adjustment(next, !swapped, cameraKelvin);
    }

    /** Without what was changed about single lights. */
    public Adjustment ofTheWhole() {
        return new Adjustment(Map.of(), swapped, cameraKelvin);
    }

    public Adjustment cameraAt(double kelvin) {
        return new Adjustment(lights, swapped, kelvin);
    }

    public boolean none() {
        return equals(NONE);
    }
}

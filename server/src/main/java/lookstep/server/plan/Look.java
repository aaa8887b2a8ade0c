package lookstep.server.plan;

import java.util.Map;

/**
 * A lighting state and the camera settings that belong to it.
 *
 * @param name unique
 * @param camera what the camera is set to
 * @param fadeSeconds 0 is a snap
 * @param key the light that stops are measured against, always given in percent
 * @param lights setting by the light's name, in the order of the file; a light that is not named is
 *     off
 */
public record Look(
        String name,
        CameraSettings camera,
        double fadeSeconds,
        String key,
        Map<String, Setting> lights) {

    /** What one light does in a look. */
    public record Setting(Level level, Colour colour) {}

    /** How much light. */
    public sealed interface Level {
        /** Of the most the light gives at this colour, 0..100. */
        record Percent(double percent) implements Level {}

        /**
         * Illuminance at the middle of the nearest row against the key's: +1 is twice, -1 is half.
         */
        record StopsFromKey(double stops) implements Level {}
    }

    /** Which colour. */
    public sealed interface Colour {
        /** Correlated colour temperature, on the Planckian locus. */
        record Temperature(double kelvin) implements Colour {}

        /** CIE 1931 chromaticity. */
        record Xy(double x, double y) implements Colour {}
    }
}

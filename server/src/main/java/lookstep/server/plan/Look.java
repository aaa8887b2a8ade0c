package lookstep.server.plan;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;

/**
 * A lighting state and the camera settings that belong to it.
 *
 * @param name unique
 * @param camera what the camera is set to
 * @param fadeSeconds 0 is a snap
 * @param key the light that stops are measured against, given in percent or lux
 * @param lights setting by the light's name, in the order of the file; a light that is not named is
 *     off
 * @param moved lights that somebody moves for this look, and where to; the others stand where the
 *     rig has them
 */
public record Look(
        String name,
        CameraSettings camera,
        double fadeSeconds,
        String key,
        Map<String, Setting> lights,
        Map<String, Placing> moved) {
    /** With every light where the rig has it. */
    public Look(
            String name,
            CameraSettings camera,
            double fadeSeconds,
            String key,
            Map<String, Setting> lights) {
        this(name, camera, fadeSeconds, key, lights, Map.of());
    }

    /** The same light, taken with other camera settings. */
    public Look taken(CameraSettings with) {
        return new Look(name, with, fadeSeconds, key, lights, moved);
    }

    /** With only what these lights do. */
    Look with(Set<String> there) {
        if (there.containsAll(lights.keySet()) && there.containsAll(moved.keySet())) {
            return this;
        }
        Map<String, Setting> kept = new LinkedHashMap<>(lights);
        kept.keySet().retainAll(there);
        Map<String, Placing> movedThere = new LinkedHashMap<>(moved);
        movedThere.keySet().retainAll(there);
        return new Look(name, camera, fadeSeconds, key, kept, movedThere);
    }

    /** What one light does in a look. */
    public record Setting(Level level, Colour colour, Blend blend) {
        /** With the broadest blend. */
        public Setting(Level level, Colour colour) {
            this(level, colour, Blend.BROAD);
        }
    }

    /** Which of several mixes of the emitters that come to the same colour. */
    public enum Blend {
        /** As many emitters as can be, for skin likes a broad spectrum (common practice). */
        BROAD,
        /** The one that gives most light. */
        MOST
    }

    /** How much light. */
    public sealed interface Level {
        /** Of the most the light gives at this colour, 0..100. */
        record Percent(double percent) implements Level {}

        /**
         * Illuminance at the middle of the nearest row against the key's: +1 is twice, -1 is half.
         */
        record StopsFromKey(double stops) implements Level {}

        /** Illuminance at the middle of the nearest row, the meter turned to the light; above 0. */
        record Lux(double lux) implements Level {}
    }

    /** Which colour. */
    public sealed interface Colour {
        /**
         * Correlated colour temperature.
         *
         * @param duv signed distance from the Planckian locus in CIE 1960 uv: above 0 is greener,
         *     below is pinker; 0 is on it
         */
        record Temperature(double kelvin, double duv) implements Colour {
            /** On the Planckian locus. */
            public Temperature(double kelvin) {
                this(kelvin, 0);
            }
        }

        /** CIE 1931 chromaticity. */
        record Xy(double x, double y) implements Colour {}

        /**
         * As a grey card looks in the picture, with the camera set as the look says.
         *
         * @param hueDegrees of sRGB: 0 red, 120 green, 240 blue
         * @param saturation of HSV in linear sRGB: 0 is white to the camera, 1 has no white left
         */
        record HueSaturation(double hueDegrees, double saturation) implements Colour {}
    }
}

package lookstep.server.look;

import java.util.Optional;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.ColourTemperature;

/**
 * What one light gives in a look, beside what was asked of it. What it gives is counted after its
 * slots: through the mode's bits and the dimming curve, as the light reads them.
 *
 * @param light its name
 * @param key true if stops of the look are measured against it
 * @param given empty if it is off
 */
public record LightReport(String light, boolean key, Optional<Given> given) {
    /**
     * A light that is on.
     *
     * @param amount how much
     * @param colour which colour
     */
    public record Given(Amount amount, Colour colour) {}

    /**
     * How much light. Illuminance is in lux at {@link LookLevels#SUBJECT}, the meter turned to the
     * light; stops are from what the key gives there, and NaN if it gives none. Light that does not
     * reach the people is 0 lux, and minus infinity in stops.
     *
     * @param lux what arrives
     * @param wantedLux what was asked
     * @param stops of {@code lux}
     * @param wantedStops of {@code wantedLux}
     * @param leastLux the smallest light above dark that its slots can set at this colour
     * @param mostLux at full at this colour
     * @param leastStops of {@code leastLux}
     * @param mostStops of {@code mostLux}
     * @param exposedStops of {@code lux} against what the look's camera settings are metered for
     *     (ISO 2720, C = 250): a card turned to this light alone is exposed right at 0
     * @param stepStops how far down the next lower code of its dimming slots is; infinite if that
     *     is dark
     */
    public record Amount(
            double lux,
            double wantedLux,
            double stops,
            double wantedStops,
            double leastLux,
            double mostLux,
            double leastStops,
            double mostStops,
            double exposedStops,
            double stepStops) {}

    /**
     * Which colour.
     *
     * @param wanted chromaticity that was asked
     * @param given chromaticity that comes out
     * @param temperature of {@code given}; see {@link ColourTemperature#useful()}
     * @param miredFromCamera from the camera's setting to that temperature: below 0 is colder
     * @param reached true if the mode can mix what was asked, rounding of slots aside
     * @param differenceUv from {@code wanted} to {@code given} in CIE 1976 u'v'
     * @param differenceE CIEDE2000 between two 18 % grey cards, each lit by one of the two and
     *     exposed right, as the look's white balance sees them; about 1 is the least that is seen
     * @param seen hue and saturation in plain words as the camera sees it, such as "pale blue"
     */
    public record Colour(
            Chromaticity wanted,
            Chromaticity given,
            ColourTemperature temperature,
            double miredFromCamera,
            boolean reached,
            double differenceUv,
            double differenceE,
            String seen) {}

    /** Whether it gives light. */
    public boolean on() {
        return given.isPresent();
    }
}

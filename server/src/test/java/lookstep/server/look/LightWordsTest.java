package lookstep.server.look;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Optional;
import lookstep.server.look.LightReport.Amount;
import lookstep.server.look.LightReport.Colour;
import lookstep.server.look.LightReport.Given;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.ColourTemperature;
import lookstep.simulator.model.colour.HueSaturation;
import lookstep.simulator.model.colour.Planck;
import lookstep.simulator.model.colour.Srgb;
import lookstep.simulator.model.colour.WhiteBalance;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LightWordsTest {
    private static Given given(double lux, double least, double most, double step) {
        return new Given(
                new Amount(lux, lux, LightRange.stops(100, lux), 0, least, most, 0, 0, 0, step),
                colour(5600, 0, 0));
    }

    private static Colour colour(double kelvin, double duv, double deltaE) {
        ColourTemperature t = new ColourTemperature(kelvin, duv);
        Chromaticity c = t.chromaticity();
        return new Colour(c, c, t, 1e6 / kelvin - 1e6 / 5600, true, deltaE / 400, deltaE, "white");
    }

    @ParameterizedTest
    @CsvSource({"0.04, 0.0 lx", "9.94, 9.9 lx", "9.96, 10 lx", "411.6, 412 lx"})
    void lux(double lux, String words) {
        assertEquals(words, LightWords.lux(lux));
    }

    @ParameterizedTest
    @CsvSource({
        "100, as the key",
        "102, as the key",
        "50, 1.0 stop under",
        "25, 2.0 stops under",
        "141.42, 0.5 stops over",
        "0, ''"
    })
    void stops(double lux, String words) {
        Optional<Given> given = Optional.of(given(lux, 1, 200, 0.01));
        assertEquals(words, LightWords.stops(new LightReport("fill", false, given)));
        assertEquals("the key", LightWords.stops(new LightReport("key", true, given)));
    }

    @ParameterizedTest
    @CsvSource({
        "200, 1, 200, 0.01, at its most",
        "150, 1, 200, 0.01, 0.4 stops below its most",
        "100, 1, 200, 0.01, ''",
        "1, 1, 200, Infinity, at its least",
        "4, 1, 200, 0.415, '2.0 stops above its least, in steps of 0.4 stops'",
        "0, 0, 0, 0.01, does not reach the people"
    })
    void limits(double lux, double least, double most, double step, String words) {
        assertEquals(words, LightWords.limits(given(lux, least, most, step)));
    }

    // Against a camera at 5600 K, 178.57 mired.
    @ParameterizedTest
    @CsvSource({
        "5600, 0, 0, '5600 K, as the camera'",
        "5477, 0, 1.9, '5480 K, as the camera'",
        "3200, 0, 0, '3200 K, 134 mired warmer than the camera'",
        "10000, 0, 0, '10000 K, 79 mired colder than the camera'",
        "5600, 0.004, 2.2, '5600 K, as the camera, Duv +0.004 (greenish), ΔE00 2.2 off'",
        "5600, -0.0064, 5.94, '5600 K, as the camera, Duv -0.006 (pinkish), ΔE00 5.9 off'"
    })
    void colours(double kelvin, double duv, double deltaE, String words) {
        assertEquals(words, LightWords.colour(colour(kelvin, duv, deltaE)));
    }

    /** Hues of HSV in sRGB signals, every 30 degrees. */
    @ParameterizedTest
    @CsvSource({
        "1, 0, 0, deep red",
        "1, 0.5, 0, deep amber",
        "1, 1, 0, deep yellow",
        "0.5, 1, 0, deep yellow-green",
        "0.2, 1, 0.2, green",
        "0.3, 1, 0.65, blue-green",
        "0.8, 1, 1, pale cyan",
        "0, 0.5, 1, deep sky blue",
        "0.3, 0.3, 1, blue",
        "0.65, 0.3, 1, violet",
        "1, 0.7, 1, pale magenta",
        "1, 0.3, 0.65, rose",
        "1, 0.3, 0.38, red",
        "1, 0.97, 0.99, white"
    })
    void names(double red, double green, double blue, String name) {
        WhiteBalance camera = new WhiteBalance(4300);
        HueSaturation wanted =
                HueSaturation.of(
                        new double[] {Srgb.decode(red), Srgb.decode(green), Srgb.decode(blue)});
        assertEquals(name, ColourName.of(camera.light(wanted).chromaticity(), camera));
    }

    @Test
    void daylightIsSkyBlueToACameraSetForLamps() {
        // 106 171 255 as computed apart with the colorjs.io package: hue 214 degrees.
        assertEquals("sky blue", ColourName.of(Planck.chromaticity(5600), new WhiteBalance(3000)));
    }
}

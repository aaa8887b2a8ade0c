package lookstep.simulator.model.colour;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OkLabTest {
    /** Table of check values in Ottosson, 'A perceptual color space for image processing', 2020. */
    @ParameterizedTest
    @CsvSource({
        "0.950, 1.000, 1.089, 1.000,  0.000,  0.000",
        "1.000, 0.000, 0.000, 0.450,  1.236, -0.019",
        "0.000, 1.000, 0.000, 0.922, -0.671,  0.263",
        "0.000, 0.000, 1.000, 0.153, -1.415, -0.449"
    })
    void thePublishedColoursComeOut(
            double x, double y, double z, double lightness, double a, double b) {
        OkLab c = OkLab.of(new Xyz(x, y, z));
        assertEquals(lightness, c.lightness(), 0.0006);
        assertEquals(a, c.a(), 0.0006);
        assertEquals(b, c.b(), 0.0006);
    }

    @Test
    void bothWaysFromSrgbAreOneAndAGreyHasNoColour() {
        Random random = new Random(1);
        double[] row = new double[3];
        for (int i = 0; i < 200; i++) {
            double r = random.nextDouble();
            double g = random.nextDouble();
            double b = random.nextDouble();
            OkLab c = OkLab.ofLinearSrgb(r, g, b);
            OkLab.ofLinearSrgb(r, g, b, row);
            assertEquals(0, c.distance(new OkLab(row[0], row[1], row[2])), 1e-12);
            assertEquals(0, c.distance(OkLab.of(Srgb.toXyz(r, g, b))), 1e-9);
        }
        OkLab grey = OkLab.ofLinearSrgb(0.18, 0.18, 0.18);
        assertEquals(Math.cbrt(0.18), grey.lightness(), 0.001);
        assertTrue(Math.hypot(grey.a(), grey.b()) < 0.001, grey.toString());
    }
}

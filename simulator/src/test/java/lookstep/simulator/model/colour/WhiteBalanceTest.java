package lookstep.simulator.model.colour;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WhiteBalanceTest {
    @Test
    void bradfordAsPublished() {
        // The inverse of the Bradford matrix as the colorjs.io package prints it.
        double[][] cones = {
            {0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}
        };
        double[][] back = Matrix3.inverse(cones);
        assertArrayEquals(new double[] {0.9869929, -0.1470543, 0.1599627}, back[0], 5e-8);
        assertArrayEquals(new double[] {0.4323053, 0.5183603, 0.0492912}, back[1], 5e-8);
        assertArrayEquals(new double[] {-0.0085287, 0.0400428, 0.9684867}, back[2], 5e-8);
        // Black body of 3000 K to D65, computed apart.
        double[][] m = Bradford.matrix(Planck.chromaticity(3000), Chromaticity.D65);
        assertArrayEquals(new double[] {0.8534686, -0.1060935, 0.3397416}, m[0], 1e-4);
        assertArrayEquals(new double[] {-0.1246902, 1.0909432, 0.1115333}, m[1], 1e-4);
        assertArrayEquals(new double[] {0.0681841, -0.1148676, 2.8723115}, m[2], 1e-4);
    }

    /** CAT16 (Li and others, Color Research and Application 42, 2017), complete adaptation. */
    private static double[] byCat16(Xyz c, Chromaticity from) {
        double[][] cones = {
            {0.401288, 0.650173, -0.051461},
            {-0.250268, 1.204414, 0.045854},
            {-0.002079, 0.048952, 0.953127}
        };
        Xyz w = from.toXyz(1);
        Xyz d = Chromaticity.D65.toXyz(1);
        double[] was = Matrix3.times(cones, w.x(), w.y(), w.z());
        double[] is = Matrix3.times(cones, d.x(), d.y(), d.z());
        double[] seen = Matrix3.times(cones, c.x(), c.y(), c.z());
        double[] r =
                Matrix3.times(
                        Matrix3.inverse(cones),
                        seen[0] * is[0] / was[0],
                        seen[1] * is[1] / was[1],
                        seen[2] * is[2] / was[2]);
        return Srgb.linear(new Xyz(r[0], r[1], r[2]));
    }

    private static int[] brightest(double[] rgb) {
        double most = Math.max(rgb[0], Math.max(rgb[1], rgb[2]));
        return new int[] {
            Srgb.encode8(rgb[0] / most), Srgb.encode8(rgb[1] / most), Srgb.encode8(rgb[2] / most)
        };
    }

    @Test
    void anotherAdaptationSaysNearlyTheSame() {
        // 5600 K under a camera set to 3000 K, computed apart: Bradford 106 171 255, CAT16 104 169
        // 255.
        Xyz light = Planck.chromaticity(5600).toXyz(1);
        assertArrayEquals(
                new int[] {106, 171, 255}, brightest(new WhiteBalance(3000).linearSrgb(light)));
        assertArrayEquals(
                new int[] {104, 169, 255}, brightest(byCat16(light, Planck.chromaticity(3000))));
        // Over all whites: hues of what the camera sees are within 4 degrees.
        for (double camera : new double[] {2700, 3200, 4300, 5600, 6500}) {
            for (double lamp : new double[] {2700, 3200, 4300, 5600, 6500}) {
                if (camera != lamp) {
                    Xyz c = Planck.chromaticity(lamp).toXyz(1);
                    double one =
                            HueSaturation.of(new WhiteBalance(camera).linearSrgb(c)).hueDegrees();
                    double other =
                            HueSaturation.of(byCat16(c, Planck.chromaticity(camera))).hueDegrees();
                    assertEquals(one, other, 4, lamp + " K at " + camera);
                }
            }
        }
    }

    @Test
    void hueAndSaturationAreThoseOfHsv() {
        // java.awt.Color has HSV of its own; fed with linear values it is the same arithmetic.
        Random random = new Random(3);
        for (int i = 0; i < 500; i++) {
            int r = random.nextInt(256);
            int g = random.nextInt(256);
            int b = random.nextInt(256);
            float[] hsb = Color.RGBtoHSB(r, g, b, null);
            HueSaturation hs = HueSaturation.of(new double[] {r / 255.0, g / 255.0, b / 255.0});
            assertEquals(hsb[0] * 360, hs.hueDegrees(), 1e-3);
            assertEquals(hsb[1], hs.saturation(), 1e-6);
            double most = Math.max(r, Math.max(g, b)) / 255.0;
            if (most > 0) {
                assertArrayEquals(
                        new double[] {r / 255.0 / most, g / 255.0 / most, b / 255.0 / most},
                        hs.linearRgb(),
                        1e-12);
            }
        }
    }

    @Test
    void theLightForAHueIsSeenAsThatHue() {
        for (double camera : new double[] {1700, 3000, 4300, 5600, 20000}) {
            WhiteBalance balance = new WhiteBalance(camera);
            for (double hue = 0; hue < 360; hue += 7.5) {
                for (double saturation : new double[] {0.05, 0.5, 0.8, 1}) {
                    Xyz light = balance.light(new HueSaturation(hue, saturation));
                    assertTrue(light.y() > 0);
                    Xyz mixed = light.chromaticity().toXyz(3);
                    HueSaturation seen = HueSaturation.of(balance.linearSrgb(mixed));
                    assertEquals(0, Math.IEEEremainder(hue - seen.hueDegrees(), 360), 1e-6);
                    assertEquals(saturation, seen.saturation(), 1e-9);
                }
            }
        }
    }

    // IEC 61966-2-1: to a camera on D65's own white the primaries are those of sRGB; a black body
    // of 6504 K differs from D65 by Duv 0.0032, which moves them by up to 0.007.
    @ParameterizedTest
    @CsvSource({"0,0.64,0.33", "120,0.30,0.60", "240,0.15,0.06"})
    void fullSaturationIsAPrimary(double hue, double x, double y) {
        Chromaticity c = new WhiteBalance(6504).light(new HueSaturation(hue, 1)).chromaticity();
        assertEquals(x, c.x(), 0.007);
        assertEquals(y, c.y(), 0.007);
    }

    @Test
    void noSaturationIsTheCamerasWhite() {
        Chromaticity c = new WhiteBalance(3200).light(new HueSaturation(99, 0)).chromaticity();
        assertEquals(0, c.distanceUvPrime(Planck.chromaticity(3200)), 1e-9);
    }

    @Test
    void greyCards() {
        WhiteBalance balance = new WhiteBalance(3000);
        // CIE 15:2004: L* of 0.18 is 49.496; under its own white it has no colour.
        Lab own = balance.greyCard(Planck.chromaticity(3000));
        assertEquals(49.496, own.lightness(), 1e-3);
        assertEquals(0, Math.hypot(own.a(), own.b()), 1e-9);
        // 5600 K at 3000 K: CIELAB hue 274.4 degrees (computed apart in Python).
        Lab blue = balance.greyCard(Planck.chromaticity(5600));
        assertEquals(49.496, blue.lightness(), 1e-3);
        assertEquals(274.4, Math.toDegrees(Math.atan2(blue.b(), blue.a())) + 360, 0.1);
        assertEquals(0, balance.difference(Chromaticity.D65, Chromaticity.D65));
        assertTrue(balance.difference(Planck.chromaticity(3000), Planck.chromaticity(5600)) > 20);
        // Beyond all screens it is still a number.
        assertTrue(
                Double.isFinite(
                        new WhiteBalance(20000)
                                .difference(new Chromaticity(0.17, 0.01), Chromaticity.D65)));
    }

    @Test
    void differencesAreTheSameBothWays() {
        Random random = new Random(5);
        WhiteBalance balance = new WhiteBalance(4300);
        for (int i = 0; i < 200; i++) {
            Chromaticity a =
                    new Chromaticity(
                            0.2 + 0.3 * random.nextDouble(), 0.2 + 0.3 * random.nextDouble());
            Chromaticity b =
                    new Chromaticity(
                            0.2 + 0.3 * random.nextDouble(), 0.2 + 0.3 * random.nextDouble());
            assertEquals(balance.difference(a, b), balance.difference(b, a), 1e-9);
            assertTrue(balance.difference(a, b) > 0);
        }
    }
}

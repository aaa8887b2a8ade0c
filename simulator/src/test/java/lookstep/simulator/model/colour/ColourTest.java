package lookstep.simulator.model.colour;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ColourTest {
    @Test
    void illuminantsComeOutAtTheirPublishedChromaticities() throws IOException {
        // Published: CIE 15:2004, A 0.44758 0.40745, D65 0.31272 0.32903 (four digits: 0.3127
        // 0.3290). 5 nm and 360 to 780 nm cost up to 2e-5.
        Map<Double, double[]> rows = new HashMap<>();
        try (BufferedReader in =
                new BufferedReader(
                        new InputStreamReader(
                                ColourTest.class.getResourceAsStream("illuminants-5nm.csv"),
                                StandardCharsets.UTF_8))) {
            in.lines()
                    .filter(l -> !l.startsWith("#"))
                    .map(l -> l.split(",", -1))
                    .forEach(
                            c ->
                                    rows.put(
                                            Double.valueOf(c[0]),
                                            new double[] {
                                                Double.parseDouble(c[1]), Double.parseDouble(c[2])
                                            }));
        }
        assertEquals(85, rows.size());
        Chromaticity a = Cie1931.of(nm -> rows.get(nm)[0], 780).chromaticity();
        Chromaticity d65 = Cie1931.of(nm -> rows.get(nm)[1], 780).chromaticity();
        assertEquals(0.44758, a.x(), 2e-5);
        assertEquals(0.40745, a.y(), 2e-5);
        assertEquals(0.31272, d65.x(), 2e-5);
        assertEquals(0.32903, d65.y(), 3e-5);
    }

    @Test
    void equalEnergyIsOneThird() {
        // CIE 15:2004: illuminant E has x = y = 1/3 when summed over 380 to 780 nm.
        Chromaticity e = Cie1931.of(nm -> nm < 380 ? 0 : 1, 780).chromaticity();
        assertEquals(1 / 3.0, e.x(), 4e-6);
        assertEquals(1 / 3.0, e.y(), 4e-6);
    }

    // Planck sum over the 1 nm table of CIE 1931 with c2 = 1.438776877e-2 (computed apart in
    // double precision); uv of 4000 K agrees with 0.225110 0.334387 of the colour-science tests.
    @ParameterizedTest
    @CsvSource({
        "2700,0.459859,0.410599",
        "3000,0.436931,0.404074",
        "3200,0.423360,0.398952",
        "4000,0.380440,0.376747",
        "5600,0.330198,0.339079",
        "6500,0.313526,0.323628",
        "10000,0.280634,0.288288"
    })
    void planckianLocus(double kelvin, double x, double y) {
        Chromaticity c = Planck.chromaticity(kelvin);
        assertEquals(x, c.x(), 2e-5);
        assertEquals(y, c.y(), 2e-5);
    }

    @Test
    void planckPeaksWhereWienSays() {
        // Wien's displacement: 2.897771955e-3 m K / T (CODATA 2018); 5600 K peaks at 517.46 nm.
        double best = 0;
        for (double nm = 400; nm < 700; nm += 0.01) {
            if (Planck.spectrum(nm, 5600) > Planck.spectrum(best == 0 ? 400 : best, 5600)) {
                best = nm;
            }
        }
        assertEquals(2.897771955e-3 / 5600 * 1e9, best, 0.02);
    }

    @Test
    void temperaturesOutOfRangeAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> Planck.chromaticity(999));
        assertThrows(IllegalArgumentException.class, () -> Planck.chromaticity(25001));
        assertThrows(IllegalArgumentException.class, () -> Planck.chromaticity(Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> Daylight.chromaticity(3999));
    }

    // colour-science test_cie_d.py: xy(4000) and xy(7000).
    @ParameterizedTest
    @CsvSource({"4000,0.3823436,0.3837663", "7000,0.3053574,0.3216463"})
    void daylightLocus(double kelvin, double x, double y) {
        assertEquals(x, Daylight.chromaticity(kelvin).x(), 1e-7);
        assertEquals(y, Daylight.chromaticity(kelvin).y(), 1e-7);
    }

    // Ohno's examples as in colour-science test_ohno2013.py: uv to kelvin and Duv, 1 K.
    @ParameterizedTest
    @CsvSource({"0.1978,0.3122,6507.47,0.003223", "0.2927,0.2722,2444.97,-0.084371"})
    void colourTemperatureOfKnownPoints(double u, double v, double kelvin, double duv) {
        ColourTemperature t = ColourTemperature.of(Chromaticity.ofUv1960(u, v));
        assertEquals(kelvin, t.kelvin(), 1);
        assertEquals(duv, t.duv(), 5e-6);
    }

    @ParameterizedTest
    @CsvSource({"1000", "1500", "2700", "3000", "4321", "5600", "9000", "25000"})
    void colourTemperatureUndoesPlanck(double kelvin) {
        ColourTemperature t = ColourTemperature.of(Planck.chromaticity(kelvin));
        assertEquals(Mired.of(kelvin), Mired.of(t.kelvin()), 1e-3);
        assertEquals(0, t.duv(), 1e-7);
    }

    @Test
    void daylightIsAboveTheLocus() {
        // Computed apart by a nearest-point search: 5599.3 K, Duv +0.0033.
        ColourTemperature t = ColourTemperature.of(Daylight.chromaticity(5600));
        assertEquals(5599.3, t.kelvin(), 1);
        assertEquals(0.0033, t.duv(), 5e-5);
    }

    @Test
    void mired() {
        assertEquals(-154.76, Mired.shift(3000, 5600), 0.005);
        assertEquals(3000, Mired.kelvin(Mired.of(3000)), 1e-9);
    }

    @Test
    void bradfordMatrix() {
        // D65 to D50, computed apart from the published cone matrix; ICC profiles carry 1.0479
        // 0.0229 -0.0502 / 0.0296 0.9904 -0.0171 / -0.0092 0.0151 0.7519.
        double[][] m = Bradford.matrix(Chromaticity.D65, new Chromaticity(0.3457, 0.3585));
        assertArrayEquals(new double[] {1.0479298, 0.0229469, -0.0501923}, m[0], 1e-6);
        assertArrayEquals(new double[] {0.0296278, 0.9904344, -0.0170738}, m[1], 1e-6);
        assertArrayEquals(new double[] {-0.0092430, 0.0150552, 0.7518743}, m[2], 1e-6);
    }

    @Test
    void srgbMatrixAndCurve() {
        // IEC 61966-2-1 prints 3.2406 -1.5372 -0.4986 / -0.9689 1.8758 0.0415 / 0.0557 -0.2040
        // 1.0570, rounded.
        double[][] m = Srgb.matrixFromXyz();
        assertArrayEquals(new double[] {3.2406, -1.5372, -0.4986}, m[0], 5e-4);
        assertArrayEquals(new double[] {-0.9689, 1.8758, 0.0415}, m[1], 5e-4);
        assertArrayEquals(new double[] {0.0557, -0.2040, 1.0570}, m[2], 1e-4);
        assertArrayEquals(new double[] {1, 1, 1}, Srgb.linear(Chromaticity.D65.toXyz(1)), 1e-12);
        assertEquals(118, Srgb.encode8(0.18));
        assertEquals(188, Srgb.encode8(0.5));
        assertEquals(255, Srgb.encode8(1));
        assertEquals(0, Srgb.encode8(-1));
        for (int code = 0; code < 256; code++) {
            assertEquals(code, Srgb.encode8(Srgb.decode(code / 255.0)));
        }
    }

    // Bradford to D65 and sRGB, computed apart in Python and with the colorjs.io package.
    @ParameterizedTest
    @CsvSource({
        "5600,3000,0.39326,1.11337,2.74872",
        "5600,3200,0.48044,1.09483,2.39970",
        "4300,3000,0.59665,1.08749,1.95948",
        "2700,3000,1.15221,0.95914,0.76915",
        "3000,5600,1.62490,0.87189,0.31886",
        "3000,3000,1,1,1"
    })
    void lightSeenByACameraSetToAnotherTemperature(
            double light, double camera, double r, double g, double b) {
        double[] rgb = new WhiteBalance(camera).linearSrgb(Planck.chromaticity(light).toXyz(1));
        assertArrayEquals(new double[] {r, g, b}, rgb, 6e-5);
    }

    @Test
    void greyCardUnderColdLight() {
        // 5600 K seen at 3000 K, a grey card at the right exposure: 72 119 180 (computed apart).
        Xyz adapted =
                Bradford.adapt(
                        Planck.chromaticity(5600).toXyz(1),
                        Planck.chromaticity(3000),
                        Chromaticity.D65);
        double[] rgb = Srgb.linear(adapted.times(0.18 / adapted.y()));
        assertEquals(72, Srgb.encode8(rgb[0]));
        assertEquals(119, Srgb.encode8(rgb[1]));
        assertEquals(180, Srgb.encode8(rgb[2]));
    }

    // Sharma, Wu and Dalal 2005, table 1, all 34 pairs, chosen there because faulty programs miss
    // them (typed from memory; scikit-image's deltaE_ciede2000 gives the same for every one).
    @ParameterizedTest
    @CsvSource({
        "50,2.6772,-79.7751,50,0,-82.7485,2.0425",
        "50,3.1571,-77.2803,50,0,-82.7485,2.8615",
        "50,2.8361,-74.0200,50,0,-82.7485,3.4412",
        "50,-1.3802,-84.2814,50,0,-82.7485,1.0000",
        "50,-1.1848,-84.8006,50,0,-82.7485,1.0000",
        "50,-0.9009,-85.5211,50,0,-82.7485,1.0000",
        "50,0,0,50,-1,2,2.3669",
        "50,-1,2,50,0,0,2.3669",
        "50,2.4900,-0.0010,50,-2.4900,0.0009,7.1792",
        "50,2.4900,-0.0010,50,-2.4900,0.0010,7.1792",
        "50,2.4900,-0.0010,50,-2.4900,0.0011,7.2195",
        "50,2.4900,-0.0010,50,-2.4900,0.0012,7.2195",
        "50,-0.0010,2.4900,50,0.0009,-2.4900,4.8045",
        "50,-0.0010,2.4900,50,0.0010,-2.4900,4.8045",
        "50,-0.0010,2.4900,50,0.0011,-2.4900,4.7461",
        "50,2.5,0,50,0,-2.5,4.3065",
        "50,2.5,0,73,25,-18,27.1492",
        "50,2.5,0,61,-5,29,22.8977",
        "50,2.5,0,56,-27,-3,31.9030",
        "50,2.5,0,58,24,15,19.4535",
        "50,2.5,0,50,3.1736,0.5854,1.0000",
        "50,2.5,0,50,3.2972,0,1.0000",
        "50,2.5,0,50,1.8634,0.5757,1.0000",
        "50,2.5,0,50,3.2592,0.3350,1.0000",
        "60.2574,-34.0099,36.2677,60.4626,-34.1751,39.4387,1.2644",
        "63.0109,-31.0961,-5.8663,62.8187,-29.7946,-4.0864,1.2630",
        "61.2901,3.7196,-5.3901,61.4292,2.2480,-4.9620,1.8731",
        "35.0831,-44.1164,3.7933,35.0232,-40.0716,1.5901,1.8645",
        "22.7233,20.0904,-46.6940,23.0331,14.9730,-42.5619,2.0373",
        "36.4612,47.8580,18.3852,36.2715,50.5065,21.2231,1.4146",
        "90.8027,-2.0831,1.4410,91.1528,-1.6435,0.0447,1.4441",
        "90.9257,-0.5406,-0.9208,88.6381,-0.8985,-0.7239,1.5381",
        "6.7747,-0.2908,-2.4247,5.8714,-0.0985,-2.2286,0.6377",
        "2.0776,0.0795,-1.1350,0.9033,-0.0636,-0.5514,0.9082"
    })
    void ciede2000(
            double l1, double a1, double b1, double l2, double a2, double b2, double expected) {
        assertEquals(
                expected, Ciede2000.difference(new Lab(l1, a1, b1), new Lab(l2, a2, b2)), 5.1e-5);
    }

    @Test
    void labOfWhiteAndOfTheGreyCard() {
        // CIE 15:2004: white is 100 0 0; Y 0.18 is L* 116 cbrt(0.18) - 16 = 49.496.
        Lab white = Lab.of(Chromaticity.D65.toXyz(1), Chromaticity.D65);
        assertEquals(100, white.lightness(), 1e-9);
        assertEquals(0, Math.hypot(white.a(), white.b()), 1e-9);
        assertEquals(
                49.496, Lab.of(Chromaticity.D65.toXyz(0.18), Chromaticity.D65).lightness(), 1e-3);
    }
}

package lookstep.simulator.model.optics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OpticsTest {
    // Exposure values and lux for C = 250: EV 0 2.5 lx, 10 2560 lx, 15 81 920 lx (full sun).
    @ParameterizedTest
    @CsvSource({"2.5,0", "320,7", "2560,10", "81920,15", "2000,9.644"})
    void ev100(double lux, double ev) {
        assertEquals(ev, Exposure.ev100(lux), 5e-4);
        assertEquals(lux, Exposure.lux(ev), lux * 4e-4);
    }

    // ISO 2720 with C = 250 and the exact f-number: one over the time.
    @ParameterizedTest
    @CsvSource({
        "2000,1600,8,200",
        "2000,800,5.6,200",
        "2000,3200,8,400",
        "1000,1600,8,100",
        "500,1600,2.8,400",
        "800,3200,5.6,320",
        "1500,3200,11,150",
        "2000,6400,11,400"
    })
    void meteredTime(double lux, double iso, double nominalF, double overTime) {
        double seconds = Exposure.seconds(lux, iso, Scales.exactFNumber(nominalF));
        assertEquals(overTime, 1 / seconds, 0.01);
    }

    @Test
    void aWhiteCardAtTheMeteredExposureIsOne() {
        double t = Exposure.seconds(777, 640, 4.5);
        assertEquals(1, 777 * Exposure.scale(4.5, t, 640), 1e-12);
        Camera camera = new Camera(new Vec3(0, -4, 1.4), new Vec3(0, 0, 1), 50, 4.5, t, 640, 3000);
        assertEquals(0, Exposure.stopsOver(777, camera), 1e-12);
        assertEquals(1, Exposure.stopsOver(2 * 777, camera), 1e-12);
        assertEquals(-1, Exposure.stopsOver(777, camera.withExposure(4.5, t / 2, 640)), 1e-12);
    }

    // Nominal and exact, third stops: 5.6 is 5.656854, 11 is 11.313708; 1/60 is 1/64, 1/125 is
    // 1/128; ISO 640 is 634.960.
    @Test
    void scalesKnowNominalAndExact() {
        assertEquals(5.656854, Scales.exactFNumber(5.6), 1e-6);
        assertEquals(11.313708, Scales.exactFNumber(11), 1e-6);
        assertEquals(12.699208, Scales.exactFNumber(13), 1e-6);
        assertEquals(1 / 64.0, Scales.exactSeconds(1 / 60.0), 1e-12);
        assertEquals(1 / 128.0, Scales.exactSeconds(1 / 125.0), 1e-12);
        assertEquals(0.31498026, Scales.exactSeconds(0.3), 1e-8);
        assertEquals(634.960, Scales.exactIso(640), 1e-3);
        assertEquals(51200, Scales.exactIso(51200), 1e-6);
        assertEquals(1 / 55.0, Scales.exactSeconds(1 / 55.0), 0);
        assertEquals(31, Scales.fNumbers().size());
        assertEquals(55, Scales.times().size());
        assertEquals(31, Scales.isos().size());
    }

    @Test
    void everyMarkIsNearItsExactValue() {
        for (Scales.Mark m : Scales.fNumbers()) {
            assertEquals(0, 2 * Math.log(m.nominal() / m.exact()) / Math.log(2), 0.15, m.text());
            assertEquals(m.exact(), Scales.exactFNumber(m.nominal()), 1e-9);
        }
        for (Scales.Mark m : Scales.times()) {
            assertEquals(0, Math.log(m.nominal() / m.exact()) / Math.log(2), 0.15, m.text());
            assertEquals(m.exact(), Scales.exactSeconds(m.nominal()), 1e-9);
        }
        for (Scales.Mark m : Scales.isos()) {
            assertEquals(0, Math.log(m.nominal() / m.exact()) / Math.log(2), 0.15, m.text());
            assertEquals(m.exact(), Scales.exactIso(m.nominal()), 1e-6);
        }
    }

    @Test
    void scalesFormatAsPhotographersWrite() {
        assertEquals("f/5.6", Scales.formatFNumber(5.656854));
        assertEquals("1/125 s", Scales.formatTime(1 / 128.0));
        assertEquals("1/2 s", Scales.formatTime(0.5));
        assertEquals("2 s", Scales.formatTime(2));
        assertEquals("ISO 640", Scales.formatIso(634.96));
        assertEquals("+1.3", Scales.formatStops(1.33));
        assertEquals("-2", Scales.formatStops(-2));
        assertEquals("0", Scales.formatStops(-0.01));
    }

    @Test
    void hyperfocalDistance() {
        // 50 mm, f/8, c 0.03: 10 467 mm as printed by calculators9.com.
        assertEquals(10.467, DepthOfField.hyperfocalMetres(50, 8, 0.03), 5e-4);
    }

    // Thin lens, c 0.030, nominal f-numbers; computed apart.
    @ParameterizedTest
    @CsvSource({
        "35,2.8,2.5,2.139,3.009",
        "35,5.6,3,2.133,5.056",
        "50,4,3,2.628,3.495",
        "50,8,4,2.900,6.443",
        "50,11,5,3.024,14.43"
    })
    void nearAndFar(double focal, double n, double focus, double near, double far) {
        DepthOfField d = DepthOfField.of(focal, n, focus, 0.030);
        assertEquals(near, d.nearMetres(), 1e-3);
        assertEquals(far, d.farMetres(), far > 10 ? 6e-3 : 1e-3);
    }

    @Test
    void beyondTheHyperfocalDistanceAllIsSharp() {
        assertEquals(Double.POSITIVE_INFINITY, DepthOfField.of(35, 11, 4, 0.030).farMetres(), 0);
    }

    // 50 mm, front row at 3 m, focus left on the nearest face, c 0.020.
    @ParameterizedTest
    @CsvSource({"0.15,2.02", "0.3,3.85", "0.6,7.06", "0.9,9.78", "1.2,12.11"})
    void fNumberForAGroup(double depth, double expected) {
        double n =
                DepthOfField.fNumberFocusOnNearest(
                        50, 3, depth, DepthOfField.DEFAULT_CIRCLE_MILLIMETRES);
        assertEquals(expected, n, 5e-3);
        assertEquals(3 + depth, DepthOfField.of(50, n, 3, 0.020).farMetres(), 1e-9);
    }

    @Test
    void bestFocusNeedsAboutHalfTheFNumber() {
        // 50 mm, 3 m, depth 1 m, c 0.030: focus 3.4286 m, N 3.5236; back to 3 and 4 m exactly.
        double focus = DepthOfField.bestFocusMetres(3, 1);
        double n = DepthOfField.fNumberBestFocus(50, 3, 1, 0.030);
        assertEquals(3.4286, focus, 5e-5);
        assertEquals(3.5236, n, 5e-5);
        DepthOfField d = DepthOfField.of(50, n, focus, 0.030);
        assertEquals(3, d.nearMetres(), 1e-9);
        assertEquals(4, d.farMetres(), 1e-9);
        assertTrue(DepthOfField.fNumberFocusOnNearest(50, 3, 1, 0.030) > 1.9 * n);
    }

    @Test
    void exactCameraReplacesDialValues() {
        Camera c =
                new Camera(new Vec3(0, -4, 1), new Vec3(0, 0, 1), 50, 5.6, 1 / 125.0, 640, 3000)
                        .exact();
        assertEquals(5.656854, c.fNumber(), 1e-6);
        assertEquals(1 / 128.0, c.seconds(), 1e-12);
        assertEquals(634.960, c.iso(), 1e-3);
    }

    /**
     * At the limits of the depth of field the disc is just the circle of confusion. Limits of the
     * usual tables for c = 0.030 mm and nominal f-numbers, computed apart.
     */
    @ParameterizedTest
    @CsvSource({
        "35, 2.8, 2.5, 2.139, 3.009",
        "35, 5.6, 4, 2.591, 8.768",
        "50, 4, 3, 2.628, 3.495",
        "50, 8, 3, 2.338, 4.185",
        "50, 11, 5, 3.024, 14.43"
    })
    void theDiscAtTheLimitsIsTheCircle(double f, double n, double s, double near, double far) {
        assertEquals(-0.030, DepthOfField.discMillimetres(f, n, s, near), 0.0001);
        assertEquals(0.030, DepthOfField.discMillimetres(f, n, s, far), 0.0001);
        assertEquals(0, DepthOfField.discMillimetres(f, n, s, s), 1e-12);
    }

    /** Focused far away, a point at the hyperfocal distance f^2 / (N c) is blurred by c. */
    @Test
    void focusedAtInfinityTheHyperfocalDistanceIsTheLimit() {
        assertEquals(
                -0.030,
                DepthOfField.discMillimetres(50, 8, Double.POSITIVE_INFINITY, 2.5 / (8 * 0.030)),
                1e-9);
    }

    /** 0.020 x 1 / 1.534 for 23.5 x 15.6 mm; a half for 17.3 x 13 mm. */
    @Test
    void theCircleGoesWithTheDiagonal() {
        assertEquals(0.020, DepthOfField.circleMillimetres(36, 24), 1e-12);
        assertEquals(0.01304, DepthOfField.circleMillimetres(23.5, 15.6), 0.00001);
        assertEquals(0.0100, DepthOfField.circleMillimetres(17.3, 13), 0.00001);
    }

    @Test
    void refusesWhatNoCameraIs() {
        Camera camera = new Camera(new Vec3(0, -4, 1), new Vec3(0, 0, 1), 50, 8, 0.01, 100, 4000);
        assertThrows(IllegalArgumentException.class, () -> camera.focused(0.05));
        assertThrows(IllegalArgumentException.class, () -> camera.withSensor(24, 36));
        assertEquals(4, camera.focusedOn(new Vec3(2, 0, 0)).focusMetres(), 1e-12);
    }
}

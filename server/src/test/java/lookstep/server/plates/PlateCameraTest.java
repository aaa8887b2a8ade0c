package lookstep.server.plates;

import static org.junit.jupiter.api.Assertions.assertEquals;

import lookstep.server.plan.CameraSettings;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PlateCameraTest {
    /** Thirds of a stop as they stand on the dials: ISO 12232 and common practice. */
    @ParameterizedTest
    @CsvSource({
        // enough light, or less than a stop: nothing is touched
        "0.01, 800, 0, 0.01, 800",
        "0.01, 800, 0.9, 0.01, 800",
        "0.01, 800, -2, 0.01, 800",
        // one stop: 1/100 to 1/50
        "0.01, 800, 1, 0.02, 800",
        // 1/100 to 1/30 is a stop and two thirds, and the rest is by ISO
        "0.01, 800, 3, 0.0333333, 2000",
        // no more than two stops of ISO
        "0.01, 800, 9, 0.0333333, 3200",
        // a look that is longer than that already
        "0.1, 800, 1, 0.1, 1600"
    })
    void firstTheTimeThenTheIso(
            double seconds, double iso, double stops, double longer, double more) {
        CameraSettings set = PlateCamera.longer(new CameraSettings(8, seconds, iso, 4300), stops);
        assertEquals(longer, set.seconds(), 1e-3 * longer);
        assertEquals(more, set.iso());
        assertEquals(8, set.fNumber());
        assertEquals(4300, set.kelvin());
    }
}

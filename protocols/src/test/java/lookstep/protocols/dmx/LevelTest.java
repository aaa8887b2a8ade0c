package lookstep.protocols.dmx;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class LevelTest {
    @ParameterizedTest
    @CsvSource({
        // fraction x 255 and x 65535, to the nearest
        "0,      0,     0",
        "0.5,    128,   32768",
        "0.25,   64,    16384",
        "0.001,  0,     66",
        "0.0019, 0,     125",
        "0.002,  1,     131",
        "0.998,  254,   65404",
        "1,      255,   65535",
    })
    void isTheNearestCode(double fraction, int eight, int sixteen) {
        assertEquals(eight, Level.eightBit(fraction));
        assertEquals(sixteen, Level.sixteenBit(fraction));
    }

    @ParameterizedTest
    @ValueSource(doubles = {-1e-9, 1.000001, Double.NaN, Double.POSITIVE_INFINITY})
    void refusesWhatIsNoFraction(double fraction) {
        assertThrows(IllegalArgumentException.class, () -> Level.eightBit(fraction));
        assertThrows(IllegalArgumentException.class, () -> Level.sixteenBit(fraction));
    }

    @ParameterizedTest
    @CsvSource({"0, 0, 0", "255, 0, 255", "256, 1, 0", "4660, 18, 52", "65535, 255, 255"})
    void coarseComesFirst(int level, int coarse, int fine) {
        assertEquals(coarse, CoarseFine.coarse(level));
        assertEquals(fine, CoarseFine.fine(level));
        assertEquals(level, CoarseFine.join(coarse, fine));
    }

    @Test
    void coarseAndFineRefuseWhatDoesNotFit() {
        assertThrows(IllegalArgumentException.class, () -> CoarseFine.coarse(65536));
        assertThrows(IllegalArgumentException.class, () -> CoarseFine.fine(-1));
        assertThrows(IllegalArgumentException.class, () -> CoarseFine.join(256, 0));
        assertThrows(IllegalArgumentException.class, () -> CoarseFine.join(0, -1));
    }
}

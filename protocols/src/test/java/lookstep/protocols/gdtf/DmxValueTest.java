package lookstep.protocols.gdtf;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class DmxValueTest {
    /**
     * The first two rows are the examples of GDTF 1.2, table 1. The others follow from its words:
     * mirroring writes the octets over and over, shifting puts zeros behind them. How to narrow is
     * not said there; the most significant octets are taken.
     */
    @ParameterizedTest
    @CsvSource({
        "255/1,        2, 65535", // 0xFF -> 0xFFFF
        "255/1s,       2, 65280", // 0xFF -> 0xFF00
        "128/1,        2, 32896", // 0x80 -> 0x8080
        "128/1s,       2, 32768", // 0x80 -> 0x8000
        "128/1,        3, 8421504", // 0x808080
        "4660/2,       3, 1192978", // 0x1234 -> 0x123412
        "4660/2s,      3, 1192960", // 0x1234 -> 0x123400
        "4660/2,       4, 305402420", // 0x12341234
        "32768/2,      2, 32768",
        "32768/2,      1, 128", // 0x8000 -> 0x80
        "4660/2s,      1, 18", // 0x1234 -> 0x12
        "4294967295/4, 2, 65535",
        "0/1,          4, 0",
        "' 7/1 ',      1, 7",
    })
    void valuesInWiderAndNarrowerChannels(String text, int octets, long expected) {
        assertEquals(expected, DmxValue.of(text).orElseThrow().in(octets));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "None",
                "255",
                "256/1",
                "-1/1",
                "1/0",
                "1/5",
                "1/1x",
                "1/1S",
                "1.5/1",
                "/1",
                "65536/2",
                "99999999999999999999/4",
                "NaN/1",
                "1/1/1",
                "0x10/1"
            })
    void whatIsNoValue(String text) {
        assertEquals(Optional.empty(), DmxValue.of(text));
    }

    @Test
    void noneIsMadeThatCannotBe() {
        assertThrows(IllegalArgumentException.class, () -> new DmxValue(256, 1, false));
        assertThrows(IllegalArgumentException.class, () -> new DmxValue(-1, 1, false));
        assertThrows(IllegalArgumentException.class, () -> new DmxValue(0, 5, false));
    }
}

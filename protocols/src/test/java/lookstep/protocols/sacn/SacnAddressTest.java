package lookstep.protocols.sacn;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** ANSI E1.31-2018, clauses 9.1.1 and 9.3.1: 239.255, then the universe, high octet first. */
class SacnAddressTest {
    @ParameterizedTest
    @CsvSource({
        "1, 239.255.0.1",
        "255, 239.255.0.255",
        "256, 239.255.1.0",
        "7962, 239.255.31.26",
        "63999, 239.255.249.255",
        "64214, 239.255.250.214"
    })
    void everyUniverseHasItsGroup(int universe, String group) {
        assertEquals(group, SacnAddress.group(universe).getAddress().getHostAddress());
        assertEquals(5568, SacnAddress.group(universe).getPort());
    }

    @ParameterizedTest
    @ValueSource(ints = {-1, 0, 64_000, 64_213, 64_215, 65_535, 65_536})
    void otherNumbersHaveNone(int universe) {
        assertThrows(IllegalArgumentException.class, () -> SacnAddress.group(universe));
    }

    @Test
    void discoveryIsNoUniverseForLevels() {
        assertTrue(SacnAddress.isUniverse(1));
        assertTrue(SacnAddress.isUniverse(63_999));
        assertFalse(SacnAddress.isUniverse(0));
        assertFalse(SacnAddress.isUniverse(SacnAddress.DISCOVERY_UNIVERSE));
        assertThrows(
                IllegalArgumentException.class,
                () -> SacnAddress.requireUniverse(64_214, "universe"));
    }

    /** Clause 6.7.2: discarded if, as a signed octet, new minus last is above -20 and at most 0. */
    @ParameterizedTest
    @CsvSource({
        "10, 11, true",
        "10, 10, false",
        "10, 9, false",
        "30, 11, false",
        "30, 10, true",
        "255, 0, true",
        "0, 255, false",
        "0, 237, false",
        "0, 236, true",
        "0, 127, true",
        "0, 128, true"
    })
    void latePacketsAreTold(int last, int came, boolean accepted) {
        assertEquals(accepted, SacnSequence.accepts(last, came));
    }

    @Test
    void sequencesWrap() {
        assertEquals(1, SacnSequence.next(0));
        assertEquals(0, SacnSequence.next(255));
    }
}

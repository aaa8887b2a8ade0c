package lookstep.protocols.dmx;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Limits for a sender, ANSI E1.11-2008 (R2018), via the esp_dmx library's header. */
class DmxTimingTest {
    @ParameterizedTest
    @CsvSource({
        // break, mark after break, period: each at a limit, then one nanosecond beyond it
        "   92000,    12000,    1204000, true",
        "   91999,    12000,    1204000, false",
        "   92000,    11999,    1204000, false",
        "   92000,    12000,    1203999, false",
        "   92000,    12000, 1000000000, true",
        "   92000,    12000, 1000000001, false",
        "   92000, 999907999, 1000000000, true",
        "   92000, 1000000000, 1000000000, false",
        // nothing is left for the packet
        " 1000000,   204000,    1204000, false",
        "  999999,   204000,    1204000, true",
        "9223372036854775807, 12000, 1204000, false",
    })
    void holdsTheLimits(long breakNanos, long markNanos, long periodNanos, boolean legal) {
        if (legal) {
            assertEquals(
                    periodNanos, new DmxTiming(breakNanos, markNanos, periodNanos).periodNanos());
        } else {
            assertThrows(
                    IllegalArgumentException.class,
                    () -> new DmxTiming(breakNanos, markNanos, periodNanos));
        }
    }

    @Test
    void shortestPacketOfTheStandardIsFilledBy24Slots() {
        // 1204 us = 92 + 12 + 25 x 44: the standard's own figures agree with each other
        DmxTiming shortest = new DmxTiming(92_000, 12_000, 1_204_000);
        assertTrue(shortest.fits(24));
        assertFalse(shortest.fits(25));
    }

    @Test
    void wireTimeIs44MicrosecondsForEachOctet() {
        assertEquals(44_000, DmxTiming.wireNanos(0));
        assertEquals(22_572_000, DmxTiming.wireNanos(512));
        // the fastest that 512 slots can be refreshed: 44.1 a second in the trade's words
        assertEquals(44.099, 1e9 / (92_000 + 12_000 + DmxTiming.wireNanos(512)), 0.001);
        assertThrows(IllegalArgumentException.class, () -> DmxTiming.wireNanos(513));
        assertThrows(IllegalArgumentException.class, () -> DmxTiming.wireNanos(-1));
    }

    @Test
    void steadyLeavesRoomForTwoSlowBreakRequests() {
        DmxTiming steady = DmxTiming.STEADY;
        assertTrue(steady.fits(512));
        long used = steady.breakNanos() + steady.markAfterBreakNanos() + DmxTiming.wireNanos(512);
        assertTrue(steady.periodNanos() - used > 2 * 1_000_000);
        assertEquals(33.3, 1e9 / steady.periodNanos(), 0.05);
    }
}

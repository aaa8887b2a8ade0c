package lookstep.simulator.gear;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lookstep.protocols.fixture.DimmingCurve;
import lookstep.protocols.fixture.Emitter;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.Mode;
import lookstep.protocols.wire.Line;
import lookstep.protocols.wire.LineLostException;
import lookstep.protocols.wire.MemoryLine;
import lookstep.simulator.model.colour.Xyz;
import org.junit.jupiter.api.Test;

/**
 * Bytes are laid out by hand after ANSI E1.11: START code 00, then slot 1, slot 2 ... Expected
 * tristimulus values follow from the definition of chromaticity, X = Y x/y and Z = Y (1-x-y)/y,
 * with numbers that come out even.
 */
class LightListenerTest {
    /** 1000 cd of each: the first gives X 2000, Y 1000, Z 1000; the second 500, 1000, 500. */
    private static final Fixture PAIR =
            new Fixture(
                    "pair",
                    "two emitters",
                    List.of(
                            new Emitter("one", 0.50, 0.25, 1000),
                            new Emitter("two", 0.25, 0.50, 1000)),
                    DimmingCurve.LINEAR,
                    60,
                    50,
                    List.of(
                            new Mode(
                                    "fine",
                                    List.of(
                                            new Mode.Channel.Emitter(0, 2),
                                            new Mode.Channel.Emitter(1, 2))),
                            new Mode(
                                    "dimmer",
                                    List.of(
                                            new Mode.Channel.Dimmer(1),
                                            new Mode.Channel.Emitter(0, 1),
                                            new Mode.Channel.Emitter(1, 1)))));

    private static final Fixture SQUARE =
            new Fixture(
                    "square",
                    "one emitter",
                    List.of(new Emitter("white", 0.50, 0.25, 65025)),
                    DimmingCurve.SQUARE,
                    60,
                    50,
                    List.of(new Mode("8-bit", List.of(new Mode.Channel.Dimmer(1)))));

    private static final List<PatchedLight> PATCH =
            List.of(
                    new PatchedLight("key", PAIR, PAIR.modes().get(0), 2),
                    new PatchedLight("rim", PAIR, PAIR.modes().get(1), 7),
                    new PatchedLight("last", SQUARE, SQUARE.modes().get(0), 512));

    private static byte[] golden() {
        byte[] octets = new byte[513];
        octets[0] = 0x00; // START code NULL: levels
        octets[1] = (byte) 0xFF; // slot 1: nobody listens
        octets[2] = (byte) 0x80; // slot 2, key: emitter one, coarse: 0x8000 of 0xFFFF
        octets[3] = 0x00; // slot 3, key: emitter one, fine
        octets[4] = (byte) 0xFF; // slot 4, key: emitter two, coarse: full
        octets[5] = (byte) 0xFF; // slot 5, key: emitter two, fine
        octets[6] = 0x55; // slot 6: nobody listens
        octets[7] = 0x33; // slot 7, rim: dimmer, 51 of 255 is a fifth
        octets[8] = (byte) 0xFF; // slot 8, rim: emitter one, full
        octets[9] = 0x00; // slot 9, rim: emitter two, off
        octets[512] = 0x0C; // slot 512, last: code 12; by the square 144 of 65025
        return octets;
    }

    private static void assertXyz(double x, double y, double z, Xyz is) {
        assertEquals(x, is.x(), 1e-6);
        assertEquals(y, is.y(), 1e-6);
        assertEquals(z, is.z(), 1e-6);
    }

    private static void assertGolden(LightSnapshot look) {
        double half = 32768 / 65535.0;
        assertEquals(List.of("key", "rim", "last"), List.copyOf(look.intensities().keySet()));
        assertXyz(
                2000 * half + 500,
                1000 * half + 1000,
                1000 * half + 500,
                look.intensities().get("key"));
        assertXyz(400, 200, 200, look.intensities().get("rim"));
        assertXyz(288, 144, 144, look.intensities().get("last"));
    }

    private static void assertDark(LightSnapshot look) {
        look.intensities().values().forEach(one -> assertXyz(0, 0, 0, one));
        assertEquals(3, look.intensities().size());
    }

    @Test
    void readsEveryLightFromOnePacket() {
        LightListener lights = LightListener.byLength(PATCH);
        assertDark(lights.snapshot());
        assertEquals(0, lights.snapshot().packets());
        lights.bytes(golden(), 0, 513, 0);
        assertGolden(lights.snapshot());
        assertEquals(1, lights.snapshot().packets());
        byte[] slots = lights.lastSlots();
        assertEquals(512, slots.length);
        assertEquals(0x33, slots[6]);
        assertEquals(0x0C, slots[511]);
    }

    @Test
    void theLookNeverChangesByHalfAPacket() {
        byte[] octets = golden();
        for (int cut = 1; cut < 513; cut++) {
            LightListener lights = LightListener.byLength(PATCH);
            LightSnapshot before = lights.snapshot();
            lights.bytes(octets, 0, cut, 0);
            assertSame(before, lights.snapshot(), "cut at " + cut);
            lights.bytes(octets, cut, 513, 1);
            assertGolden(lights.snapshot());
        }
    }

    @Test
    void listensBehindALineInMemory() throws LineLostException {
        LightListener lights = LightListener.byBreak(PATCH);
        long[] now = {0};
        MemoryLine port = new MemoryLine("memory", lights.behind(() -> now[0]));
        try (Line line = port.open()) {
            line.startBreak();
            line.endBreak();
            line.write(golden());
            assertGolden(lights.snapshot());
            now[0] = 100;
            line.startBreak();
            line.endBreak();
            line.write(new byte[513]);
            assertDark(lights.snapshot());
        }
        assertFalse(lights.dataLost(100 + LightListener.LOST_NANOS));
        assertTrue(lights.dataLost(100 + LightListener.LOST_NANOS + 1));
    }

    @Test
    void otherStartCodesAreNoLevels() {
        LightListener lights = LightListener.byLength(PATCH);
        lights.bytes(golden(), 0, 513, 0);
        byte[] test = new byte[513];
        java.util.Arrays.fill(test, (byte) 0x55); // the test packet: START code and slots 55
        lights.bytes(test, 0, 513, 5);
        assertGolden(lights.snapshot());
        assertEquals(1, lights.snapshot().packets());
    }

    @Test
    void aShortPacketLeavesTheOtherSlots() {
        LightListener lights = LightListener.byBreak(PATCH);
        lights.breakSeen(0);
        lights.bytes(golden(), 0, 513, 0);
        lights.breakSeen(1);
        lights.bytes(new byte[10], 0, 10, 1); // START code and slots 1 to 9 at 0
        lights.breakSeen(2);
        LightSnapshot look = lights.snapshot();
        assertXyz(0, 0, 0, look.intensities().get("key"));
        assertXyz(0, 0, 0, look.intensities().get("rim"));
        assertXyz(288, 144, 144, look.intensities().get("last"));
    }

    /** 1.25 s: the receive timeout of ANSI E1.11-2008 (R2018), via the esp_dmx library. */
    @Test
    void silenceIsLostDataAfterOneAndAQuarterSecondsAndTheLookIsHeld() {
        LightListener lights = LightListener.byLength(PATCH);
        assertFalse(lights.dataLost(Long.MAX_VALUE / 2));
        long came = Long.MAX_VALUE - 7; // a steady clock may wrap
        lights.bytes(golden(), 0, 513, came);
        assertFalse(lights.dataLost(came + 1_250_000_000L));
        assertTrue(lights.dataLost(came + 1_250_000_001L));
        assertGolden(lights.snapshot());
        lights.bytes(golden(), 0, 513, came + 2_000_000_000L);
        assertFalse(lights.dataLost(came + 3_250_000_000L));
    }

    @Test
    void troubleOnTheLineIsNotedAndBounded() {
        LightListener lights = LightListener.byLength(PATCH);
        assertEquals(List.of(), lights.troubles());
        for (int i = 0; i < 100; i++) {
            lights.bytes(golden(), 0, 100, i);
            lights.lineQuiet(i);
        }
        assertEquals(20, lights.troubles().size());
        assertTrue(lights.troubles().get(0).contains("100"), lights.troubles().get(0));
        lights.bytes(golden(), 0, 513, 0);
        assertGolden(lights.snapshot());
    }

    @Test
    void aLightThatGoesPastTheLastSlotIsRefused() {
        IllegalArgumentException says =
                assertThrows(
                        IllegalArgumentException.class,
                        () -> new PatchedLight("edge", PAIR, PAIR.modes().get(0), 510));
        assertTrue(says.getMessage().contains("edge: 4 slots from slot 510"), says.getMessage());
        assertThrows(
                IllegalArgumentException.class,
                () -> new PatchedLight("none", PAIR, PAIR.modes().get(0), 0));
    }

    @Test
    void lastSlotsAreACopy() {
        LightListener lights = LightListener.byLength(PATCH);
        lights.lastSlots()[0] = 9;
        assertArrayEquals(new byte[512], lights.lastSlots());
    }
}

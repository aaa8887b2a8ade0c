package lookstep.simulator.gear;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import lookstep.protocols.fixture.DimmingCurve;
import lookstep.protocols.fixture.Emitter;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.Mode;
import org.junit.jupiter.api.Test;

/** Rules: ANSI E1.31-2018, clauses 6.2.3, 6.2.6, 6.7.1, 6.7.2 and 11.1. */
class SacnListenerTest {
    /** 2.5 s: E131_NETWORK_DATA_LOSS_TIMEOUT, appendix A. */
    private static final long LOST = 2_500_000_000L;

    private static final long MS = 1_000_000;

    /** 255 cd when full, so that a slot's level is its candela. */
    private static final Fixture LAMP =
            new Fixture(
                    "lamp",
                    "one emitter",
                    List.of(new Emitter("white", 0.50, 0.25, 255)),
                    DimmingCurve.LINEAR,
                    60,
                    50,
                    List.of(new Mode("8-bit", List.of(new Mode.Channel.Dimmer(1)))));

    private static PatchedLight lamp(String name, int slot) {
        return new PatchedLight(name, LAMP, LAMP.modes().get(0), slot);
    }

    private final SacnListener lights =
            new SacnListener(
                    Map.of(
                            1,
                            List.of(lamp("key", 1), lamp("fill", 512)),
                            63_999,
                            List.of(lamp("rim", 7))));
    private long now = Long.MAX_VALUE - 3 * LOST; // a steady clock may wrap

    private void come(SacnDatagram datagram) {
        lights.received(datagram.octets(), now);
    }

    private void pass(long nanos) {
        now += nanos;
        lights.timePassed(now);
    }

    private double candela(String light) {
        return lights.snapshot().intensities().get(light).y();
    }

    private void assertLook(double key, double fill, double rim) {
        assertEquals(key, candela("key"), 1e-9, "key");
        assertEquals(fill, candela("fill"), 1e-9, "fill");
        assertEquals(rim, candela("rim"), 1e-9, "rim");
    }

    @Test
    void everyUniverseLightsItsOwn() {
        assertEquals(List.of("key", "fill", "rim"), names());
        assertLook(0, 0, 0);
        assertEquals(0, lights.snapshot().packets());
        come(SacnDatagram.data('a', 1, 0, 0).slot(1, 200).slot(512, 17));
        assertLook(200, 17, 0);
        come(SacnDatagram.data('a', 63_999, 0, 0).slot(7, 99));
        assertLook(200, 17, 99);
        // X 2000 and Z 1000 for each Y 1000: the definition of chromaticity at (0.50, 0.25)
        assertEquals(400, lights.snapshot().intensities().get("key").x(), 1e-9);
        assertEquals(2, lights.snapshot().packets());
        assertEquals(17, lights.lastSlots(1)[511]);
        assertEquals(99, lights.lastSlots(63_999)[6]);
        assertEquals(Set.of(1, 63_999), lights.universes());
        assertEquals(List.of(), lights.troubles());
    }

    private List<String> names() {
        return List.copyOf(lights.snapshot().intensities().keySet());
    }

    @Test
    void otherUniversesAndOtherStartCodesAreNotForTheseLights() {
        come(SacnDatagram.data('a', 1, 0, 50));
        LightSnapshot before = lights.snapshot();
        come(SacnDatagram.data('a', 2, 1, 60));
        come(SacnDatagram.data('a', 1, 1, 70).startCode(0xDD));
        assertSame(before, lights.snapshot());
        assertEquals(List.of(), lights.troubles());
        come(SacnDatagram.data('a', 1, 1, 80)); // sequence 1 was that of the other START code
        assertSame(before, lights.snapshot());
        come(SacnDatagram.data('a', 1, 2, 80));
        assertLook(80, 80, 0);
    }

    @Test
    void aPreviewIsNotForLights() {
        come(SacnDatagram.data('a', 1, 0, 50).options(0x80));
        assertLook(0, 0, 0);
        assertEquals(
                List.of("universe 1: 'sender a' sends a preview, which is not for lights"),
                lights.troubles());
    }

    @Test
    void aShortPacketLeavesTheOtherSlots() {
        come(SacnDatagram.data('a', 1, 0, 50));
        come(SacnDatagram.data('a', 1, 1, 90).slots(511));
        assertLook(90, 50, 0);
        come(SacnDatagram.data('a', 1, 2, 10).slots(0));
        assertLook(90, 50, 0);
    }

    @Test
    void latePacketsAreLeftAloneAndASeriesBegunAnewIsNot() {
        come(SacnDatagram.data('a', 1, 100, 50));
        for (int late : new int[] {100, 99, 81}) {
            come(SacnDatagram.data('a', 1, late, 60));
            assertLook(50, 50, 0);
        }
        assertEquals(3, lights.troubles().size());
        assertEquals(
                "universe 1: 'sender a' packet 99 came after packet 100: left alone",
                lights.troubles().get(1));
        come(SacnDatagram.data('a', 1, 80, 70)); // 20 behind: it began anew
        assertLook(70, 70, 0);
        come(SacnDatagram.data('b', 1, 3, 90)); // another sender counts by itself
        assertLook(90, 90, 0);
    }

    @Test
    void theHighestPriorityCountsAndThoseOfItAreMerged() {
        come(SacnDatagram.data('a', 1, 0, 0).slot(1, 10).slot(512, 200));
        come(SacnDatagram.data('b', 1, 0, 0).slot(1, 250).slot(512, 100));
        assertLook(250, 200, 0);
        come(SacnDatagram.data('c', 1, 0, 30).priority(101));
        assertLook(30, 30, 0);
        come(SacnDatagram.data('c', 1, 1, 30).priority(99));
        assertLook(250, 200, 0);
        come(SacnDatagram.data('a', 1, 1, 40).priority(0));
        assertLook(250, 100, 0);
    }

    @Test
    void aSenderThatFallsSilentIsLostAfterTwoAndAHalfSecondsOnThatUniverseAlone() {
        come(SacnDatagram.data('a', 1, 5, 40));
        come(SacnDatagram.data('a', 63_999, 5, 40));
        come(SacnDatagram.data('b', 1, 5, 90).priority(150));
        pass(LOST - 100 * MS);
        come(SacnDatagram.data('a', 1, 6, 41));
        pass(100 * MS);
        assertLook(90, 90, 40);
        assertFalse(lights.dataLost(now));
        pass(1);
        assertLook(41, 41, 40); // the next in priority takes over; where none is, the look is held
        assertTrue(lights.dataLost(63_999, now));
        assertFalse(lights.dataLost(1, now));
        assertTrue(lights.dataLost(now));
        assertEquals(
                List.of(
                        "universe 1: 'sender b' was not heard for 2.5 s",
                        "universe 63999: 'sender a' was not heard for 2.5 s"),
                lights.troubles());
        come(SacnDatagram.data('a', 63_999, 5, 77)); // the same number: its series is forgotten
        assertLook(41, 41, 77);
        assertFalse(lights.dataLost(now));
    }

    @Test
    void beforeTheFirstPacketNothingIsLost() {
        assertFalse(lights.dataLost(now + 10 * LOST));
        assertThrows(IllegalArgumentException.class, () -> lights.dataLost(2, now));
        assertThrows(IllegalArgumentException.class, () -> lights.lastSlots(2));
    }

    @Test
    void lossIsSeenThoughNobodyStepsTheListener() {
        come(SacnDatagram.data('a', 1, 0, 40));
        assertFalse(lights.dataLost(1, now + LOST));
        assertTrue(lights.dataLost(1, now + LOST + 1));
    }

    @Test
    void aSenderThatEndsIsLostAtOnceAndItsLastLevelsAreNotUsed() {
        come(SacnDatagram.data('a', 1, 0, 40));
        come(SacnDatagram.data('b', 1, 0, 90).priority(150));
        for (int i = 1; i <= 3; i++) {
            come(SacnDatagram.data('b', 1, i, 255).priority(150).options(0x40));
            assertLook(40, 40, 0);
        }
        assertFalse(lights.dataLost(1, now));
        come(SacnDatagram.data('a', 1, 1, 255).options(0x40));
        assertLook(40, 40, 0);
        assertTrue(lights.dataLost(1, now));
        assertEquals(List.of(), lights.troubles());
    }

    @Test
    void levelsWaitForTheSynchronisationAndAllUniversesChangeAtOnce() {
        come(SacnDatagram.data('a', 1, 0, 10).synchronised(7));
        assertLook(10, 10, 0); // before the first synchronisation nothing waits
        assertEquals(Set.of(7), lights.syncAddresses());
        come(SacnDatagram.sync('a', 7, 0));
        come(SacnDatagram.data('a', 1, 1, 20).synchronised(7));
        come(SacnDatagram.data('a', 63_999, 0, 20).synchronised(7));
        come(SacnDatagram.data('a', 63_999, 1, 21).synchronised(7)); // the newest counts
        assertLook(10, 10, 0);
        come(SacnDatagram.sync('a', 8, 1)); // another address
        assertLook(10, 10, 0);
        come(SacnDatagram.sync('a', 7, 0)); // came twice
        assertLook(10, 10, 0);
        LightSnapshot before = lights.snapshot();
        come(SacnDatagram.sync('a', 7, 1));
        assertLook(20, 20, 21);
        assertEquals(before.packets() + 2, lights.snapshot().packets());
        LightSnapshot after = lights.snapshot();
        come(SacnDatagram.sync('a', 7, 2)); // nothing waits
        assertSame(after, lights.snapshot());
        assertEquals(
                List.of("synchronisation on universe 7: packet 0 came late or twice: left alone"),
                lights.troubles());
    }

    @Test
    void eachSynchronisationReleasesWhatWaitsForItAlone() {
        come(SacnDatagram.data('a', 1, 0, 10).synchronised(7));
        come(SacnDatagram.data('b', 63_999, 0, 10).synchronised(8));
        come(SacnDatagram.sync('a', 7, 0));
        come(SacnDatagram.sync('b', 8, 0));
        come(SacnDatagram.data('a', 1, 1, 20).synchronised(7));
        come(SacnDatagram.data('b', 63_999, 1, 20).synchronised(8));
        come(SacnDatagram.sync('b', 8, 1));
        assertLook(10, 10, 20);
        come(SacnDatagram.sync('a', 7, 1));
        assertLook(20, 20, 20);
    }

    @Test
    void whenTheSenderHasGoneSynchronisationBeginsAnew() {
        synchronised(0);
        pass(LOST + 1);
        come(SacnDatagram.data('a', 1, 0, 50).synchronised(7));
        assertLook(50, 50, 0);
    }

    @Test
    void withoutAnAddressLevelsDoNotWaitThoughOthersDo() {
        come(SacnDatagram.data('a', 1, 0, 10).synchronised(7));
        come(SacnDatagram.sync('a', 7, 0));
        come(SacnDatagram.data('a', 1, 1, 20).synchronised(7));
        come(SacnDatagram.data('a', 1, 2, 30));
        assertLook(30, 30, 0);
        come(SacnDatagram.data('b', 1, 0, 10).synchronised(7));
        come(SacnDatagram.sync('b', 7, 0));
        assertLook(30, 30, 0); // what waited of a was overtaken
    }

    /** Clause 6.2.6: bit clear, hold until synchronisation is back. */
    @Test
    void whenSynchronisationIsLostTheLookIsHeldUntilItIsBack() {
        synchronised(0);
        pass(LOST);
        come(SacnDatagram.data('a', 1, 3, 30).synchronised(7));
        assertLook(10, 10, 0);
        assertEquals(List.of(), lights.troubles());
        pass(1);
        come(SacnDatagram.data('a', 1, 4, 40).synchronised(7));
        pass(1);
        assertLook(10, 10, 0);
        assertEquals(List.of("no synchronisation on universe 7 for 2.5 s"), lights.troubles());
        come(SacnDatagram.sync('a', 7, 0)); // any number: its series is forgotten
        assertLook(40, 40, 0);
    }

    /** Clause 6.2.6: bit set, need not wait once synchronisation is lost. */
    @Test
    void whenSynchronisationIsLostAndTheSenderSaysSoLightsGoOnWithout() {
        synchronised(0x20);
        pass(LOST);
        come(SacnDatagram.data('a', 1, 3, 30).synchronised(7).options(0x20));
        assertLook(10, 10, 0);
        pass(1);
        come(SacnDatagram.data('a', 1, 4, 40).synchronised(7).options(0x20));
        assertLook(40, 40, 0);
        come(SacnDatagram.sync('a', 7, 9));
        come(SacnDatagram.data('a', 1, 5, 50).synchronised(7).options(0x20));
        assertLook(40, 40, 0);
    }

    /** Level 10 is in force, synchronisation has begun, and the sender is kept alive. */
    private void synchronised(int options) {
        come(SacnDatagram.data('a', 1, 0, 10).synchronised(7).options(options));
        come(SacnDatagram.sync('a', 7, 200));
        pass(1);
        now -= 1;
        come(SacnDatagram.data('a', 1, 1, 20).synchronised(7).options(options));
    }

    @Test
    void aNinthSenderIsNotHeardUntilOneHasGone() {
        for (char sender = 'a'; sender <= 'h'; sender++) {
            come(SacnDatagram.data(sender, 1, 0, sender - 'a'));
        }
        assertLook(7, 7, 0);
        come(SacnDatagram.data('i', 1, 0, 200).priority(200));
        assertLook(7, 7, 0);
        assertEquals(
                List.of("universe 1: 'sender i' is one sender more than the 8 that are heard"),
                lights.troubles());
        come(SacnDatagram.data('a', 1, 1, 0).options(0x40));
        come(SacnDatagram.data('i', 1, 1, 200).priority(200));
        assertLook(200, 200, 0);
    }

    @Test
    void whatIsNoPacketIsNotedInWordsAndBounded() {
        come(SacnDatagram.data('a', 1, 0, 10).with(117, 3));
        assertEquals(List.of("DMP layer: vector is 3, must be 2"), lights.troubles());
        for (int i = 0; i < 100; i++) {
            lights.received(new byte[i], now);
        }
        assertEquals(20, lights.troubles().size());
        assertLook(0, 0, 0);
    }

    /** A name may hold anything; the notes go to a terminal and to pages. */
    @Test
    void aStrangersNameIsMadeHarmless() {
        come(SacnDatagram.data('a', 1, 0, 10).options(0x80).with(45, 0x1B).with(46, 0x0A));
        assertEquals(
                List.of("universe 1: 's??der a' sends a preview, which is not for lights"),
                lights.troubles());
    }

    @Test
    void anythingAtAllLeavesItWorking() {
        Random random = new Random(7);
        for (int round = 0; round < 5000; round++) {
            byte[] octets =
                    (random.nextBoolean()
                                    ? SacnDatagram.data('x', 1, round & 0xFF, 3).synchronised(7)
                                    : SacnDatagram.sync('x', 7, round & 0xFF))
                            .octets();
            for (int i = random.nextInt(6); i > 0; i--) {
                octets[random.nextInt(octets.length)] = (byte) random.nextInt(256);
            }
            lights.received(Arrays.copyOf(octets, octets.length - random.nextInt(2)), now);
            now += random.nextInt(100) * MS;
        }
        assertEquals(20, lights.troubles().size());
        pass(LOST + 1);
        come(SacnDatagram.data('a', 1, 0, 123));
        assertLook(123, 123, candela("rim"));
    }

    @Test
    void universesHaveTheirRange() {
        assertThrows(
                IllegalArgumentException.class, () -> new SacnListener(Map.of(64_000, List.of())));
        assertThrows(IllegalArgumentException.class, () -> new SacnListener(Map.of(0, List.of())));
    }
}

package lookstep.server.patch;

import static lookstep.protocols.fixture.GenericFixtures.BI_COLOUR;
import static lookstep.protocols.fixture.GenericFixtures.DIMMER;
import static lookstep.protocols.fixture.GenericFixtures.RGBW;
import static lookstep.protocols.fixture.GenericFixtures.RGBWW;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.IntStream;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.Mode;
import lookstep.protocols.fixture.Mode.Channel;
import lookstep.server.plan.Light;
import org.junit.jupiter.api.Test;

/**
 * Worked out by hand: a fraction is code / 255, or (256 x coarse + fine) / 65535 (common practice
 * for two slots), then the fixture's dimming curve, then times the dimmer.
 */
class WrongModeTest {
    private static List<Integer> sent(Light light, WrongMode looked) {
        DmxPacket packet = looked.test().packet();
        return IntStream.range(0, light.mode().slots())
                .mapToObj(i -> packet.slot(light.startSlot() + i))
                .toList();
    }

    private static List<String> others(WrongMode looked) {
        return looked.others().stream().map(WrongMode.Instead::text).toList();
    }

    @Test
    void aDimmerOfOneSlot() {
        Light light = Rigs.light("hair", DIMMER, "8-bit", 1, 7);
        WrongMode looked = WrongMode.of(light, 0);
        assertEquals(new SlotTest(1, 7, 0, DmxPacket.BLACK.withSlot(7, 255), false), looked.test());
        assertEquals("white, full", looked.expected());
        // 16-bit reads 255, 0: 65280 / 65535 = 0.996, squared 0.992: to the eye the same.
        assertEquals(List.of("address 6: nothing", "address 8: nothing"), others(looked));
    }

    @Test
    void aDimmerOfTwoSlots() {
        Light light = Rigs.light("hair", DIMMER, "16-bit", 1, 7);
        assertEquals("white, full", WrongMode.of(light, 0).expected());
        // At 6 it reads 0, 255: 0.0039, squared 0.000015, which is 16 stops under full. 8-bit reads
        // the same first slot as planned.
        assertEquals(
                List.of("address 6: nothing, or a trace of white", "address 8: nothing"),
                others(WrongMode.of(light, 0)));
        WrongMode fine = WrongMode.of(light, 1);
        assertEquals(List.of(0, 255), sent(light, fine));
        assertEquals("nothing, or a trace of white", fine.expected());
        // 8-bit reads 0, and nobody tells nothing from a trace. At 8 it reads 255, 0.
        assertEquals(List.of("address 8: white, full"), others(fine));
    }

    @Test
    void twoWhitesOfTwoSlotsEach() {
        Light light = Rigs.light("fill", BI_COLOUR, "16-bit", 1, 11);
        WrongMode looked = WrongMode.of(light, 2);
        assertEquals(List.of(0, 0, 255, 0), sent(light, looked));
        assertEquals(13, looked.test().slot());
        assertEquals("cool, full", looked.expected());
        // 8-bit reads warm 0, cool 0. Dimmed it reads dimmer 0. At 10: cool 0, 255 = 0.0039.
        // At 12: warm 0, 255.
        assertEquals(
                List.of(
                        "8-bit: nothing",
                        "dimmer 8-bit: nothing",
                        "address 10: cool, at less than a hundredth",
                        "address 12: warm, at less than a hundredth"),
                others(looked));
    }

    @Test
    void twoWhitesOfOneSlotEach() {
        Light light = Rigs.light("fill", BI_COLOUR, "8-bit", 1, 11);
        WrongMode looked = WrongMode.of(light, 1);
        assertEquals(List.of(0, 255), sent(light, looked));
        assertEquals("cool, full", looked.expected());
        // 16-bit reads warm 0, 255 and cool 0, 0. Dimmed: dimmer 0. At 10: 0, 0. At 12: 255, 0.
        assertEquals(
                List.of(
                        "16-bit: warm, at less than a hundredth",
                        "dimmer 8-bit: nothing",
                        "address 10: nothing",
                        "address 12: warm, full"),
                others(looked));
    }

    @Test
    void fourColoursBehindADimmer() {
        Light light = Rigs.light("rim", RGBW, "dimmer 8-bit", 2, 21);
        WrongMode dimmer = WrongMode.of(light, 0);
        assertEquals(List.of(255, 0, 0, 0, 0), sent(light, dimmer));
        assertFalse(dimmer.test().dimmerToo());
        assertEquals("nothing", dimmer.expected());
        // Without a dimmer the first slot is red, or its coarse half.
        assertEquals(List.of("8-bit: red, full", "16-bit: red, full"), others(dimmer));

        WrongMode red = WrongMode.of(light, 1);
        assertEquals(List.of(255, 255, 0, 0, 0), sent(light, red));
        assertEquals(2, red.test().universe());
        assertTrue(red.test().dimmerToo());
        assertEquals("red, full", red.expected());
        // 16-bit reads red 255, 255, which is what is expected, and so cannot be told. At 20 it
        // reads dimmer 0; at 22 dimmer 255 and no colour.
        assertEquals(
                List.of("8-bit: red and green, full", "address 20: nothing", "address 22: nothing"),
                others(red));

        WrongMode white = WrongMode.of(light, 4);
        assertEquals(List.of(255, 0, 0, 0, 255), sent(light, white));
        assertEquals("white, full", white.expected());
        // 8-bit is red, green, blue, white from 21 on: 255, 0, 0, 0. 16-bit: red 255, 0; green 0,
        // 0;
        // blue 255, 0.
        assertEquals(
                List.of(
                        "8-bit: red, full",
                        "16-bit: red and blue, full",
                        "address 20: nothing",
                        "address 22: nothing"),
                others(white));
    }

    @Test
    void aBlendOfWhitesWithATint() {
        Light light = Rigs.light("panel", RGBWW, "white and tint 8-bit", 1, 1);
        WrongMode looked = WrongMode.of(light, 1);
        // The tint at 0 is all of pinker, which here is 0.25 of red and 0.12 of blue.
        assertEquals(List.of(255, 255, 0), sent(light, looked));
        assertEquals(
                "cool white, full; red, at about a quarter; blue, at about a tenth",
                looked.expected());
        // There is no address 0.
        assertTrue(
                looked.others().stream().noneMatch(o -> o.set().equals("address 0")),
                others(looked).toString());
        assertTrue(
                others(looked).contains("8-bit: red and green, full"), others(looked).toString());
    }

    @Test
    void whatIsFixedStaysAtItsValueAndElsewhereNobodyKnows() {
        Channel dimmer = new Channel.Dimmer(1);
        Channel shutter = new Channel.Fixed(1, 40, "shutter, open");
        Fixture lamp =
                Rigs.white(
                        new Mode("with shutter", List.of(shutter, dimmer)),
                        new Mode("plain", List.of(dimmer)));
        Light planned = Rigs.light("spot", lamp, "with shutter", 1, 100);
        WrongMode shut = WrongMode.of(planned, 0);
        assertEquals(List.of(40, 0), sent(planned, shut));
        assertEquals("nothing", shut.expected());
        // 40 / 255 = 0.157 on the dimmer. One slot off, the shutter gets 0.
        String unknown = "nobody knows, for its slot ‘shutter, open’ is not at 40";
        assertEquals(
                List.of(
                        "plain: white, at about a quarter",
                        "address 99: " + unknown,
                        "address 101: " + unknown),
                others(shut));
        assertEquals(List.of(40, 255), sent(planned, WrongMode.of(planned, 1)));

        Light plain = Rigs.light("spot", lamp, "plain", 1, 512);
        WrongMode looked = WrongMode.of(plain, 0);
        assertEquals("white, full", looked.expected());
        assertEquals(List.of("with shutter: " + unknown, "address 511: nothing"), others(looked));
    }

    @Test
    void oneCellOfFour() {
        Channel cell = new Channel.Emitter(0, 1);
        Fixture tube =
                Rigs.white(
                        new Mode("4 cells", List.of(cell, cell, cell, cell)),
                        new Mode("1 cell", List.of(cell)));
        Light light = Rigs.light("tube", tube, "4 cells", 1, 1);
        WrongMode first = WrongMode.of(light, 0);
        assertEquals("white, at about a quarter, of its 4 cells together", first.expected());
        // At 2 the four cells read slots 2 to 5.
        assertEquals(List.of("1 cell: white, full", "address 2: nothing"), others(first));
    }

    @Test
    void aSlotThatTheLightHasNotIsRefused() {
        Light light = Rigs.light("fill", BI_COLOUR, "8-bit", 1, 11);
        assertThrows(IllegalArgumentException.class, () -> WrongMode.of(light, 2));
        assertThrows(IllegalArgumentException.class, () -> WrongMode.of(light, -1));
        Light past = Rigs.light("fill", BI_COLOUR, "8-bit", 1, 512);
        String says =
                assertThrows(IllegalArgumentException.class, () -> WrongMode.of(past, 0))
                        .getMessage();
        assertEquals("‘fill’ takes 512-513: address it so that it lies in 1 to 512", says);
    }
}

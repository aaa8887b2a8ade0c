package lookstep.server.patch;

import static lookstep.protocols.fixture.GenericFixtures.BI_COLOUR;
import static lookstep.protocols.fixture.GenericFixtures.RGBW;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import lookstep.protocols.dmx.DmxPacket;
import org.junit.jupiter.api.Test;

class SlotWalkTest {
    private final SlotWalk walk =
            SlotWalk.of(
                    Rigs.plan(
                            Rigs.light("rim", RGBW, "dimmer 8-bit", 2, 21),
                            Rigs.light("fill", BI_COLOUR, "16-bit", 1, 11)));

    @Test
    void lightByLightInTheRigsOrderAndSlotBySlot() {
        assertEquals(
                List.of(
                        "rim 2/21 +0 dimmer",
                        "rim 2/22 +1 red",
                        "rim 2/23 +2 green",
                        "rim 2/24 +3 blue",
                        "rim 2/25 +4 white",
                        "fill 1/11 +0 warm, coarse",
                        "fill 1/12 +1 warm, fine",
                        "fill 1/13 +2 cool, coarse",
                        "fill 1/14 +3 cool, fine"),
                walk.steps().stream()
                        .map(
                                s ->
                                        "%s %d/%d +%d %s"
                                                .formatted(
                                                        s.light(),
                                                        s.universe(),
                                                        s.slot(),
                                                        s.offset(),
                                                        s.words()))
                        .toList());
    }

    @Test
    void aStepCarriesWhatIsSentAndWhatIsSeen() {
        SlotWalk.Step green = walk.steps().get(2);
        assertEquals(DmxPacket.BLACK.withSlot(21, 255).withSlot(23, 255), green.test().packet());
        assertEquals("green, full", green.expected());
        SlotWalk.Step fine = walk.steps().get(8);
        assertEquals(DmxPacket.BLACK.withSlot(14, 255), fine.test().packet());
        assertEquals("cool, at less than a hundredth", fine.expected());
    }

    /** Each step shows by some light that the slots are as planned, and nothing else is on. */
    @Test
    void noStepLightsAnotherLight() {
        for (SlotWalk.Step step : walk.steps()) {
            int first = step.slot() - step.offset();
            int last = first + (step.light().equals("rim") ? 4 : 3);
            for (int slot = 1; slot <= DmxPacket.SLOTS; slot++) {
                if (slot < first || slot > last) {
                    assertEquals(0, step.test().packet().slot(slot), step.words());
                }
            }
        }
    }
}

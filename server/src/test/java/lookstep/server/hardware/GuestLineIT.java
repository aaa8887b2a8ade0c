package lookstep.server.hardware;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import lookstep.server.hardware.GuestMain.Mutant;
import lookstep.server.hardware.LineCheck.Fault;
import lookstep.server.hardware.LineCheck.Rule;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

/**
 * The product's line driver on the kernel's USB-serial driver. One guest is booted for all tests;
 * they judge what tshark read from the wire of its emulated adapters.
 */
@DisplayName("the line through a real USB-serial driver")
class GuestLineIT {
    private static final Path FOLDER = Path.of("target", "guest").toAbsolutePath();
    private static final int PRODUCT_PORT = 1;

    private static LineCheck first;
    private static LineCheck afterReplug;
    private static final Map<Mutant, LineCheck> MUTANTS = new EnumMap<>(Mutant.class);

    @BeforeAll
    static void runGuest() {
        Path jar = Path.of(System.getProperty("lookstep.jar"));
        GuestImage image = GuestImage.build(FOLDER, jar, 1 + Mutant.values().length);
        List<Path> captures = new ArrayList<>(List.of(FOLDER.resolve("first.pcap")));
        for (Mutant mutant : Mutant.values()) {
            captures.add(capture(mutant));
        }
        Path replugged = FOLDER.resolve("after-replug.pcap");
        try (Guest guest = Guest.boot(image, captures)) {
            guest.await(GuestMain.STEADY);
            guest.pullAdapter(PRODUCT_PORT);
            guest.await(GuestMain.LOST);
            guest.plugAdapter(PRODUCT_PORT, replugged);
            guest.await(GuestMain.DONE);
            guest.awaitEnd();
        }
        first = LineCheck.of(UsbCapture.read(captures.get(0)));
        afterReplug = LineCheck.of(UsbCapture.read(replugged));
        for (Mutant mutant : Mutant.values()) {
            MUTANTS.put(mutant, LineCheck.of(UsbCapture.read(capture(mutant))));
        }
    }

    private static Path capture(Mutant mutant) {
        return FOLDER.resolve(mutant + ".pcap");
    }

    @Test
    @DisplayName("250 kbit/s, 8N2, break and mark before each packet, time for each slot")
    void rules() {
        assertEquals(List.of(), first.faults());
        assertTrue(
                first.packets().size() >= GuestMain.PACKETS,
                () -> first.packets().size() + " packets");
    }

    @Test
    @DisplayName("each packet carries what was asked, and the change is one whole packet")
    void slots() {
        int number = 0;
        for (WirePacket packet : first.packets()) {
            expectSlots(packet, number, number < 60 ? 10 : 200);
            number++;
        }
        assertTrue(number > 60, () -> "no packet after the change");
    }

    @Test
    @DisplayName("pulled and put back: output resumes by itself, with the levels it had")
    void replug() {
        assertEquals(List.of(), afterReplug.faults());
        List<WirePacket> packets = afterReplug.packets();
        // of those asked for after the return, the last may still be on its way when the guest ends
        assertTrue(packets.size() >= GuestMain.PACKETS - 1, () -> packets.size() + " packets");
        int number = number(packets.get(0));
        assertTrue(number >= first.packets().size(), () -> "starts over");
        for (WirePacket packet : packets) {
            expectSlots(packet, number, 200);
            number++;
        }
    }

    @Test
    @DisplayName("the same check finds what each mutant does wrong, and nothing else")
    void mutants() {
        assertAll(
                () ->
                        expectFaults(
                                Mutant.SLOW_WITHOUT_BREAK,
                                EnumSet.of(Rule.BIT_RATE, Rule.NO_BREAK)),
                () ->
                        expectFaults(
                                Mutant.HASTY_ONE_STOP_BIT,
                                EnumSet.of(Rule.CHARACTER, Rule.SLOTS_CUT, Rule.SHORT_PERIOD)),
                () -> expectFaults(Mutant.SLOT_SHORT, EnumSet.of(Rule.SLOT_COUNT)));
    }

    private static void expectFaults(Mutant mutant, Set<Rule> rules) {
        Set<Rule> broken =
                MUTANTS.get(mutant).faults().stream().map(Fault::rule).collect(Collectors.toSet());
        assertEquals(rules, broken, mutant.name());
    }

    private static void expectSlots(WirePacket packet, int number, int level) {
        assertEquals(level, packet.slot(1), () -> "slot 1 of packet " + number);
        assertEquals(number, number(packet), "number in slots 2 and 3");
        for (int slot = 4; slot <= 512; slot++) {
            int place = slot;
            assertEquals(
                    slot % 251, packet.slot(slot), () -> "slot " + place + " of packet " + number);
        }
    }

    private static int number(WirePacket packet) {
        return packet.slot(2) << 8 | packet.slot(3);
    }
}

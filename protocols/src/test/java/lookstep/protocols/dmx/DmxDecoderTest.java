package lookstep.protocols.dmx;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import lookstep.protocols.dmx.Received.Fault;
import lookstep.protocols.dmx.Received.Packet;
import org.junit.jupiter.api.Test;

/** The receiving end, fed with octets laid out by hand after ANSI E1.11-2008 (R2018). */
class DmxDecoderTest {
    private static final Fault STRAY = new Fault("octets before the first break");
    private static final Fault TOO_LONG = new Fault("more than 512 slots after one break");
    private static final Fault NO_START = new Fault("a break without a START code after it");

    /** START code 00 and three slots. */
    private static final byte[] THREE = {0x00, 0x0A, 0x7F, (byte) 0xFF};

    /** START code 17 (text): page 1, 0 characters a line, "Hi", end. */
    private static final byte[] TEXT = {0x17, 0x01, 0x00, 0x48, 0x69, 0x00};

    private static byte[] full(int fill) {
        byte[] octets = new byte[513];
        Arrays.fill(octets, 1, 513, (byte) fill);
        return octets;
    }

    private static Packet levels(byte[] octets) {
        return new Packet(0, Arrays.copyOfRange(octets, 1, octets.length));
    }

    @Test
    void packetsAreTheSameHoweverTheOctetsAreCut() {
        byte[][] sent = {THREE, full(0x55), TEXT, new byte[] {0x00}, full(0xFE)};
        List<Received> expected =
                List.of(
                        levels(THREE),
                        levels(full(0x55)),
                        new Packet(0x17, Arrays.copyOfRange(TEXT, 1, 6)),
                        new Packet(0, new byte[0]),
                        levels(full(0xFE)));
        for (int cut = 0; cut <= 513; cut++) {
            DmxDecoder decoder = DmxDecoder.byBreak();
            List<Received> made = new ArrayList<>();
            for (byte[] octets : sent) {
                made.addAll(decoder.breakSeen());
                int at = Math.min(cut, octets.length);
                made.addAll(decoder.received(octets, 0, at));
                made.addAll(decoder.received(octets, at, octets.length));
            }
            assertEquals(expected, made, "cut after " + cut);
        }
    }

    @Test
    void fullPacketIsThereWithItsLastSlotAndShortOneWithTheNextBreak() {
        DmxDecoder decoder = DmxDecoder.byBreak();
        decoder.breakSeen();
        assertEquals(List.of(), decoder.received(full(9), 0, 512));
        assertEquals(List.of(levels(full(9))), decoder.received(full(9), 512, 513));
        assertEquals(List.of(), decoder.breakSeen());
        assertEquals(List.of(), decoder.received(THREE));
        assertEquals(List.of(), decoder.lineQuiet());
        assertEquals(List.of(levels(THREE)), decoder.breakSeen());
    }

    @Test
    void onlyTheNullStartCodeCarriesLevels() {
        assertTrue(levels(THREE).hasLevels());
        DmxDecoder decoder = DmxDecoder.byBreak();
        decoder.breakSeen();
        decoder.received(TEXT);
        Packet text = (Packet) decoder.breakSeen().get(0);
        assertFalse(text.hasLevels());
        assertEquals(0x17, text.startCode());
        assertEquals(5, text.slotCount());
        assertEquals(0x48, text.slot(3));
        assertThrows(IllegalArgumentException.class, () -> text.slot(0));
        assertThrows(IllegalArgumentException.class, () -> text.slot(6));
    }

    @Test
    void octetsBeforeTheFirstBreakAreOneFault() {
        DmxDecoder decoder = DmxDecoder.byBreak();
        assertEquals(List.of(STRAY), decoder.received(THREE));
        assertEquals(List.of(), decoder.received(THREE));
        assertEquals(List.of(), decoder.breakSeen());
        decoder.received(THREE);
        assertEquals(List.of(levels(THREE)), decoder.breakSeen());
    }

    @Test
    void moreThan512SlotsAreOneFaultAndThePacketStands() {
        DmxDecoder decoder = DmxDecoder.byBreak();
        decoder.breakSeen();
        byte[] tooLong = Arrays.copyOf(full(3), 520);
        assertEquals(List.of(levels(full(3)), TOO_LONG), decoder.received(tooLong));
        assertEquals(List.of(), decoder.breakSeen());
    }

    @Test
    void breakWithoutStartCodeIsAFault() {
        DmxDecoder decoder = DmxDecoder.byBreak();
        assertEquals(List.of(), decoder.breakSeen());
        assertEquals(List.of(NO_START), decoder.breakSeen());
    }

    @Test
    void badCharacterEndsThePacketBeforeIt() {
        Fault bad = new Fault("a character without its stop bits");
        DmxDecoder decoder = DmxDecoder.byBreak();
        decoder.breakSeen();
        decoder.received(THREE);
        assertEquals(List.of(levels(THREE), bad), decoder.badCharacter());
        assertEquals(List.of(), decoder.received(THREE));
        assertEquals(List.of(), decoder.badCharacter());
        assertEquals(List.of(), decoder.breakSeen());
        // in place of the START code nothing stands before it
        assertEquals(List.of(bad), decoder.badCharacter());
        decoder.breakSeen();
        decoder.received(THREE);
        assertEquals(List.of(levels(THREE)), decoder.breakSeen());
    }

    @Test
    void withoutBreaksPacketsAreCounted() {
        byte[] stream = new byte[3 * 513];
        List<Received> expected = new ArrayList<>();
        for (int i = 0; i < 3; i++) {
            System.arraycopy(full(i + 1), 0, stream, i * 513, 513);
            expected.add(levels(full(i + 1)));
        }
        for (int cut = 0; cut <= stream.length; cut++) {
            DmxDecoder decoder = DmxDecoder.byLength(513);
            List<Received> made = new ArrayList<>(decoder.received(stream, 0, cut));
            made.addAll(decoder.received(stream, cut, stream.length));
            assertEquals(expected, made, "cut after " + cut);
        }
    }

    @Test
    void withoutBreaksAPauseDropsWhatIsNotFull() {
        for (int came = 1; came < 513; came++) {
            DmxDecoder decoder = DmxDecoder.byLength(513);
            assertEquals(List.of(), decoder.received(full(7), 0, came));
            assertEquals(
                    List.of(new Fault("a packet of " + came + " octets instead of 513: dropped")),
                    decoder.lineQuiet());
            assertEquals(List.of(), decoder.lineQuiet());
            assertEquals(List.of(levels(full(8))), decoder.received(full(8)));
            assertEquals(List.of(), decoder.lineQuiet());
        }
    }

    @Test
    void withoutBreaksALostPlaceIsSeenAndFoundAgain() {
        DmxDecoder decoder = DmxDecoder.byLength(513);
        // joined in the middle of a packet: 0x64 is no START code
        List<Received> made = decoder.received(full(0x64), 100, 513);
        assertEquals(1, made.size());
        assertTrue(made.get(0) instanceof Fault fault && fault.what().startsWith("0x64 where"));
        assertEquals(List.of(), decoder.received(full(0x64)));
        assertEquals(List.of(), decoder.lineQuiet());
        assertEquals(List.of(levels(full(0x64))), decoder.received(full(0x64)));
    }

    @Test
    void withoutBreaksABreakStillBeginsAPacket() {
        DmxDecoder decoder = DmxDecoder.byLength(513);
        decoder.received(THREE);
        assertEquals(
                List.of(new Fault("a packet of 4 octets instead of 513: dropped")),
                decoder.breakSeen());
        assertEquals(List.of(), decoder.breakSeen());
        assertEquals(List.of(levels(full(1))), decoder.received(full(1)));
    }

    @Test
    void lengthMustBeThatOfAPacket() {
        assertThrows(IllegalArgumentException.class, () -> DmxDecoder.byLength(1));
        assertThrows(IllegalArgumentException.class, () -> DmxDecoder.byLength(514));
    }

    /** Whatever comes, the next whole packet after a break is read right. */
    @Test
    void recoversFromAnything() {
        Random random = new Random(11);
        for (int round = 0; round < 2000; round++) {
            DmxDecoder decoder = DmxDecoder.byBreak();
            int happenings = random.nextInt(8);
            for (int i = 0; i < happenings; i++) {
                switch (random.nextInt(4)) {
                    case 0 -> decoder.breakSeen();
                    case 1 -> decoder.badCharacter();
                    case 2 -> decoder.lineQuiet();
                    default -> decoder.received(new byte[random.nextInt(700)]);
                }
            }
            decoder.breakSeen();
            assertEquals(List.of(levels(full(round))), decoder.received(full(round)));
        }
    }
}

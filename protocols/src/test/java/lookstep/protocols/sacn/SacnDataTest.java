package lookstep.protocols.sacn;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.UUID;
import lookstep.protocols.dmx.DmxPacket;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Layout and ranges: ANSI E1.31-2018, Table 4-1 and clauses 6.2 and 7. */
class SacnDataTest {
    private static SacnData data(String name, int priority, int sync, int sequence, int universe) {
        return new SacnData(
                Golden.CID,
                name,
                priority,
                sync,
                sequence,
                SacnOptions.NONE,
                universe,
                SacnSlots.of(DmxPacket.BLACK));
    }

    @Test
    void octetsAreThoseOfTheStandardBothWays() {
        assertArrayEquals(Golden.DATA, Golden.DATA_SAYS.encode());
        assertEquals(Golden.DATA_SAYS, SacnReader.read(Golden.DATA));
    }

    @Test
    void aFullPacketHas638OctetsAndSaysSoInEachLayer() {
        SacnData full =
                new SacnData(
                        Golden.CID,
                        "",
                        SacnData.DEFAULT_PRIORITY,
                        0,
                        0,
                        SacnOptions.NONE,
                        1,
                        SacnSlots.of(DmxPacket.BLACK.withSlot(1, 7).withSlot(512, 9)));
        byte[] octets = full.encode();
        assertEquals(638, octets.length);
        assertArrayEquals(new byte[] {0x72, 0x6E}, new byte[] {octets[16], octets[17]});
        assertArrayEquals(new byte[] {0x72, 0x58}, new byte[] {octets[38], octets[39]});
        assertArrayEquals(new byte[] {0x72, 0x0B}, new byte[] {octets[115], octets[116]});
        assertArrayEquals(new byte[] {0x02, 0x01}, new byte[] {octets[123], octets[124]});
        assertEquals(100, octets[108]);
        assertEquals(7, octets[126]);
        assertEquals(9, octets[637]);
        assertEquals(full, SacnReader.read(octets));
    }

    @Test
    void aPacketWithoutSlotsHas126Octets() {
        SacnData none =
                new SacnData(
                        Golden.CID,
                        "x",
                        0,
                        0,
                        255,
                        SacnOptions.NONE,
                        1,
                        new SacnSlots(0xDD, new byte[0]));
        assertEquals(126, none.encode().length);
        assertEquals((byte) 0xDD, none.encode()[125]);
        assertEquals(none, SacnReader.read(none.encode()));
        assertFalse(none.slots().hasLevels());
    }

    /** Table 4-1 and clause 6.2.6: bits 7, 6 and 5. */
    @ParameterizedTest
    @CsvSource({
        "false, false, false, 00",
        "true, false, false, 80",
        "false, true, false, 40",
        "false, false, true, 20",
        "true, true, true, E0"
    })
    void optionsAreTheThreeHighBits(boolean preview, boolean end, boolean force, String octet) {
        SacnOptions options = new SacnOptions(preview, end, force);
        int bits = Integer.parseInt(octet, 16);
        byte[] packet = Golden.DATA.clone();
        packet[112] = (byte) bits;
        assertEquals(options, ((SacnData) SacnReader.read(packet)).options());
        assertEquals(bits, options.octet());
        packet[112] = (byte) (bits | 0x1F);
        assertEquals(
                options,
                ((SacnData) SacnReader.read(packet)).options(),
                "reserved bits are not looked at");
    }

    @Test
    void theCidIsInTheOrderOfItsText() {
        byte[] octets = Golden.DATA.clone();
        for (int i = 0; i < 16; i++) {
            octets[22 + i] = (byte) (0x10 * i + i);
        }
        assertEquals(
                UUID.fromString("00112233-4455-6677-8899-aabbccddeeff"),
                ((SacnData) SacnReader.read(octets)).cid());
    }

    @ParameterizedTest
    @CsvSource({
        "108, C9, 'priority is 201, must be 0 to 200'",
        "113, FA, 'universe is 64255, must be 1 to 63999'",
        "109, FA, 'synchronisation address is 64026, must be 1 to 63999'",
        "0, 01, 'preamble size is 272, must be 16'",
        "4, 61, 'the packet identifier is not ASC-E1.17'",
        "21, 05, 'root layer: vector 5 is unknown'",
        "17, 71, 'root layer: says 113 octets, has 114'",
        "38, 80, 'framing layer: flags of 0x805C are not 7'",
        "117, 01, 'DMP layer: vector is 1, must be 2'",
        "124, 04, 'DMP layer: property value count is 4, must be 5'",
        "44, FF, 'source name: is not UTF-8'"
    })
    void whatIsWrongIsSaid(int offset, String octet, String says) {
        byte[] packet = Golden.DATA.clone();
        packet[offset] = (byte) Integer.parseInt(octet, 16);
        assertEquals(new SacnFault(says), SacnReader.read(packet));
    }

    @Test
    void universeZeroCarriesNothing() {
        byte[] packet = Golden.DATA.clone();
        packet[113] = 0;
        packet[114] = 0;
        assertEquals(new SacnFault("universe is 0, must be 1 to 63999"), SacnReader.read(packet));
        packet[109] = 0;
        packet[110] = 0;
        packet[114] = 1;
        assertEquals(0, ((SacnData) SacnReader.read(packet)).syncAddress());
    }

    @Test
    void aNameMayFill63Octets() {
        String longest = "ü".repeat(31) + "x";
        SacnData data = data(longest, 0, 0, 0, 1);
        assertEquals(0, data.encode()[107]);
        assertEquals('x', data.encode()[106]);
        assertEquals(data, SacnReader.read(data.encode()));
        byte[] unended = data.encode();
        unended[107] = 'y';
        assertEquals(
                new SacnFault("source name: does not end with a NUL"), SacnReader.read(unended));
    }

    @Test
    void whatCannotBeSentIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> data("ü".repeat(32), 0, 0, 0, 1));
        assertThrows(IllegalArgumentException.class, () -> data("a\0b", 0, 0, 0, 1));
        assertThrows(IllegalArgumentException.class, () -> data("\uD800", 0, 0, 0, 1));
        assertThrows(IllegalArgumentException.class, () -> data("x", -1, 0, 0, 1));
        assertThrows(IllegalArgumentException.class, () -> data("x", 201, 0, 0, 1));
        assertThrows(IllegalArgumentException.class, () -> data("x", 0, 64_000, 0, 1));
        assertThrows(IllegalArgumentException.class, () -> data("x", 0, -1, 0, 1));
        assertThrows(IllegalArgumentException.class, () -> data("x", 0, 0, 256, 1));
        assertThrows(IllegalArgumentException.class, () -> data("x", 0, 0, -1, 1));
        assertThrows(IllegalArgumentException.class, () -> data("x", 0, 0, 0, 0));
        assertEquals(
                "universe 64000: must be 1 to 63999",
                assertThrows(IllegalArgumentException.class, () -> data("x", 0, 0, 0, 64_000))
                        .getMessage());
        assertThrows(IllegalArgumentException.class, () -> new SacnSlots(256, new byte[0]));
        assertThrows(IllegalArgumentException.class, () -> new SacnSlots(0, new byte[513]));
    }

    @Test
    void slotsCannotBeChanged() {
        byte[] given = {1, 2, 3};
        SacnSlots slots = new SacnSlots(0, given);
        given[0] = 9;
        slots.octets()[1] = 9;
        assertArrayEquals(new byte[] {1, 2, 3}, slots.octets());
        assertEquals(3, slots.count());
        assertTrue(slots.hasLevels());
    }
}

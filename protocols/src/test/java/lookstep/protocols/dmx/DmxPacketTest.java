package lookstep.protocols.dmx;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

/** Layout after ANSI E1.11-2008 (R2018): START code, then up to 512 slots. */
class DmxPacketTest {
    @Test
    void bytesAreTheStartCodeAndThenTheSlots() {
        DmxPacket packet = DmxPacket.BLACK.withSlot(1, 0x11).withSlot(2, 0x22).withSlot(512, 0xFF);

        byte[] expected = new byte[513];
        expected[0] = 0x00; // START code NULL
        expected[1] = 0x11; // slot 1
        expected[2] = 0x22; // slot 2
        expected[512] = (byte) 0xFF; // slot 512
        assertArrayEquals(expected, packet.bytes());
        assertEquals(255, packet.slot(512));
        assertEquals(0, packet.slot(3));
        assertEquals("DmxPacket[1=17 2=34 512=255]", packet.toString());
    }

    @Test
    void fromItsBytesItIsTheSame() {
        DmxPacket packet = DmxPacket.BLACK.withSlots(510, new byte[] {1, 2, 3});
        assertEquals(packet, DmxPacket.ofBytes(packet.bytes()));
        assertEquals(packet, DmxPacket.ofSlots(packet.slots()));
        assertEquals(packet.hashCode(), DmxPacket.ofSlots(packet.slots()).hashCode());
        assertNotEquals(packet, DmxPacket.BLACK);
        assertEquals(3, packet.slot(512));
    }

    @Test
    void cannotBeChanged() {
        byte[] given = new byte[512];
        DmxPacket packet = DmxPacket.ofSlots(given);
        given[0] = 9;
        packet.bytes()[1] = 9;
        packet.slots()[0] = 9;
        packet.withSlot(1, 9);
        packet.withSlots(1, new byte[] {9});
        assertEquals(DmxPacket.BLACK, packet);
    }

    @Test
    void refusesWhatDoesNotFit() {
        DmxPacket black = DmxPacket.BLACK;
        assertThrows(IllegalArgumentException.class, () -> black.slot(0));
        assertThrows(IllegalArgumentException.class, () -> black.slot(513));
        assertThrows(IllegalArgumentException.class, () -> black.withSlot(0, 0));
        assertThrows(IllegalArgumentException.class, () -> black.withSlot(513, 0));
        assertThrows(IllegalArgumentException.class, () -> black.withSlot(1, -1));
        assertThrows(IllegalArgumentException.class, () -> black.withSlot(1, 256));
        assertThrows(IllegalArgumentException.class, () -> black.withSlots(511, new byte[3]));
        assertThrows(IllegalArgumentException.class, () -> DmxPacket.ofSlots(new byte[511]));
        assertThrows(IllegalArgumentException.class, () -> DmxPacket.ofBytes(new byte[512]));
        byte[] text = new byte[513];
        text[0] = 0x17;
        assertEquals(
                "START code 0x17: levels have 0x00",
                assertThrows(IllegalArgumentException.class, () -> DmxPacket.ofBytes(text))
                        .getMessage());
    }
}

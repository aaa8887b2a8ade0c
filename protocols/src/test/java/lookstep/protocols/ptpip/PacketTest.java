package lookstep.protocols.ptpip;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class PacketTest {
    private static final int HEADER = 8;

    static Stream<Map.Entry<Packet, byte[]>> golden() {
        return Golden.PACKETS.entrySet().stream();
    }

    @Test
    void eachOfTheFourteenTypesIsThere() {
        Set<Integer> types = new HashSet<>();
        Golden.PACKETS.values().forEach(octets -> types.add((int) octets[4]));
        assertEquals(Set.of(1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14), types);
    }

    @ParameterizedTest
    @MethodSource("golden")
    void octetsAreThoseOfTheStandardBothWays(Map.Entry<Packet, byte[]> golden) throws Exception {
        byte[] octets = golden.getValue();
        assertEquals(octets.length, octets[0], "the length in the first octet");
        assertArrayEquals(octets, golden.getKey().encode());
        byte[] payload = Arrays.copyOfRange(octets, HEADER, octets.length);
        assertEquals(golden.getKey(), Packet.read(octets[4], payload));
    }

    @ParameterizedTest
    @MethodSource("golden")
    void onlyTheOwnFaultComesOfAnyPartOfAPacket(Map.Entry<Packet, byte[]> golden) {
        byte[] octets = golden.getValue();
        int faults = 0;
        for (int end = HEADER; end < octets.length; end++) {
            try {
                Packet.read(octets[4], Arrays.copyOfRange(octets, HEADER, end));
            } catch (BadBytesException tooShort) {
                faults++;
            }
        }
        boolean hasFields = octets.length > HEADER;
        assertEquals(hasFields, faults > 0, faults + " faults");
    }

    @Test
    void whatIsLongerThanTheStandardSaysIsPassedOver() throws Exception {
        assertEquals(new InitFail(2), Packet.read(5, new byte[] {2, 0, 0, 0, 9, 9}));
        assertEquals(new ProbeRequest(), Packet.read(13, new byte[] {9}));
        byte[] sixParameters = new byte[6 + 6 * 4];
        assertEquals(5, ((OperationResponse) Packet.read(7, sixParameters)).parameters().size());
        assertEquals(3, ((EventPacket) Packet.read(8, sixParameters)).parameters().size());
    }

    @Test
    void anUnknownTypeIsPassedOver() throws Exception {
        assertEquals(new OtherPacket(99), Packet.read(99, new byte[] {1, 2, 3}));
        assertEquals(new OtherPacket(0), Packet.read(0, new byte[0]));
    }

    @Test
    void whatCannotBeSentIsRefused() {
        List<Integer> six = List.of(1, 2, 3, 4, 5, 6);
        assertThrows(IllegalArgumentException.class, () -> new OperationRequest(1, 0x1002, 0, six));
        assertThrows(IllegalArgumentException.class, () -> new OperationResponse(0x2001, 0, six));
        assertThrows(
                IllegalArgumentException.class,
                () -> new EventPacket(0x4002, 0, List.of(1, 2, 3, 4)));
    }
}

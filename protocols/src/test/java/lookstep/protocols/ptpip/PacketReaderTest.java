package lookstep.protocols.ptpip;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import lookstep.protocols.Annotated;
import org.junit.jupiter.api.Test;

class PacketReaderTest {
    private static byte[] all() {
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        Golden.PACKETS.values().forEach(all::writeBytes);
        return all.toByteArray();
    }

    private static List<Packet> readAll(PacketReader reader) throws BadBytesException {
        List<Packet> packets = new ArrayList<>();
        for (Optional<Packet> next = reader.next(); next.isPresent(); next = reader.next()) {
            packets.add(next.get());
        }
        return packets;
    }

    private static byte[] header(long length, int type) {
        return ByteBuffer.allocate(8)
                .order(ByteOrder.LITTLE_ENDIAN)
                .putInt((int) length)
                .putInt(type)
                .array();
    }

    @Test
    void aStreamCutAtAnyPointGivesTheSamePackets() throws Exception {
        byte[] stream = all();
        List<Packet> expected = new ArrayList<>(Golden.PACKETS.keySet());
        for (int cut = 0; cut <= stream.length; cut++) {
            PacketReader reader = new PacketReader();
            reader.feed(stream, 0, cut);
            List<Packet> packets = readAll(reader);
            reader.feed(stream, cut, stream.length - cut);
            packets.addAll(readAll(reader));
            assertEquals(expected, packets, "cut at " + cut);
        }
    }

    @Test
    void aStreamThatComesOctetByOctet() throws Exception {
        byte[] stream = all();
        PacketReader reader = new PacketReader();
        List<Packet> packets = new ArrayList<>();
        for (int i = 0; i < stream.length; i++) {
            reader.feed(stream, i, 1);
            packets.addAll(readAll(reader));
        }
        assertEquals(new ArrayList<>(Golden.PACKETS.keySet()), packets);
    }

    /** 200 000 octets in one End Data: what the pieces hold together is what was sent. */
    @Test
    void longDataComesInPiecesThatHoldItTogether() throws Exception {
        byte[] content = new byte[200_000];
        new Random(1).nextBytes(content);
        byte[] packet = new byte[12 + content.length];
        System.arraycopy(header(packet.length, 12), 0, packet, 0, 8);
        packet[8] = 5;
        System.arraycopy(content, 0, packet, 12, content.length);
        for (int step : new int[] {1_000, 65_536, 65_537, 200_012}) {
            PacketReader reader = new PacketReader();
            ByteArrayOutputStream data = new ByteArrayOutputStream();
            List<Packet> pieces = new ArrayList<>();
            for (int at = 0; at < packet.length; at += step) {
                reader.feed(packet, at, Math.min(step, packet.length - at));
                pieces.addAll(readAll(reader));
            }
            for (Packet piece : pieces.subList(0, pieces.size() - 1)) {
                assertEquals(5, ((Data) piece).transaction());
                data.writeBytes(((Data) piece).octets());
            }
            EndData last = (EndData) pieces.get(pieces.size() - 1);
            assertEquals(5, last.transaction());
            data.writeBytes(last.octets());
            assertArrayEquals(content, data.toByteArray(), "fed by " + step);
            reader.feed(header(8, 13), 0, 8);
            assertEquals(List.of(new ProbeRequest()), readAll(reader));
        }
    }

    @Test
    void aLengthOverTheLimitIsAFaultAtOnceAndForGood() {
        PacketReader reader = new PacketReader();
        reader.feed(header(65_537, 7), 0, 8);
        BadBytesException fault = assertThrows(BadBytesException.class, reader::next);
        assertEquals("a packet of type 7 with 65537 octets: at most 65536", fault.getMessage());
        byte[] good = header(8, 13);
        reader.feed(good, 0, good.length);
        assertEquals(
                fault.getMessage(),
                assertThrows(BadBytesException.class, reader::next).getMessage());
    }

    @Test
    void aLengthThatDoesNotHoldItselfIsAFault() {
        for (long length : new long[] {0, 7}) {
            PacketReader reader = new PacketReader();
            reader.feed(header(length, 7), 0, 8);
            assertEquals(
                    "a packet of " + length + " octets: at least 8",
                    assertThrows(BadBytesException.class, reader::next).getMessage());
        }
    }

    @Test
    void theLongestLengthIsDataThatIsAwaitedAndNothingIsKeptForIt() throws Exception {
        PacketReader reader = new PacketReader();
        reader.feed(header(0xFFFF_FFFFL, 10), 0, 8);
        reader.feed(new byte[4 + 65_536], 0, 4 + 65_536);
        assertEquals(List.of(new Data(0, new byte[65_536])), readAll(reader));
    }

    @Test
    void aPacketTooShortForItsTypeIsAFaultWithWords() {
        PacketReader reader = new PacketReader();
        byte[] cut = Annotated.bytes("0a 00 00 00 03 00 00 00 07 00");
        reader.feed(cut, 0, cut.length);
        assertEquals(
                "Init Event Request: ends at octet 2, within a field",
                assertThrows(BadBytesException.class, reader::next).getMessage());
    }

    /** Thousands of damaged streams: packets, or the package's own fault, and nothing else. */
    @Test
    void damagedStreamsGivePacketsOrTheOwnFault() {
        byte[] good = all();
        Random random = new Random(20260301);
        int faults = 0;
        int packets = 0;
        for (int round = 0; round < 5_000; round++) {
            byte[] stream = damaged(good, random);
            PacketReader reader = new PacketReader();
            try {
                int at = 0;
                while (at < stream.length) {
                    int length = Math.min(1 + random.nextInt(60), stream.length - at);
                    reader.feed(stream, at, length);
                    packets += readAll(reader).size();
                    at += length;
                }
            } catch (BadBytesException e) {
                assertTrue(e.getMessage().length() > 10, e.getMessage());
                faults++;
            }
        }
        assertTrue(faults > 500, faults + " faults");
        assertTrue(packets > 5_000, packets + " packets");
    }

    static byte[] damaged(byte[] good, Random random) {
        byte[] bad = good.clone();
        for (int i = 0; i <= random.nextInt(4); i++) {
            bad[random.nextInt(bad.length)] = (byte) random.nextInt();
        }
        return random.nextInt(4) == 0 ? Arrays.copyOf(bad, random.nextInt(bad.length)) : bad;
    }
}

package lookstep.server.hardware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.NetworkInterface;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;
import java.util.UUID;
import java.util.stream.IntStream;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.server.hardware.SacnCapture.Data;
import lookstep.server.output.LineState;
import lookstep.server.output.PacketSource;
import lookstep.server.output.SacnDriver;
import lookstep.server.output.SacnSetup;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * What the driver really sends through a socket, as an independent program reads it: tshark's
 * dissector of ANSI E1.31. It does not know synchronisation and discovery packets (4.0); their
 * golden octets are in the tests of their codecs.
 */
@Timeout(120)
class SacnOnTheWireTest {
    private static final long BEAT = 30_000_000;
    private static final String CID = "c5a1e57e-0b5e-4c0d-9d1f-1a2b3c4d5e6f";
    private static final String NAME = "Desk of the band";
    private static final int SYNC = 7962;
    private static final List<Integer> UNIVERSES = List.of(1, 256, 63_999);

    @TempDir Path folder;

    /** Every value from 0 to 255 occurs, on each universe and beat in other slots. */
    private static int level(int universe, int slot, int beat) {
        return (slot + 7 * universe + 31 * beat) & 0xFF;
    }

    private static PacketSource source(int universe) {
        return now -> {
            byte[] slots = new byte[512];
            for (int slot = 1; slot <= 512; slot++) {
                slots[slot - 1] = (byte) level(universe, slot, (int) (now / BEAT));
            }
            return DmxPacket.ofSlots(slots);
        };
    }

    private static Data expected(int universe, int beat, int sequence, boolean terminated) {
        return new Data(
                List.of(622, 600, 523), // 638 octets without 16, 38 and 115: Table 4-1
                CID,
                NAME,
                150,
                SYNC,
                sequence,
                terminated ? 0x40 : 0,
                false,
                terminated,
                universe,
                0,
                1,
                513,
                0,
                IntStream.rangeClosed(1, 512)
                        .mapToObj(slot -> level(universe, slot, beat))
                        .toList());
    }

    @Test
    void anotherProgramReadsWhatWasMeant() throws Exception {
        InetAddress loopback = InetAddress.getLoopbackAddress();
        List<LineState> told = new ArrayList<>();
        List<byte[]> sent = new ArrayList<>();
        try (DatagramSocket node = new DatagramSocket(0, loopback)) {
            SacnSetup setup =
                    new SacnSetup(
                            NetworkInterface.getByInetAddress(loopback).getName(),
                            false,
                            List.of((InetSocketAddress) node.getLocalSocketAddress()),
                            Set.copyOf(UNIVERSES),
                            150,
                            OptionalInt.of(SYNC),
                            UUID.fromString(CID),
                            NAME);
            try (SacnDriver driver =
                    new SacnDriver(setup.port(), setup, SacnOnTheWireTest::source, told::add)) {
                for (int beat = 0; beat < 4; beat++) {
                    driver.doWork(beat * BEAT);
                    for (int i = 0; i <= UNIVERSES.size(); i++) {
                        sent.add(receive(node));
                    }
                }
            }
            for (int i = 0; i < 3 * UNIVERSES.size(); i++) {
                sent.add(receive(node));
            }
        }
        assertEquals(1, told.size());
        assertTrue(told.get(0).up(), told.toString());

        List<Data> expected = new ArrayList<>();
        for (int beat = 0; beat < 4; beat++) {
            for (int universe : UNIVERSES) {
                expected.add(expected(universe, beat, beat, false));
            }
        }
        for (int end = 0; end < 3; end++) {
            for (int universe : UNIVERSES) {
                expected.add(expected(universe, 3, 4 + end, true));
            }
        }
        List<Data> read = SacnCapture.read(sent, folder);
        assertEquals(expected.size(), read.size());
        for (int i = 0; i < expected.size(); i++) {
            assertEquals(expected.get(i), read.get(i), "packet " + i);
        }
    }

    private static byte[] receive(DatagramSocket node) throws Exception {
        DatagramPacket packet = new DatagramPacket(new byte[2000], 2000);
        node.setSoTimeout(30_000);
        node.receive(packet);
        return Arrays.copyOf(packet.getData(), packet.getLength());
    }
}

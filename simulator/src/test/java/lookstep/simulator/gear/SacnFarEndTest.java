package lookstep.simulator.gear;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.MulticastSocket;
import java.net.NetworkInterface;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Real sockets on this machine's loopback; datagrams come from the JDK's other kind of socket. */
@Timeout(60)
class SacnFarEndTest {
    private static final InetAddress LOOPBACK = InetAddress.getLoopbackAddress();

    /** Two in a row that hardly another process uses: the port of multicast is shared. */
    private static final int UNIVERSE = 2 + 2 * (int) (ProcessHandle.current().pid() % 30_000);

    private static final int SYNC_UNIVERSE = UNIVERSE + 1;

    private final SacnListener lights = new SacnListener(Map.of(UNIVERSE, List.of()));

    private static void take(SacnFarEnd end, int count) {
        int came = 0;
        while (came < count) {
            came += end.doWork(5);
            Thread.onSpinWait();
            assertFalse(Thread.currentThread().isInterrupted(), "datagrams do not come");
        }
        assertEquals(count, came);
    }

    private static void send(DatagramSocket from, SacnDatagram datagram, InetSocketAddress to)
            throws IOException {
        byte[] octets = datagram.octets();
        from.send(new DatagramPacket(octets, octets.length, to));
    }

    private static InetSocketAddress group(int universe) throws IOException {
        byte[] group = {(byte) 239, (byte) 255, (byte) (universe >> 8), (byte) universe};
        return new InetSocketAddress(InetAddress.getByAddress(group), 5568);
    }

    private int level() {
        return Byte.toUnsignedInt(lights.lastSlots(UNIVERSE)[0]);
    }

    @Test
    void hearsWhatIsSentToItsOwnAddress() throws Exception {
        try (SacnFarEnd end = SacnFarEnd.unicast(LOOPBACK, 0, lights);
                DatagramSocket from = new DatagramSocket(0, LOOPBACK)) {
            assertEquals(0, end.doWork(0));
            send(from, SacnDatagram.data('a', UNIVERSE, 0, 40), end.address());
            send(from, SacnDatagram.data('a', UNIVERSE, 1, 50), end.address());
            take(end, 2);
            assertEquals(50, level());
        }
    }

    @Test
    void joinsTheGroupsOfItsUniversesAndOfTheirSynchronisation() throws Exception {
        NetworkInterface loopback = NetworkInterface.getByInetAddress(LOOPBACK);
        try (SacnFarEnd end = SacnFarEnd.multicast(loopback, lights);
                MulticastSocket from = new MulticastSocket(new InetSocketAddress(LOOPBACK, 0))) {
            from.setNetworkInterface(loopback);
            send(
                    from,
                    SacnDatagram.data('a', UNIVERSE, 0, 40).synchronised(SYNC_UNIVERSE),
                    group(UNIVERSE));
            take(end, 1);
            assertEquals(40, level());
            send(from, SacnDatagram.sync('a', SYNC_UNIVERSE, 0), group(SYNC_UNIVERSE));
            take(end, 1);
            send(
                    from,
                    SacnDatagram.data('a', UNIVERSE, 1, 90).synchronised(SYNC_UNIVERSE),
                    group(UNIVERSE));
            take(end, 1);
            assertEquals(40, level());
            send(from, SacnDatagram.sync('a', SYNC_UNIVERSE, 1), group(SYNC_UNIVERSE));
            take(end, 1);
            assertEquals(90, level());
            assertEquals(List.of(), lights.troubles());
        }
    }

    @Test
    void losesWhatItIsToldToLose() throws Exception {
        try (SacnFarEnd end = SacnFarEnd.unicast(LOOPBACK, 0, lights);
                DatagramSocket from = new DatagramSocket(0, LOOPBACK)) {
            end.misbehave(new Fault.LostDatagrams(2));
            send(from, SacnDatagram.data('a', UNIVERSE, 0, 40), end.address());
            send(from, SacnDatagram.data('a', UNIVERSE, 1, 50), end.address());
            take(end, 2);
            assertEquals(40, level());
            end.mend();
            send(from, SacnDatagram.data('a', UNIVERSE, 2, 60), end.address());
            take(end, 1);
            assertEquals(60, level());
        }
        assertThrows(IllegalArgumentException.class, () -> new Fault.LostDatagrams(0));
    }

    @Test
    void aDatagramLongerThanAnyPacketIsNoted() throws Exception {
        try (SacnFarEnd end = SacnFarEnd.unicast(LOOPBACK, 0, lights);
                DatagramSocket from = new DatagramSocket(0, LOOPBACK)) {
            byte[] octets = new byte[9000];
            System.arraycopy(SacnDatagram.data('a', UNIVERSE, 0, 40).octets(), 0, octets, 0, 638);
            from.send(new DatagramPacket(octets, octets.length, end.address()));
            take(end, 1);
            assertEquals(0, level());
            assertEquals(List.of("root layer: says 622 octets, has 2032"), lights.troubles());
        }
    }

    @Test
    void anAddressThatIsTakenIsRefusedAndAfterClosingItIsFree() throws Exception {
        SacnFarEnd first = SacnFarEnd.unicast(LOOPBACK, 0, lights);
        InetSocketAddress address = first.address();
        assertThrows(
                IOException.class,
                () -> SacnFarEnd.unicast(LOOPBACK, address.getPort(), lights).close());
        first.close();
        assertEquals(0, first.doWork(0));
        SacnFarEnd.unicast(LOOPBACK, address.getPort(), lights).close();
    }
}

package lookstep.protocols.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.MulticastSocket;
import java.net.NetworkInterface;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Real sockets on this machine's loopback; the far end is the JDK's other kind of socket. */
class UdpPortTest extends DatagramsContract {
    private static final InetAddress LOOPBACK = InetAddress.getLoopbackAddress();

    private static String loopbackName() throws Exception {
        return NetworkInterface.getByInetAddress(LOOPBACK).getName();
    }

    @Override
    Bench newBench() throws Exception {
        NetworkInterface loopback = NetworkInterface.getByInetAddress(LOOPBACK);
        DatagramSocket machine = listening(new DatagramSocket(0, LOOPBACK));
        // any free port, so that nobody else's multicast comes here
        MulticastSocket group = listening(new MulticastSocket(0));
        InetSocketAddress joined =
                new InetSocketAddress(InetAddress.getByName("239.255.31.26"), group.getLocalPort());
        group.joinGroup(joined, loopback);
        InetSocketAddress empty;
        try (DatagramSocket closed = new DatagramSocket(0, LOOPBACK)) {
            empty = new InetSocketAddress(LOOPBACK, closed.getLocalPort());
        }
        boolean[] plugged = {true};
        UdpPort port =
                new UdpPort(
                        loopback.getName(),
                        UdpPort.THIS_NETWORK_ALONE,
                        () -> plugged[0] ? NetworkInterfaces.seen() : List.of());
        return new Bench() {
            @Override
            public DatagramPort port() {
                return port;
            }

            @Override
            public InetSocketAddress machine() {
                return (InetSocketAddress) machine.getLocalSocketAddress();
            }

            @Override
            public InetSocketAddress empty() {
                return empty;
            }

            @Override
            public InetSocketAddress group() {
                return joined;
            }

            @Override
            public byte[] received(InetSocketAddress at) throws Exception {
                DatagramPacket packet = new DatagramPacket(new byte[2000], 2000);
                (at.equals(joined) ? group : machine).receive(packet);
                return Arrays.copyOf(packet.getData(), packet.getLength());
            }

            @Override
            public void unplug() {
                plugged[0] = false;
            }

            @Override
            public void plug() {
                plugged[0] = true;
            }

            @Override
            public void end() {
                machine.close();
                group.close();
            }
        };
    }

    @Test
    void anInterfaceIsFoundByItsAddressAsWell() throws Exception {
        try (DatagramSocket far = listening(new DatagramSocket(0, LOOPBACK));
                Datagrams datagrams = new UdpPort("127.0.0.1").open()) {
            assertEquals(
                    Sending.SENT,
                    datagrams.send(
                            new byte[] {5}, (InetSocketAddress) far.getLocalSocketAddress()));
            DatagramPacket packet = new DatagramPacket(new byte[10], 10);
            far.receive(packet);
            assertEquals(5, packet.getData()[0]);
            assertEquals(LOOPBACK, packet.getAddress());
        }
    }

    @Test
    void oneThatIsNotThereIsToldWithThoseThatAre() throws Exception {
        LineLostException lost =
                assertThrows(LineLostException.class, () -> new UdpPort("eth99").open().close());
        assertTrue(
                lost.getMessage()
                        .startsWith(
                                "eth99: no network interface of this name or address is here. Plug"
                                        + " it in, or write one of these: "),
                lost.getMessage());
        assertTrue(lost.getMessage().contains(loopbackName() + " (127.0.0.1)"), lost.getMessage());
    }

    /** 192.0.2.0/24 is kept for documentation (RFC 5737); loopback has no way to it. */
    @Test
    void aMachineOutOfReachIsRefusedAndStopsNoOther() throws Exception {
        try (DatagramSocket far = listening(new DatagramSocket(0, LOOPBACK));
                Datagrams datagrams = new UdpPort(loopbackName()).open()) {
            Sending.Refused refused =
                    assertInstanceOf(
                            Sending.Refused.class,
                            datagrams.send(
                                    new byte[] {1}, new InetSocketAddress("192.0.2.99", 5568)));
            assertTrue(
                    refused.says()
                            .startsWith(
                                    "192.0.2.99:5568: cannot be reached from "
                                            + loopbackName()
                                            + " ("),
                    refused.says());
            assertEquals(
                    Sending.SENT,
                    datagrams.send(
                            new byte[] {2}, (InetSocketAddress) far.getLocalSocketAddress()));
        }
    }

    /** The system tells of an earlier datagram's refusal instead of sending the next one. */
    @Test
    void aMachineThatBeginsToListenMissesNothing() throws Exception {
        DatagramSocket far = new DatagramSocket(0, LOOPBACK);
        InetSocketAddress at = (InetSocketAddress) far.getLocalSocketAddress();
        far.close();
        try (Datagrams datagrams = new UdpPort(loopbackName()).open()) {
            assertEquals(Sending.SENT, datagrams.send(new byte[] {1}, at));
            try (DatagramSocket begins = listening(new DatagramSocket(at))) {
                datagrams.send(new byte[] {2}, at);
                DatagramPacket packet = new DatagramPacket(new byte[10], 10);
                begins.receive(packet);
                assertEquals(2, packet.getData()[0]);
            }
        }
    }

    /** A datagram that does not come fails the test and does not hold it up. */
    private static <S extends DatagramSocket> S listening(S socket) throws Exception {
        socket.setSoTimeout(30_000);
        return socket;
    }

    @Test
    void timeToLiveHasItsRange() {
        assertThrows(IllegalArgumentException.class, () -> new UdpPort("lo", 0));
        assertThrows(IllegalArgumentException.class, () -> new UdpPort("lo", 256));
        assertEquals("lo", new UdpPort("lo", 255).name());
    }
}

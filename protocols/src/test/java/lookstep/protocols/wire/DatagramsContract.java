package lookstep.protocols.wire;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.InetSocketAddress;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** What every way into a network does, whatever it is made of. */
@Timeout(60)
abstract class DatagramsContract {
    /** A way into a network, with its far end in hand. */
    interface Bench {
        DatagramPort port();

        /** A machine that listens. */
        InetSocketAddress machine();

        /** A machine on which nobody listens. */
        InetSocketAddress empty();

        /** A group that the far end has joined. */
        InetSocketAddress group();

        /** Waits for the next datagram at the machine, or in the group. */
        byte[] received(InetSocketAddress at) throws Exception;

        void unplug() throws Exception;

        void plug() throws Exception;

        void end() throws Exception;
    }

    private Bench bench;

    abstract Bench newBench() throws Exception;

    @BeforeEach
    void setUp() throws Exception {
        bench = newBench();
    }

    @AfterEach
    void tearDown() throws Exception {
        bench.end();
    }

    /** As long as the longest packet of E1.31; every value occurs. */
    private static byte[] datagram(int first) {
        byte[] octets = new byte[1144];
        for (int i = 0; i < octets.length; i++) {
            octets[i] = (byte) (first + i);
        }
        return octets;
    }

    @Test
    void datagramsArriveWholeAtTheMachineAndInTheGroup() throws Exception {
        try (Datagrams datagrams = bench.port().open()) {
            for (int i = 0; i < 3; i++) {
                for (InetSocketAddress to :
                        new InetSocketAddress[] {bench.machine(), bench.group()}) {
                    assertEquals(Sending.SENT, datagrams.send(datagram(i), to));
                    assertArrayEquals(datagram(i), bench.received(to));
                }
            }
            datagrams.requireUp();
        }
    }

    @Test
    void aMachineOnWhichNobodyListensIsNamedAndStopsNoOther() throws Exception {
        try (Datagrams datagrams = bench.port().open()) {
            Sending refused = Sending.SENT;
            // the first may go out before the answer to it is there
            for (int i = 0; i < 1000 && refused.equals(Sending.SENT); i++) {
                refused = datagrams.send(datagram(i), bench.empty());
                assertEquals(Sending.SENT, datagrams.send(datagram(i), bench.machine()));
                assertArrayEquals(datagram(i), bench.received(bench.machine()));
            }
            String says = assertInstanceOf(Sending.Refused.class, refused).says();
            assertEquals(
                    bench.empty().getAddress().getHostAddress()
                            + ":"
                            + bench.empty().getPort()
                            + ": nobody listens there. Check the address, and that the node is set to"
                            + " listen.",
                    says);
            datagrams.requireUp();
        }
    }

    @Test
    void anInterfaceThatGoesIsNoticedAndOpensAgain() throws Exception {
        try (Datagrams datagrams = bench.port().open()) {
            bench.unplug();
            assertNames(assertThrows(LineLostException.class, datagrams::requireUp));
            assertNames(assertThrows(LineLostException.class, () -> bench.port().open().close()));
            bench.plug();
            try (Datagrams again = bench.port().open()) {
                assertEquals(Sending.SENT, again.send(datagram(7), bench.machine()));
                assertArrayEquals(datagram(7), bench.received(bench.machine()));
            }
        }
    }

    @Test
    void closedItSendsNothingAndClosesTwice() throws Exception {
        Datagrams datagrams = bench.port().open();
        datagrams.close();
        datagrams.close();
        assertNames(
                assertThrows(
                        LineLostException.class,
                        () -> datagrams.send(datagram(0), bench.machine())));
        assertNames(assertThrows(LineLostException.class, datagrams::requireUp));
    }

    private void assertNames(LineLostException lost) {
        assertTrue(
                lost.getMessage().startsWith(bench.port().name() + ": "),
                () -> "names no interface: " + lost.getMessage());
    }
}

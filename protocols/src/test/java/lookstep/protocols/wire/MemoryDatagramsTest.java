package lookstep.protocols.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotNull;

import java.net.InetSocketAddress;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;

class MemoryDatagramsTest extends DatagramsContract {
    private static final InetSocketAddress MACHINE = new InetSocketAddress("192.0.2.5", 5568);
    private static final InetSocketAddress EMPTY = new InetSocketAddress("192.0.2.6", 5568);
    private static final InetSocketAddress GROUP = new InetSocketAddress("239.255.0.1", 5568);

    private final Map<InetSocketAddress, Deque<byte[]>> came = new HashMap<>();
    private final MemoryDatagrams network =
            new MemoryDatagrams(
                    "memory",
                    (octets, to) -> came.computeIfAbsent(to, a -> new ArrayDeque<>()).add(octets));

    @Override
    Bench newBench() {
        network.refuse(EMPTY);
        return new Bench() {
            @Override
            public DatagramPort port() {
                return network;
            }

            @Override
            public InetSocketAddress machine() {
                return MACHINE;
            }

            @Override
            public InetSocketAddress empty() {
                return EMPTY;
            }

            @Override
            public InetSocketAddress group() {
                return GROUP;
            }

            @Override
            public byte[] received(InetSocketAddress at) {
                return came.get(at).remove();
            }

            @Override
            public void unplug() {
                network.unplug();
            }

            @Override
            public void plug() {
                network.plug();
            }

            @Override
            public void end() {
                network.unplug();
            }
        };
    }

    @Test
    void whileItIsFullDatagramsAreLetGo() throws Exception {
        try (Datagrams datagrams = network.open()) {
            network.setFull(true);
            assertEquals(Sending.DROPPED, datagrams.send(new byte[] {1}, MACHINE));
            network.setFull(false);
            assertEquals(Sending.SENT, datagrams.send(new byte[] {2}, MACHINE));
        }
        assertEquals(1, came.get(MACHINE).size());
        assertEquals(2, assertNotNullFirst(MACHINE)[0]);
    }

    @Test
    void aMachineThatListensAgainIsSentToAgain() throws Exception {
        try (Datagrams datagrams = network.open()) {
            assertInstanceOf(Sending.Refused.class, datagrams.send(new byte[] {1}, EMPTY));
            network.accept(EMPTY);
            assertEquals(Sending.SENT, datagrams.send(new byte[] {3}, EMPTY));
        }
        assertEquals(3, assertNotNullFirst(EMPTY)[0]);
    }

    private byte[] assertNotNullFirst(InetSocketAddress at) {
        byte[] first = came.get(at).peek();
        assertNotNull(first);
        return first;
    }
}

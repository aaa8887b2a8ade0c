package lookstep.simulator.gear;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import lookstep.protocols.wire.Datagrams;
import lookstep.protocols.wire.Line;
import lookstep.protocols.wire.LineLostException;
import lookstep.protocols.wire.MemoryDatagrams;
import lookstep.protocols.wire.MemoryLine;
import lookstep.protocols.wire.Sending;
import org.junit.jupiter.api.Test;

class FaultTest {
    private final List<Integer> arrived = new ArrayList<>();
    private final MemoryLine port =
            new MemoryLine(
                    "memory",
                    new MemoryLine.FarEnd() {
                        @Override
                        public void breakStarted() {}

                        @Override
                        public void breakEnded() {}

                        @Override
                        public void received(byte[] bytes) {
                            arrived.add(bytes.length);
                        }
                    });

    private static final InetSocketAddress NODE = new InetSocketAddress("192.0.2.5", 5568);
    private final MemoryDatagrams network =
            new MemoryDatagrams("memory", (octets, to) -> arrived.add(octets.length));

    @Test
    void unplugged() throws LineLostException {
        Fault.OfLine fault = new Fault.Unplugged();
        try (Line line = port.open()) {
            fault.strike(port);
            assertThrows(LineLostException.class, () -> line.write(new byte[513]));
            assertThrows(LineLostException.class, port::open);
        }
        fault.mend(port);
        try (Line line = port.open()) {
            line.write(new byte[513]);
        }
        assertEquals(List.of(513), arrived);
    }

    @Test
    void shortWrite() throws LineLostException {
        Fault.OfLine fault = new Fault.ShortWrite();
        fault.strike(port);
        try (Line line = port.open()) {
            assertThrows(LineLostException.class, () -> line.write(new byte[513]));
        }
        fault.mend(port);
        try (Line line = port.open()) {
            line.write(new byte[513]);
        }
        assertEquals(List.of(256, 513), arrived);
    }

    @Test
    void stuck() throws LineLostException, InterruptedException {
        Fault.OfLine fault = new Fault.Stuck();
        fault.strike(port);
        Line line = port.open();
        List<Exception> thrown = new ArrayList<>();
        Thread writer =
                new Thread(
                        () -> {
                            try {
                                line.write(new byte[513]);
                            } catch (LineLostException e) {
                                thrown.add(e);
                            }
                        });
        writer.start();
        while (writer.getState() != Thread.State.WAITING) {
            assertTrue(writer.isAlive(), "a stuck write must not return");
            Thread.onSpinWait();
        }
        line.close();
        writer.join(TimeUnit.MINUTES.toMillis(1));
        assertEquals(1, thrown.size());
        fault.mend(port);
        try (Line again = port.open()) {
            again.write(new byte[513]);
        }
        assertEquals(List.of(513), arrived);
    }

    @Test
    void theNetworkGoes() throws LineLostException {
        Fault.OfNetwork fault = new Fault.NetworkGone();
        Datagrams datagrams = network.open();
        fault.strike(network);
        assertThrows(LineLostException.class, () -> datagrams.send(new byte[49], NODE));
        assertThrows(LineLostException.class, network::open);
        fault.mend(network);
        assertThrows(LineLostException.class, () -> datagrams.send(new byte[49], NODE));
        try (Datagrams again = network.open()) {
            assertEquals(Sending.SENT, again.send(new byte[49], NODE));
        }
        assertEquals(List.of(49), arrived);
    }

    @Test
    void theNetworkIsFull() throws LineLostException {
        Fault.OfNetwork fault = new Fault.NetworkFull();
        try (Datagrams datagrams = network.open()) {
            fault.strike(network);
            assertEquals(Sending.DROPPED, datagrams.send(new byte[48], NODE));
            fault.mend(network);
            assertEquals(Sending.SENT, datagrams.send(new byte[49], NODE));
        }
        assertEquals(List.of(49), arrived);
    }

    @Test
    void senselessFiguresAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> new Fault.HalfFile(1));
        assertThrows(IllegalArgumentException.class, () -> new Fault.HalfFile(-0.1));
        assertThrows(IllegalArgumentException.class, () -> new Fault.HalfFile(Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> new Fault.CameraAsleep(0));
        assertThrows(IllegalArgumentException.class, () -> new Fault.SlowWriter(0, 1));
        assertThrows(IllegalArgumentException.class, () -> new Fault.SlowWriter(1, -1));
    }
}

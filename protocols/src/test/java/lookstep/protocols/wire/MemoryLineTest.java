package lookstep.protocols.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

class MemoryLineTest extends LineContract {
    /** Writes down what it hears. */
    private static final class Listener implements MemoryLine.FarEnd {
        private final List<String> heard = new ArrayList<>();
        private final ByteArrayOutputStream octets = new ByteArrayOutputStream();

        @Override
        public void breakStarted() {
            heard.add("break");
        }

        @Override
        public void breakEnded() {
            heard.add("mark");
        }

        @Override
        public void received(byte[] bytes) {
            heard.add(Arrays.toString(bytes));
            octets.writeBytes(bytes);
        }
    }

    @Override
    Bench newBench() {
        Listener listener = new Listener();
        MemoryLine line = new MemoryLine("the line in memory", listener);
        return new Bench() {
            private int taken;

            @Override
            public LinePort port() {
                return line;
            }

            @Override
            public byte[] received(int count) {
                byte[] all = listener.octets.toByteArray();
                taken += count;
                return Arrays.copyOfRange(all, taken - count, Math.min(taken, all.length));
            }

            @Override
            public void unplug() {
                line.unplug();
            }

            @Override
            public void plug() {
                line.plug();
            }

            @Override
            public void stick() {
                line.setStuck(true);
            }

            @Override
            public void end() {
                line.unplug();
            }
        };
    }

    private final Listener listener = new Listener();
    private final MemoryLine port = new MemoryLine("memory", listener);

    @Test
    void breakAndOctetsKeepTheirOrder() throws Exception {
        try (Line line = port.open()) {
            line.startBreak();
            line.endBreak();
            line.write(new byte[] {0, 1});
            line.startBreak();
        }
        // the break ends with the line, as that of a tty does
        assertEquals(List.of("break", "mark", "[0, 1]", "break", "mark"), listener.heard);
    }

    @Test
    void shortWriteDeliversHalfAndLosesTheLine() throws Exception {
        port.setShortWrites(true);
        Line line = port.open();
        LineLostException lost =
                assertThrows(LineLostException.class, () -> line.write(new byte[] {1, 2, 3, 4}));
        assertEquals(
                "memory: the adapter took 2 of 4 octets. Pull it and put it back in.",
                lost.getMessage());
        assertEquals(List.of("[1, 2]"), listener.heard);
        port.setShortWrites(false);
        assertThrows(LineLostException.class, () -> line.write(new byte[] {5}));
        try (Line again = port.open()) {
            again.write(new byte[] {6});
        }
        assertEquals(List.of("[1, 2]", "[6]"), listener.heard);
    }

    @Test
    void secondOpenTakesTheLineFromTheFirst() throws Exception {
        Line first = port.open();
        try (Line second = port.open()) {
            assertThrows(LineLostException.class, () -> first.write(new byte[] {1}));
            first.close();
            second.write(new byte[] {2});
        }
        assertEquals(List.of("[2]"), listener.heard);
    }

    @Test
    void stuckWriteGoesOnWhenTheAdapterDrainsAgain() throws Exception {
        port.setStuck(true);
        try (Line line = port.open()) {
            CompletableFuture<Void> write =
                    CompletableFuture.runAsync(
                            () -> {
                                try {
                                    line.write(new byte[] {7});
                                } catch (LineLostException e) {
                                    throw new IllegalStateException(e);
                                }
                            });
            port.setStuck(false);
            write.get(DEADLINE_SECONDS, TimeUnit.SECONDS);
        }
        assertEquals(List.of("[7]"), listener.heard);
    }
}

package lookstep.protocols.wire;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** What every line does, whatever it is made of. */
@Timeout(120)
abstract class LineContract {
    /** Generous: machines are slow at times. */
    static final long DEADLINE_SECONDS = 30;

    /** A line with its far end in hand. */
    interface Bench {
        LinePort port();

        /** Waits for that many octets at the far end. */
        byte[] received(int count) throws Exception;

        void unplug() throws Exception;

        void plug() throws Exception;

        /** From now on the adapter takes no more than its buffers hold. */
        void stick() throws Exception;

        /** Takes all of it down. */
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

    /** 513 octets in which every value occurs, also those that terminals treat specially. */
    private static byte[] packet(int first) {
        byte[] octets = new byte[513];
        for (int i = 0; i < octets.length; i++) {
            octets[i] = (byte) (first + i);
        }
        return octets;
    }

    @Test
    void octetsArriveUnchangedAndInOrder() throws Exception {
        try (Line line = bench.port().open()) {
            for (int i = 0; i < 5; i++) {
                line.startBreak();
                line.endBreak();
                line.write(packet(i));
                assertArrayEquals(packet(i), bench.received(513));
            }
        }
    }

    @Test
    void canBeOpenedAgainAfterClosing() throws Exception {
        for (int i = 0; i < 3; i++) {
            try (Line line = bench.port().open()) {
                line.write(packet(i));
                assertArrayEquals(packet(i), bench.received(513));
            }
        }
    }

    @Test
    void closedLineTakesNothingAndClosesTwice() throws Exception {
        Line line = bench.port().open();
        line.close();
        line.close();
        assertNames(assertThrows(LineLostException.class, () -> line.write(packet(0))));
        assertNames(assertThrows(LineLostException.class, line::startBreak));
        assertNames(assertThrows(LineLostException.class, line::endBreak));
    }

    @Test
    void nothingThereIsSaidInPlainWords() throws Exception {
        bench.unplug();
        LineLostException lost =
                assertThrows(LineLostException.class, () -> bench.port().open().close());
        assertEquals(
                bench.port().name() + ": no adapter is there. Plug it in, or choose another line.",
                lost.getMessage());
    }

    @Test
    void unplugIsNoticedByTheNextPacketsAndAReplugWorks() throws Exception {
        try (Line line = bench.port().open()) {
            line.write(packet(0));
            bench.received(513);
            bench.unplug();
            LineLostException lost = null;
            for (int i = 0; i < 200 && lost == null; i++) {
                try {
                    line.startBreak();
                    line.endBreak();
                    line.write(packet(i));
                } catch (LineLostException e) {
                    lost = e;
                }
            }
            assertNotNull(lost, "200 packets went into an adapter that is not there");
            assertNames(lost);

            bench.plug();
            assertThrows(LineLostException.class, () -> line.write(packet(1)));
            try (Line again = bench.port().open()) {
                again.write(packet(9));
                assertArrayEquals(packet(9), bench.received(513));
            }
        }
    }

    @Test
    void closeFromAnotherThreadFreesAStuckWrite() throws Exception {
        Line line = bench.port().open();
        bench.stick();
        AtomicInteger written = new AtomicInteger();
        CompletableFuture<LineLostException> stuck =
                CompletableFuture.supplyAsync(
                        () -> {
                            // far more than the buffers on the way can hold
                            for (int i = 0; i < 10_000; i++) {
                                try {
                                    line.write(packet(i));
                                } catch (LineLostException e) {
                                    return e;
                                }
                                written.incrementAndGet();
                            }
                            throw new IllegalStateException("the write never got stuck");
                        });
        int before = -1;
        while (written.get() != before && !stuck.isDone()) {
            before = written.get();
            TimeUnit.MILLISECONDS.sleep(300);
        }
        assertTrue(!stuck.isDone(), "the write ended by itself");
        line.close();
        assertNames(stuck.get(DEADLINE_SECONDS, TimeUnit.SECONDS));
    }

    private void assertNames(LineLostException lost) {
        assertTrue(
                lost.getMessage().startsWith(bench.port().name() + ": "),
                () -> "names no line: " + lost.getMessage());
    }
}

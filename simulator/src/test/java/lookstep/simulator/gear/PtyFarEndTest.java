package lookstep.simulator.gear;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.List;
import lookstep.protocols.fixture.GenericFixtures;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Pace and step, by a clock of its own: a plain file that grows stands in for the node. Slot time
 * of ANSI E1.11: 11 bits at 250 kbit/s are 44 us.
 */
class PtyFarEndTest {
    private static final long MS = 1_000_000;
    private static final long SLOT = 44_000;

    @TempDir Path folder;
    private Path node;
    private final LightListener lights =
            LightListener.byLength(
                    List.of(
                            new PatchedLight(
                                    "one",
                                    GenericFixtures.DIMMER,
                                    GenericFixtures.DIMMER.modes().get(0),
                                    1)));
    private PtyFarEnd end;
    private long now = Long.MAX_VALUE - 20 * MS;

    @BeforeEach
    void open() throws IOException {
        node = Files.createFile(folder.resolve("node"));
        end = new PtyFarEnd(node, lights);
    }

    @AfterEach
    void close() {
        end.close();
    }

    private void append(byte[] octets) throws IOException {
        Files.write(node, octets, StandardOpenOption.APPEND);
    }

    /** A packet with one level in slot 1 and the last slot, so that a slip shows. */
    private static byte[] packet(int level) {
        byte[] octets = new byte[513];
        Arrays.fill(octets, (byte) 0xEE);
        octets[0] = 0;
        octets[1] = (byte) level;
        octets[512] = (byte) level;
        return octets;
    }

    private int step(long nanos) {
        now += nanos;
        return end.doWork(now);
    }

    private void rest() {
        for (int i = 0; i < 6; i++) {
            step(MS);
        }
    }

    private long packets() {
        return lights.snapshot().packets();
    }

    private int level() {
        byte[] slots = lights.lastSlots();
        assertEquals(slots[0], slots[511]);
        return slots[0] & 0xFF;
    }

    @Test
    void carriesAByteEach44Microseconds() throws IOException {
        rest();
        append(packet(7));
        assertEquals(0, step(SLOT - 1));
        assertEquals(1, step(1));
        assertEquals(9, step(9 * SLOT));
        assertEquals(502, step(503 * SLOT - 1));
        assertEquals(0, packets());
        assertEquals(1, step(1));
        assertEquals(1, packets());
        assertEquals(7, level());
    }

    @Test
    void fiftyPacketsTakeTheTimeTheyTakeOnTheWire() throws IOException {
        rest();
        for (int i = 1; i <= 50; i++) {
            append(packet(i));
        }
        long began = now;
        while (packets() < 50) {
            step(MS);
            assertTrue(now - began < 60_000 * MS, "it never gets there");
        }
        long least = 50 * 513 * SLOT;
        assertTrue(now - began >= least && now - began <= least + 2 * MS, now - began + " ns");
        assertEquals(50, level());
    }

    @Test
    void beginsAtARestAndNotInTheMiddleOfAPacket() throws IOException {
        append(Arrays.copyOfRange(packet(1), 200, 513));
        for (int i = 0; i < 30; i++) {
            step(MS);
        }
        assertEquals(0, packets());
        append(packet(2));
        for (int i = 0; i < 30; i++) {
            step(MS);
        }
        assertEquals(1, packets());
        assertEquals(2, level());
    }

    @Test
    void aPacketThatArrivesInTwoPiecesIsOne() throws IOException {
        rest();
        byte[] octets = packet(3);
        append(Arrays.copyOf(octets, 512));
        step(MS);
        step(MS);
        append(Arrays.copyOfRange(octets, 512, 513));
        for (int i = 0; i < 30; i++) {
            step(MS);
        }
        assertEquals(1, packets());
        assertEquals(List.of(), lights.troubles());
    }

    @Test
    void aLoopThatIsLateMakesNoFalseRest() throws IOException {
        rest();
        append(Arrays.copyOf(packet(4), 300));
        step(20 * MS);
        append(Arrays.copyOfRange(packet(4), 300, 513));
        step(20 * MS);
        step(20 * MS);
        assertEquals(1, packets());
        assertEquals(List.of(), lights.troubles());
    }

    @Test
    void aPacketThatIsCutOffIsDroppedAndTheNextIsRead() throws IOException {
        rest();
        append(Arrays.copyOf(packet(5), 300));
        for (int i = 0; i < 30; i++) {
            step(MS);
        }
        append(packet(6));
        for (int i = 0; i < 30; i++) {
            step(MS);
        }
        assertEquals(1, packets());
        assertEquals(6, level());
        assertEquals(1, lights.troubles().size());
    }

    @Test
    void aRestIsFoundWhileOlderBytesAreStillOnTheWire() throws IOException {
        rest();
        append(packet(8));
        append(packet(9));
        append(Arrays.copyOf(packet(10), 100));
        rest();
        rest();
        append(packet(11));
        for (int i = 0; i < 100; i++) {
            step(MS);
        }
        assertEquals(3, packets());
        assertEquals(11, level());
        assertEquals(1, lights.troubles().size());
    }

    @Test
    void whileStuckNothingPasses() throws IOException {
        rest();
        end.misbehave(new Fault.Stuck());
        append(packet(12));
        assertEquals(0, step(1000 * MS));
        end.mend();
        step(MS);
        for (int i = 0; i < 30; i++) {
            step(MS);
        }
        assertEquals(1, packets());
        assertThrows(IllegalArgumentException.class, () -> end.misbehave(new Fault.Unplugged()));
    }

    @Test
    void looksForANodeThatIsNotThere() throws IOException {
        Path later = folder.resolve("later");
        try (PtyFarEnd waiting = new PtyFarEnd(later, lights)) {
            waiting.doWork(now);
            Files.createFile(later);
            waiting.doWork(now + PtyFarEnd.LOOK_NANOS - 1);
            assertFalse(waiting.connected());
            waiting.doWork(now + PtyFarEnd.LOOK_NANOS);
            assertTrue(waiting.connected());
        }
    }

    /** Lines as Linux gives them; proc(5): pid (name) state parent group session terminal. */
    @Test
    void knowsAProcessThatWouldTakeATerminalAsItsOwn() {
        assertTrue(NodeReader.wouldAdoptTerminal("6632 (java) S 6627 6632 6632 0 -1 4194304"));
        assertTrue(NodeReader.wouldAdoptTerminal("1 (a) b (c) S 0 1 1 0 -1 4194304"));
        assertFalse(NodeReader.wouldAdoptTerminal("6744 (java) S 6744 6744 3338 0 -1 4194304"));
        assertFalse(
                NodeReader.wouldAdoptTerminal("6632 (java) S 6627 6632 6632 34817 6632 4194304"));
    }
}

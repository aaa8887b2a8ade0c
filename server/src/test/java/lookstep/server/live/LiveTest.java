package lookstep.server.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import lookstep.server.live.Event.FileMark;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LiveTest {
    private static final Event.KeysMade FIRST = new Event.KeysMade("crew", "band", "cookie");

    @TempDir Path dir;
    private long now = 1_000_000;

    private Live open(Journal journal, String... order) throws IOException {
        return new Live(journal, List.of(order), "hash", () -> now);
    }

    @Test
    void theFirstStepStartsTheClockAndTheNextOnesGoOn() throws IOException {
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            Live live = open(journal, "a", "b");
            assertTrue(live.state().clock().fresh());
            LiveState one = live.step(0);
            assertEquals("a", one.shot());
            now += 5000;
            assertEquals(5000, live.state().clock().elapsedMillis(now));
            assertEquals("b", live.step(1).shot());
            assertEquals("b", live.step(2).shot(), "the last is the last");
        }
    }

    @Test
    void twoPressesForTheSameStepAreOne() throws IOException {
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            Live live = open(journal, "a", "b", "c");
            live.step(0);
            live.step(0);
            live.step(0);
            assertEquals(1, live.state().position());
        }
    }

    @Test
    void backEndsBeforeTheFirstShotAndTheClockGoesOn() throws IOException {
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            Live live = open(journal, "a", "b");
            live.step(0);
            live.step(1);
            assertEquals("a", live.back(2).shot());
            assertEquals("", live.back(1).shot());
            assertEquals(0, live.back(0).position());
            assertTrue(live.state().clock().running());
        }
    }

    @Test
    void everythingIsThereAgainAfterTheJournalIsOpenedAnew() throws IOException {
        LiveState before;
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            Live live = open(journal, "a", "b");
            live.step(0);
            now += 1500;
            live.frameTaken(new FileMark("x/ü.JPG", 7, 8), "2026-01-02T03:04:05.678", "f/8");
            live.foundBefore(List.of(new FileMark("old.jpg", 1, 2)));
            now += 1500;
            before = live.pauseClock();
        }
        now += 60_000;
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            LiveState after = open(journal, "a", "b").state();
            assertEquals(before.position(), after.position());
            assertEquals(before.shot(), after.shot());
            assertEquals(before.frames(), after.frames());
            assertEquals(before.foundBefore(), after.foundBefore());
            assertEquals(3000, after.clock().elapsedMillis(now));
            assertFalse(after.clock().running());
        }
    }

    @Test
    void theClockGoesOnWhileTheProgramIsDown() throws IOException {
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            open(journal, "a").step(0);
        }
        now += 30_000;
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            assertEquals(30_000, open(journal, "a").state().clock().elapsedMillis(now));
        }
    }

    @Test
    void anEditedPlanKeepsTheShotOrElseThePlace() throws IOException {
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            Live live = open(journal, "a", "b", "c");
            live.step(0);
            live.step(1);
        }
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            assertEquals(3, open(journal, "a", "new", "b").state().position());
        }
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            LiveState state = open(journal, "x", "y").state();
            assertEquals(2, state.position());
            assertEquals("y", state.shot());
        }
    }

    @Test
    void aSecondProgramIsTurnedAway() throws IOException {
        try (Journal first = Journal.open(dir.resolve("j"))) {
            open(first, "a");
            IOException e = assertThrows(IOException.class, () -> Journal.open(dir.resolve("j")));
            assertTrue(e.getMessage().contains("already being served"), e.getMessage());
        }
    }

    @Test
    void aDamagedJournalIsNamedAndLeftAlone() throws IOException {
        Path file = dir.resolve("j");
        Files.writeString(
                file, "this is no journal, but it is long enough to be looked at\n".repeat(50));
        byte[] before = Files.readAllBytes(file);
        IOException e = assertThrows(IOException.class, () -> Journal.open(file));
        assertTrue(e.getMessage().contains("damaged"), e.getMessage());
        assertEquals(before.length, Files.readAllBytes(file).length);
    }

    /** A power cut while a line is written: whatever is left of it was never answered. */
    @Test
    void aLineCutOffAnywhereIsPutAsideAndTheRestStands() throws IOException {
        Path file = dir.resolve("j");
        try (Journal journal = Journal.open(file)) {
            Live live = open(journal, "a", "b");
            live.step(0);
            live.step(1);
        }
        byte[] whole = Files.readAllBytes(file);
        int lastLine =
                new String(whole, StandardCharsets.UTF_8).lastIndexOf('\n', whole.length - 2) + 1;
        for (int cut = lastLine; cut < whole.length; cut++) {
            Files.write(file, Arrays.copyOf(whole, cut));
            try (Journal journal = Journal.open(file)) {
                Live live = open(journal, "a", "b");
                assertEquals("a", live.state().shot(), "cut at " + cut);
                assertEquals("b", live.step(1).shot());
            }
            try (Journal journal = Journal.open(file)) {
                assertEquals("b", open(journal, "a", "b").state().shot());
            }
        }
    }

    @Test
    void aFlippedBitIsNamedByItsLine() throws IOException {
        Path file = dir.resolve("j");
        try (Journal journal = Journal.open(file)) {
            open(journal, "a", "b").step(0);
        }
        byte[] whole = Files.readAllBytes(file);
        int secondLine = new String(whole, StandardCharsets.UTF_8).indexOf('\n') + 1;
        for (int at = secondLine; at < whole.length - 1; at++) {
            byte[] flipped = whole.clone();
            flipped[at] ^= 1;
            Files.write(file, flipped);
            IOException e = assertThrows(IOException.class, () -> Journal.open(file));
            assertTrue(e.getMessage().contains("j:2: this journal is damaged"), e.getMessage());
        }
    }

    @Test
    void nobodyIsToldOfWhatIsNotDurable() throws IOException {
        List<LiveState> told = new ArrayList<>();
        Journal journal = Journal.open(dir.resolve("j"));
        Live live = open(journal, "a", "b");
        live.watch(told::add);
        journal.close();
        assertThrows(IOException.class, () -> live.step(0));
        assertEquals(0, live.state().position());
        assertEquals(List.of(), told);
    }

    @Test
    void aKeyIsMadeOnceAndKept() throws IOException {
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            assertEquals(FIRST, open(journal, "a").keys(FIRST));
        }
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            assertEquals(FIRST, open(journal, "a").keys(new Event.KeysMade("x", "y", "z")));
        }
    }
}

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
import java.util.Map;
import java.util.Optional;
import lookstep.server.live.Event.FileMark;
import lookstep.server.look.Adjustment;
import lookstep.server.look.Nudge;
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
            live.frameTaken(
                    new Live.Arrival(
                            new FileMark("x/ü.JPG", 7, 8),
                            "",
                            "2026-01-02T03:04:05.678",
                            "f/8",
                            now),
                    shot -> ShotFacts.NONE);
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
            LiveState state = open(journal, "a", "new", "b").state();
            assertEquals(2, state.position());
            assertEquals(List.of("a", "b", "new"), state.course().order());
        }
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            LiveState state = open(journal, "x", "y").state();
            assertEquals(1, state.position(), "nothing is left of what was made");
            assertEquals("x", state.shot());
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

    @Test
    void aJumpGoesToAnyShotAndStartsTheClock() throws IOException {
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            Live live = open(journal, "a", "b", "c");
            LiveState there = live.jump(0, 3);
            assertEquals("c", there.shot());
            assertTrue(there.clock().running());
            assertEquals("a", live.jump(3, 1).shot());
            assertEquals(1, live.jump(3, 2).position(), "made from where the shoot is no more");
            assertEquals(1, live.jump(1, 4).position(), "there is no fourth");
            assertEquals(1, live.jump(1, 0).position());
            long before = live.state().revision();
            assertEquals(before, live.jump(1, 1).revision(), "to where it is");
        }
    }

    @Test
    void sameAgainIsOneMoreTakeAndTheNextShotBeginsAnew() throws IOException {
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            Live live = open(journal, "a", "b");
            assertEquals(1, live.sameAgain(0).take(), "there is no shot yet");
            live.step(0);
            assertEquals(2, live.sameAgain(1).take());
            assertEquals(3, live.sameAgain(1).take());
            assertEquals(3, live.sameAgain(0).take(), "made from before");
            assertEquals(1, live.step(1).take());
        }
    }

    @Test
    void aTestEndsByItselfWhenAShotComes() throws Exception {
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            Live live = open(journal, "a", "b");
            RigTest test = new RigTest("key", 1, 0);
            assertEquals(Optional.of(test), live.light(0, s -> new Event.Testing(test)).test());
            assertTrue(live.step(0).test().isEmpty());
            live.light(1, s -> new Event.Testing(test));
            assertTrue(live.sameAgain(1).test().isEmpty());
            live.light(1, s -> new Event.Testing(test));
            assertTrue(live.light(1, s -> new Event.TestEnded()).test().isEmpty());
        }
    }

    @Test
    void aChangeThatIsNotPossibleChangesNothing() throws Exception {
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            Live live = open(journal, "a");
            live.step(0);
            long before = live.state().revision();
            NotPossible no =
                    assertThrows(
                            NotPossible.class,
                            () ->
                                    live.light(
                                            1,
                                            s -> {
                                                throw new NotPossible("not now");
                                            }));
            assertEquals("not now", no.getMessage());
            live.light(0, s -> new Event.Undone());
            assertEquals(before, live.state().revision());
        }
    }

    @Test
    void whatWasChangedOnTheSetIsThereAgainAfterTheJournalIsOpenedAnew() throws Exception {
        Adjustment adjustment =
                new Adjustment(
                        Map.of("key", new Nudge(1.0 / 3, -10, Nudge.Power.AS_PLANNED)), true, 4300);
        LiveState before;
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            Live live = open(journal, "a", "b");
            live.step(0);
            live.light(1, s -> new Event.Nudged("a", "look", adjustment, "key up"));
            live.light(1, s -> new Event.Kept("a", "look", "kept"));
            live.light(
                    1,
                    s -> new Event.Nudged("a", "look", Adjustment.NONE.swap(Map.of()), "swapped"));
            live.light(1, s -> new Event.Forgotten("a", "look", "forgotten"));
            live.light(1, s -> new Event.Undone());
            live.light(1, s -> new Event.FlashingAcknowledged(true));
            live.sameAgain(1);
            before = live.light(1, s -> new Event.Testing(new RigTest("", 7, 512)));
        }
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            LiveState after = Journal.replay(journal.found());
            assertEquals(before, after);
            assertEquals(adjustment, after.changes().kept().get("look"));
            assertEquals(Adjustment.NONE.swap(Map.of()), after.changes().of("a", "look"));
            assertEquals("swapped", after.changes().undo().orElseThrow().says());
            assertTrue(after.flashingAcknowledged());
            assertEquals(2, after.take());
            assertEquals(Optional.of(new RigTest("", 7, 512)), after.test());
        }
    }

    @Test
    void anotherPlanAsksAgainAndEndsTheTest() throws Exception {
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            Live live = open(journal, "a");
            live.step(0);
            live.light(1, s -> new Event.FlashingAcknowledged(true));
            live.light(1, s -> new Event.Testing(new RigTest("key", 1, 5)));
        }
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            LiveState same = open(journal, "a").state();
            assertTrue(same.flashingAcknowledged());
            assertTrue(same.test().isPresent());
        }
        try (Journal journal = Journal.open(dir.resolve("j"))) {
            LiveState other = new Live(journal, List.of("a"), "edited", () -> now).state();
            assertFalse(other.flashingAcknowledged());
            assertTrue(other.test().isEmpty());
        }
    }
}

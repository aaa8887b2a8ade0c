package lookstep.server.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import lookstep.server.live.Event.FileMark;
import lookstep.server.live.Frame.Mark;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is known of frames, also after the program was killed. */
class FramesOfLiveTest {
    /** 2026-11-25T21:00:00Z. */
    private static final long NINE = 1_795_640_400_000L;

    @TempDir Path dir;

    private Journal journal;
    private Live live;
    private long now = NINE;
    private int files;

    @BeforeEach
    void open() throws IOException {
        journal = Journal.open(dir.resolve("journal"));
        live = new Live(journal, List.of("a", "b", "c"), "hash", () -> now);
    }

    @AfterEach
    void close() {
        journal.close();
    }

    private static ShotFacts facts(String shot) {
        return new ShotFacts("look of " + shot, List.of("Ines of " + shot), "");
    }

    private Frame arrive(String takenAt, long atMillis) throws IOException {
        now = NINE + atMillis;
        files++;
        return live.frameTaken(
                        new Live.Arrival(
                                new FileMark("LS_%04d.JPG".formatted(files), files, 1),
                                "body one",
                                takenAt,
                                "f/8",
                                now),
                        FramesOfLiveTest::facts)
                .newestFrame()
                .orElseThrow();
    }

    private LiveState replayed() throws IOException {
        LiveState before = live.state();
        journal.close();
        open();
        assertEquals(before.frames(), live.state().frames());
        return live.state();
    }

    @Test
    void aFrameIsOfTheShotThatWasOnWhenItWasExposedHoweverLateItComes() throws IOException {
        live.step(0);
        arrive("2026-11-25T23:10:02.000", 2_000); // 2 h 10 min ahead, told by this one
        now = NINE + 10_000;
        live.step(1);
        Frame late = arrive("2026-11-25T23:10:09.000", 14_000);
        Frame soon = arrive("2026-11-25T23:10:13.000", 14_100);
        assertEquals("a", late.shot());
        assertEquals("look of a", late.look());
        assertEquals(List.of("Ines of a"), late.people());
        assertEquals("b", soon.shot());
        assertEquals(2, replayed().framesOf("a"));
    }

    @Test
    void whenTheClockIsKnownBetterTheFramesBeforeArePutRight() throws Exception {
        live.step(0);
        now = NINE + 10_000;
        live.step(1);
        // 6 s on its way, so it seems to be of b
        assertEquals("b", arrive("2026-11-25T21:00:08.000", 14_000).shot());
        assertEquals("b", arrive("2026-11-25T21:00:09.000", 14_500).shot());
        live.frameBelongs(2, "c", facts("c"));
        // this one came at once
        arrive("2026-11-25T21:00:20.000", 20_100);
        LiveState state = replayed();
        assertEquals(List.of("a", "c", "b"), state.frames().stream().map(Frame::shot).toList());
        assertEquals("look of a", state.frames().get(0).look());
        assertEquals(
                List.of(false, true, false), state.frames().stream().map(Frame::byHand).toList());
    }

    @Test
    void aKeptFramePutsItsShotInTheBagAndAnOtherShotIfItIsMoved() throws Exception {
        live.step(0);
        arrive("", 1000);
        assertFalse(live.state().inTheBag("a"));
        live.mark(1, Mark.KEPT);
        assertTrue(replayed().inTheBag("a"));
        live.frameBelongs(1, "b", facts("b"));
        assertFalse(live.state().inTheBag("a"));
        assertTrue(live.state().inTheBag("b"));
        live.mark(1, Mark.OUT);
        assertFalse(replayed().inTheBag("b"));
        long revision = live.state().revision();
        live.mark(1, Mark.OUT);
        assertEquals(revision, live.state().revision());
        assertThrows(NotPossible.class, () -> live.mark(2, Mark.KEPT));
        assertThrows(NotPossible.class, () -> live.frameBelongs(0, "a", ShotFacts.NONE));
    }

    private Optional<Integer> seen() {
        LiveState state = live.state();
        return state.showing().of(state.frames(), number -> number != 4).map(Frame::number);
    }

    @Test
    void theBandSeesAllOrWhatIsKeptOrWhatTheySaw() throws Exception {
        assertEquals(Optional.empty(), seen());
        arrive("", 0);
        arrive("", 1);
        assertEquals(Optional.of(2), seen());
        live.show(Showing.Mode.KEPT, 2);
        assertEquals(Optional.empty(), seen());
        live.mark(1, Mark.KEPT);
        assertEquals(Optional.of(1), seen());
        live.show(Showing.Mode.HOLD, 1);
        arrive("", 2);
        live.mark(3, Mark.KEPT);
        assertEquals(Optional.of(1), seen());
        replayed();
        assertEquals(Optional.of(1), seen());
        live.show(Showing.Mode.ALL, 1);
        arrive("", 3); // has no picture yet
        assertEquals(Optional.of(3), seen());
        live.mark(3, Mark.OUT);
        assertEquals(Optional.of(2), seen());
        assertFalse(live.state().showing().shows(live.state().frames(), 3));
    }

    @Test
    void whatIsSaidOfAFrameIsThereAgain() throws Exception {
        arrive("", 0);
        live.frameJoined(
                1,
                new Live.Arrival(
                        new FileMark("LS_0001.DNG", 9, 9), "", "2026-11-25T21:00:00", "f/8", NINE));
        live.leftOut(new FileMark("COPY.JPG", 1, 1), "the same");
        live.frameChecked(
                new Event.FrameChecked(
                        1, List.of(new Event.Remark("focus", "look", "soft")), "print"));
        live.frameCopied(new Event.FrameCopied(1, "LS_0001.JPG", "ba78", "/second/LS_0001.JPG"));
        Frame frame = replayed().frame(1).orElseThrow();
        assertEquals(
                List.of("LS_0001.JPG", "LS_0001.DNG"),
                frame.files().stream().map(FileMark::path).toList());
        assertEquals("2026-11-25T21:00:00", frame.takenAt());
        assertEquals("print", frame.checked().orElseThrow().fingerprint());
        assertEquals("ba78", frame.copies().get("LS_0001.JPG").sha256());
        assertEquals(
                List.of("COPY.JPG"), live.state().leftOut().stream().map(FileMark::path).toList());
    }

    @Test
    void aFrameThatBecomesAnotherShotsIsLookedAtAnew() throws Exception {
        live.step(0);
        arrive("", 1000);
        live.frameChecked(new Event.FrameChecked(1, List.of(), "print"));
        live.frameBelongs(1, "b", facts("b"));
        assertTrue(replayed().frame(1).orElseThrow().checked().isEmpty());
    }

    /** The clock was an hour behind and is put right on the set. */
    @Test
    void aClockThatIsSetMovesNoFrameBefore() throws Exception {
        live.step(0);
        arrive("2026-11-25T20:00:01.000", 1000);
        live.mark(1, Mark.KEPT);
        now = NINE + 10_000;
        live.step(1);
        assertEquals("b", arrive("2026-11-25T21:00:20.000", 20_100).shot());
        assertEquals("a", live.state().frame(1).orElseThrow().shot());
        assertTrue(replayed().inTheBag("a"));
    }

    /** As journals were before frames knew their camera, look and people. */
    @Test
    void anOlderJournalIsRead() throws Exception {
        Event old =
                new com.fasterxml.jackson.databind.ObjectMapper()
                        .readValue(
                                """
                                {"event":"frame taken","number":1,"shot":"a","takenAt":"","says":"f/8",
                                 "file":{"path":"LS_0001.JPG","bytes":7,"modifiedEpochMillis":8}}
                                """,
                                Event.class);
        Frame frame = LiveState.NEW.after(old, NINE).frame(1).orElseThrow();
        assertEquals("a", frame.shot());
        assertEquals("", frame.camera());
        assertEquals(List.of(), frame.people());
    }
}

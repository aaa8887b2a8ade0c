package lookstep.server.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.server.live.Event;
import lookstep.server.live.Event.FileMark;
import lookstep.server.live.Frame;
import lookstep.server.live.LiveState;
import org.junit.jupiter.api.Test;

class ReleasesTest {
    private final List<Event> events = new ArrayList<>();

    private void frame(String path, String takenAt) {
        events.add(
                new Event.FrameTaken(
                        events.size() + 1,
                        new FileMark(path, 1, 1),
                        "",
                        takenAt,
                        "",
                        "",
                        "",
                        List.of(),
                        "",
                        0));
    }

    private Optional<Integer> partner(String path, String takenAt) {
        LiveState state = LiveState.NEW;
        for (Event e : events) {
            state = state.after(e, 0);
        }
        return Releases.partner(state.frames(), new FileMark(path, 2, 2), takenAt)
                .map(Frame::number);
    }

    @Test
    void aRawFileAndAJpegOfOneNameAreOneInWhateverOrder() {
        frame("LS_0001.JPG", "2026-11-25T21:00:00.123");
        frame("LS_0002.DNG", "2026-11-25T21:00:05");
        assertEquals(Optional.of(1), partner("LS_0001.dng", "2026-11-25T21:00:00"));
        assertEquals(Optional.of(1), partner("LS_0001.ARW", ""));
        assertEquals(Optional.of(2), partner("LS_0002.jpeg", "2026-11-25T21:00:05.9"));
    }

    @Test
    void anotherNameFolderKindOrTimeIsAnotherRelease() {
        frame("a/LS_0001.JPG", "2026-11-25T21:00:00");
        assertEquals(Optional.empty(), partner("a/LS_0002.DNG", "2026-11-25T21:00:00"));
        assertEquals(Optional.empty(), partner("b/LS_0001.DNG", "2026-11-25T21:00:00"));
        assertEquals(Optional.empty(), partner("LS_0001.DNG", "2026-11-25T21:00:00"));
        assertEquals(Optional.empty(), partner("a/LS_0001.JPEG", "2026-11-25T21:00:00"));
        assertEquals(Optional.empty(), partner("a/LS_0001.DNG", "2026-11-25T21:00:01"));
        assertEquals(Optional.of(1), partner("a/LS_0001.DNG", "2026-11-25T21:00:00"));
    }

    @Test
    void aPairIsFullAndACameraCountsItsNamesRound() {
        frame("LS_9999.JPG", "2026-11-25T21:00:00");
        events.add(new Event.FrameJoined(1, new FileMark("LS_9999.DNG", 3, 3), "", "", ""));
        assertEquals(Optional.empty(), partner("LS_9999.ARW", "2026-11-25T21:00:00"));
        // the same name again, thousands of pictures later
        events.add(
                new Event.FrameTaken(
                        2,
                        new FileMark("LS_9999.JPG", 5, 5),
                        "",
                        "2026-11-25T22:00:00",
                        "",
                        "",
                        "",
                        List.of(),
                        "",
                        0));
        assertEquals(Optional.of(2), partner("LS_9999.DNG", "2026-11-25T22:00:00"));
    }
}

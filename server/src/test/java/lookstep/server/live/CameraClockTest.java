package lookstep.server.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import lookstep.server.live.Event.FileMark;
import org.junit.jupiter.api.Test;

class CameraClockTest {
    /** 2026-11-25T21:00:00Z. */
    private static final long NINE = 1_795_640_400_000L;

    private final List<Frame> frames = new ArrayList<>();

    private Frame frame(String camera, String takenAt, long arrivedEpochMillis) {
        Frame frame =
                Frame.of(
                        new Event.FrameTaken(
                                frames.size() + 1,
                                new FileMark("x.JPG", 1, 1),
                                "",
                                takenAt,
                                "",
                                camera,
                                "",
                                List.of(),
                                "",
                                arrivedEpochMillis));
        frames.add(frame);
        return frame;
    }

    private long exposed(Frame frame) {
        return CameraClock.of(frames).exposedEpochMillis(frame);
    }

    @Test
    void theQuickestFrameSaysWhatTheClockIsOffBy() {
        // the camera is 7 h ahead of UTC and 3 min 20 s slow: 03:56:40 when it is 21:00:00Z
        Frame late = frame("a", "2026-11-26T03:56:40.000", NINE + 9_000);
        Frame quick = frame("a", "2026-11-26T03:56:50.500", NINE + 10_500 + 400);
        assertEquals(NINE + 400, exposed(late));
        assertEquals(NINE + 10_900, exposed(quick));
        CameraClock clock = CameraClock.of(frames).now().get("a");
        assertEquals(2, clock.frames());
        // a computer in a zone 1 h east of UTC shows 22:00:00 then
        assertEquals(((5 * 60 + 56) * 60 + 40) * 1000L - 400, clock.aheadMillis(3_600_000));
    }

    @Test
    void eachCameraHasItsOwnClock() {
        Frame one = frame("a", "2026-11-25T20:00:00.000", NINE);
        Frame other = frame("b", "2020-01-01T00:00:00.250", NINE + 1000);
        assertEquals(NINE, exposed(one));
        assertEquals(NINE + 1000, exposed(other));
    }

    @Test
    void withoutFractionsItIsTheMiddleOfTheSecondAndNeverAfterItCameIn() {
        frame("a", "2026-11-25T21:00:00", NINE + 300);
        Frame late = frame("a", "2026-11-25T21:00:10", NINE + 20_000);
        // 10 s after one that came in at .3: somewhere between 10.3 and 11.3
        assertEquals(NINE + 10_800, exposed(late));
        Frame atOnce = frame("a", "2026-11-25T21:00:30", NINE + 30_100);
        assertEquals(NINE + 30_100, exposed(atOnce));
    }

    @Test
    void aFrameThatSaysNoTimeWasExposedWhenItCameIn() {
        frame("a", "2026-11-25T21:00:00", NINE);
        assertEquals(NINE + 5, exposed(frame("a", "", NINE + 5)));
        assertEquals(NINE + 6, exposed(frame("a", "0000:00:00", NINE + 6)));
        assertTrue(CameraClock.of(List.of(frame("b", "", NINE))).now().isEmpty());
    }

    /** An hour behind, and put right on the set: the frames before keep their times. */
    @Test
    void aClockThatWasSetCountsAnew() {
        Frame before = frame("a", "2026-11-25T20:00:00.000", NINE + 100);
        Frame after = frame("a", "2026-11-25T21:00:30.000", NINE + 30_200);
        assertEquals(NINE + 100, exposed(before));
        assertEquals(NINE + 30_200, exposed(after));
        assertEquals(1, CameraClock.of(frames).now().get("a").frames());
        Frame quicker = frame("a", "2026-11-25T21:00:40.000", NINE + 40_050);
        assertEquals(NINE + 100, exposed(before));
        assertEquals(NINE + 30_050, exposed(after));
        assertEquals(NINE + 40_050, exposed(quicker));
    }

    @Test
    void theShotIsTheOneThatWasOn() {
        Timeline timeline =
                Timeline.NONE.then(NINE, "a").then(NINE + 60_000, "b").then(NINE + 61_000, "a");
        assertEquals("", timeline.shotOf(NINE - 1));
        assertEquals("a", timeline.shotOf(NINE));
        assertEquals("a", timeline.shotOf(NINE + 60_000));
        assertEquals("a", timeline.shotOf(NINE + 60_249));
        assertEquals("b", timeline.shotOf(NINE + 60_250));
        assertEquals("b", timeline.shotOf(NINE + 61_249));
        assertEquals("a", timeline.shotOf(NINE + 61_250));
        assertEquals(Map.of(), CameraClock.of(List.of()).now());
    }
}

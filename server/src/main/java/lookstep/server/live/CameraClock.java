package lookstep.server.live;

import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.TreeMap;

/**
 * What a camera's clock is off by, from the frames it has sent. A frame cannot come in before it
 * was exposed, so the smallest difference between coming in and the camera's time is nearest to the
 * truth: it is too great by what the quickest frame took on its way.
 *
 * @param camera as it calls itself
 * @param addMillis to be added to its time, read as if it were UTC, for this computer's epoch
 *     milliseconds: holds a wrong clock and the time zone
 * @param frames how many frames it comes from
 */
public record CameraClock(String camera, long addMillis, int frames) {
    /** A camera that does not write fractions says the second that has begun. */
    private static final long HALF_A_SECOND = 500;

    /** Each camera's; those that do not say the time are left out. */
    public static Map<String, CameraClock> of(List<Frame> frames) {
        Map<String, CameraClock> clocks = new TreeMap<>();
        for (Frame frame : frames) {
            millis(frame.takenAt())
                    .ifPresent(
                            taken ->
                                    clocks.merge(
                                            frame.camera(),
                                            new CameraClock(
                                                    frame.camera(),
                                                    frame.arrivedEpochMillis() - taken,
                                                    1),
                                            CameraClock::with));
        }
        return clocks;
    }

    private CameraClock with(CameraClock other) {
        return new CameraClock(camera, Math.min(addMillis, other.addMillis), frames + other.frames);
    }

    /** When a frame was exposed by this computer's clock; when it came in if that is not known. */
    public static long exposedEpochMillis(Frame frame, Map<String, CameraClock> clocks) {
        OptionalLong taken = millis(frame.takenAt());
        CameraClock clock = clocks.get(frame.camera());
        if (taken.isEmpty() || clock == null) {
            return frame.arrivedEpochMillis();
        }
        long within = frame.takenAt().indexOf('.') < 0 ? HALF_A_SECOND : 0;
        return Math.min(frame.arrivedEpochMillis(), taken.getAsLong() + within + clock.addMillis());
    }

    /**
     * By how much the camera's clock is ahead of this computer's; below 0 it is behind.
     *
     * @param zoneMillis of this computer's time zone, east of UTC is above 0
     */
    public long aheadMillis(long zoneMillis) {
        return -addMillis - zoneMillis;
    }

    private static OptionalLong millis(String takenAt) {
        try {
            return takenAt.isEmpty()
                    ? OptionalLong.empty()
                    : OptionalLong.of(
                            LocalDateTime.parse(takenAt).toInstant(ZoneOffset.UTC).toEpochMilli());
        } catch (DateTimeException unreadable) {
            return OptionalLong.empty();
        }
    }
}

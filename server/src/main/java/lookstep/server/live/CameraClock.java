package lookstep.server.live;

import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.TreeMap;

/**
 * What a camera's clock is off by, from the frames it has sent. A frame cannot come in before it
 * was exposed, so the smallest difference between coming in and the camera's time is nearest to the
 * truth: it is too great by what the quickest frame took on its way.
 *
 * <p>A difference that is smaller at once by more than a minute is no quicker way but a clock that
 * was set: from there on it counts anew, and the frames before stay what they are. A clock that was
 * set back looks like frames that were long on their way, and cannot be told from them.
 */
public final class CameraClock {
    private static final long SET_MILLIS = 60_000;

    /** A camera that does not write fractions says the second that has begun. */
    private static final long HALF_A_SECOND = 500;

    private final String camera;
    private long addMillis;
    private int frames;

    private CameraClock(String camera, long addMillis) {
        this.camera = camera;
        this.addMillis = addMillis;
        frames = 1;
    }

    /** As the camera calls itself. */
    public String camera() {
        return camera;
    }

    /**
     * To be added to its time, read as if it were UTC, for this computer's epoch milliseconds:
     * holds a wrong clock and the time zone.
     */
    public long addMillis() {
        return addMillis;
    }

    /** How many frames it comes from. */
    public int frames() {
        return frames;
    }

    /**
     * By how much the camera's clock is ahead of this computer's; below 0 it is behind.
     *
     * @param zoneMillis of this computer's time zone, east of UTC is above 0
     */
    public long aheadMillis(long zoneMillis) {
        return -addMillis - zoneMillis;
    }

    /**
     * All cameras' clocks.
     *
     * @param now each camera's as it is now, by its name; those that do not say the time are left
     *     out
     * @param ofFrames what held for each frame, by its number
     */
    public record All(Map<String, CameraClock> now, Map<Integer, CameraClock> ofFrames) {
        /**
         * When a frame was exposed by this computer's clock; when it came in if that is not known.
         */
        public long exposedEpochMillis(Frame frame) {
            OptionalLong taken = millis(frame.takenAt());
            CameraClock clock = ofFrames.get(frame.number());
            if (taken.isEmpty() || clock == null) {
                return frame.arrivedEpochMillis();
            }
            long within = frame.takenAt().indexOf('.') < 0 ? HALF_A_SECOND : 0;
            return Math.min(
                    frame.arrivedEpochMillis(), taken.getAsLong() + within + clock.addMillis());
        }

        /** Whether the same setting of the camera's clock held for both frames. */
        public boolean together(Frame one, Frame other) {
            CameraClock clock = ofFrames.get(one.number());
            return clock != null && clock == ofFrames.get(other.number());
        }
    }

    /** Works them out from all frames, in the order they came. */
    public static All of(List<Frame> frames) {
        Map<String, CameraClock> now = new TreeMap<>();
        Map<Integer, CameraClock> ofFrames = new HashMap<>();
        for (Frame frame : frames) {
            OptionalLong taken = millis(frame.takenAt());
            if (taken.isPresent()) {
                long difference = frame.arrivedEpochMillis() - taken.getAsLong();
                CameraClock clock = now.get(frame.camera());
                if (clock == null || difference < clock.addMillis - SET_MILLIS) {
                    clock = new CameraClock(frame.camera(), difference);
                    now.put(frame.camera(), clock);
                } else {
                    clock.addMillis = Math.min(clock.addMillis, difference);
                    clock.frames++;
                }
                ofFrames.put(frame.number(), clock);
            }
        }
        return new All(now, ofFrames);
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

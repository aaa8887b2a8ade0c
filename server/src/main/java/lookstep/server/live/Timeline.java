package lookstep.server.live;

import java.util.ArrayList;
import java.util.List;

/**
 * Which shot was current when.
 *
 * @param since in the order of time
 */
public record Timeline(List<Since> since) {
    /** Before anything. */
    public static final Timeline NONE = new Timeline(List.of());

    /**
     * Nobody releases a shutter into a change of light sooner than this after it: what seems to
     * have been exposed so soon is of the shot before. A quarter of a second is about the quickest
     * that people react to what they see (common practice).
     */
    static final long REACTION_MILLIS = 250;

    /**
     * From now on this shot.
     *
     * @param shot its id, empty before the first
     */
    public record Since(long atEpochMillis, String shot) {}

    public Timeline {
        since = List.copyOf(since);
    }

    Timeline then(long atEpochMillis, String shot) {
        List<Since> more = new ArrayList<>(since);
        more.add(new Since(atEpochMillis, shot));
        return new Timeline(more);
    }

    /** The shot that a frame exposed at this moment is of; empty before the first. */
    public String shotOf(long exposedEpochMillis) {
        String shot = "";
        for (Since one : since) {
            boolean seen = one.atEpochMillis() + REACTION_MILLIS <= exposedEpochMillis;
            boolean first = shot.isEmpty() && one.atEpochMillis() <= exposedEpochMillis;
            if (seen || first) {
                shot = one.shot();
            }
        }
        return shot;
    }
}

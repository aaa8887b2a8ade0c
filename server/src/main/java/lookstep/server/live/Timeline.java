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
     * @param shot its id, empty before the first and while plates are taken
     * @param plates the run of plates that is being taken; empty if none is
     */
    public record Since(long atEpochMillis, String shot, String plates) {
        /** Whether plates are being taken. */
        public boolean ofPlates() {
            return !plates.isEmpty();
        }
    }

    private static final Since NOTHING = new Since(0, "", "");

    public Timeline {
        since = List.copyOf(since);
    }

    Timeline then(long atEpochMillis, String shot) {
        return with(new Since(atEpochMillis, shot, ""));
    }

    Timeline thenPlates(long atEpochMillis, String run) {
        return with(new Since(atEpochMillis, "", run));
    }

    private Timeline with(Since one) {
        List<Since> more = new ArrayList<>(since);
        more.add(one);
        return new Timeline(more);
    }

    /** The steps from shot to shot: plates, and going on with a shot after them, are none. */
    public List<Since> shots() {
        List<Since> shots = new ArrayList<>();
        boolean after = false;
        for (Since one : since) {
            String last = shots.isEmpty() ? "" : shots.get(shots.size() - 1).shot();
            if (!one.ofPlates() && !(after && one.shot().equals(last))) {
                shots.add(one);
            }
            after = one.ofPlates();
        }
        return shots;
    }

    /** Whether plates were begun between two moments. */
    public boolean platesBetween(long from, long to) {
        return since.stream()
                .anyMatch(s -> s.ofPlates() && s.atEpochMillis() >= from && s.atEpochMillis() < to);
    }

    /** The shot that a frame exposed at this moment is of; empty before the first. */
    public String shotOf(long exposedEpochMillis) {
        return at(exposedEpochMillis).shot();
    }

    /** The run of plates that a frame exposed at this moment is of; empty if it is of none. */
    public String platesOf(long exposedEpochMillis) {
        return at(exposedEpochMillis).plates();
    }

    private Since at(long exposedEpochMillis) {
        Since at = NOTHING;
        for (Since one : since) {
            boolean seen = one.atEpochMillis() + REACTION_MILLIS <= exposedEpochMillis;
            boolean first = at.shot().isEmpty() && one.atEpochMillis() <= exposedEpochMillis;
            if (seen || first) {
                at = one;
            }
        }
        return at;
    }
}

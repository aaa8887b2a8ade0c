package lookstep.server.live;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lookstep.server.look.Adjustment;

/**
 * What the crew changed about the light, and can take back.
 *
 * @param nudged by the shot's id: holds for that shot alone
 * @param kept by the look's name: holds wherever the look is used
 * @param past what can be taken back, the newest last
 */
public record Changes(
        Map<String, Adjustment> nudged, Map<String, Adjustment> kept, List<Before> past) {
    public static final Changes NONE = new Changes(Map.of(), Map.of(), List.of());

    private static final int MOST_PAST = 100;

    /**
     * How it was before a change.
     *
     * @param says the change in words
     */
    public record Before(
            Map<String, Adjustment> nudged, Map<String, Adjustment> kept, String says) {}

    public Changes {
        nudged = Collections.unmodifiableMap(new LinkedHashMap<>(nudged));
        kept = Collections.unmodifiableMap(new LinkedHashMap<>(kept));
        past = List.copyOf(past);
    }

    /** What holds for a shot on a look. */
    public Adjustment of(String shot, String look) {
        return nudged.getOrDefault(shot, kept.getOrDefault(look, Adjustment.NONE));
    }

    /** Whether the shot has changes that are not kept in its look. */
    public boolean open(String shot) {
        return nudged.containsKey(shot);
    }

    /** What is taken back next, in words. */
    public Optional<String> undo() {
        return past.isEmpty() ? Optional.empty() : Optional.of(past.get(past.size() - 1).says());
    }

    Changes nudge(String shot, Adjustment adjustment, String says) {
        Map<String, Adjustment> next = new LinkedHashMap<>(nudged);
        next.put(shot, adjustment);
        return change(next, kept, says);
    }

    /** The shot's changes become the look's. */
    Changes keep(String shot, String look, String says) {
        Adjustment adjustment = nudged.get(shot);
        if (adjustment == null) {
            return this;
        }
        Map<String, Adjustment> nextNudged = new LinkedHashMap<>(nudged);
        nextNudged.remove(shot);
        Map<String, Adjustment> nextKept = new LinkedHashMap<>(kept);
        nextKept.put(look, adjustment);
        nextKept.values().removeIf(Adjustment::none);
        return change(nextNudged, nextKept, says);
    }

    /** The shot's changes are gone; without any, those that were kept in its look. */
    Changes forget(String shot, String look, String says) {
        Map<String, Adjustment> nextNudged = new LinkedHashMap<>(nudged);
        Map<String, Adjustment> nextKept = new LinkedHashMap<>(kept);
        if (nextNudged.remove(shot) == null && nextKept.remove(look) == null) {
            return this;
        }
        return change(nextNudged, nextKept, says);
    }

    Changes undone() {
        if (past.isEmpty()) {
            return this;
        }
        Before before = past.get(past.size() - 1);
        return new Changes(before.nudged(), before.kept(), past.subList(0, past.size() - 1));
    }

    private Changes change(
            Map<String, Adjustment> nextNudged, Map<String, Adjustment> nextKept, String says) {
        List<Before> next = new ArrayList<>(past);
        next.add(new Before(nudged, kept, says));
        return new Changes(
                nextNudged,
                nextKept,
                next.subList(Math.max(0, next.size() - MOST_PAST), next.size()));
    }
}

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
 * @param nudged holds for one shot alone
 * @param kept by the look's name: holds wherever the look is used
 * @param past what can be taken back, the newest last
 */
public record Changes(
        Map<Place, Adjustment> nudged, Map<String, Adjustment> kept, List<Before> past) {
    public static final Changes NONE = new Changes(Map.of(), Map.of(), List.of());

    private static final int MOST_PAST = 100;

    /** A shot on a look: if the plan is edited and the shot is on another, nothing is changed. */
    public record Place(String shot, String look) {}

    /**
     * How it was before a change.
     *
     * @param shot on which it was made
     * @param says the change in words
     */
    public record Before(
            Map<Place, Adjustment> nudged,
            Map<String, Adjustment> kept,
            String shot,
            String says) {}

    public Changes {
        nudged = Collections.unmodifiableMap(new LinkedHashMap<>(nudged));
        kept = Collections.unmodifiableMap(new LinkedHashMap<>(kept));
        past = List.copyOf(past);
    }

    /** What holds for a shot on a look. */
    public Adjustment of(String shot, String look) {
        return nudged.getOrDefault(new Place(shot, look), kept(look));
    }

    /** Whether the shot has changes that are not kept in its look. */
    public boolean open(String shot, String look) {
        return nudged.containsKey(new Place(shot, look));
    }

    /** What is taken back next. */
    public Optional<Before> undo() {
        return past.isEmpty() ? Optional.empty() : Optional.of(past.get(past.size() - 1));
    }

    private Adjustment kept(String look) {
        return kept.getOrDefault(look, Adjustment.NONE);
    }

    /** What is the same as what is kept is no change. */
    Changes nudge(String shot, String look, Adjustment adjustment, String says) {
        Map<Place, Adjustment> next = new LinkedHashMap<>(nudged);
        next.put(new Place(shot, look), adjustment);
        next.remove(new Place(shot, look), kept(look));
        return change(next, kept, shot, says);
    }

    /** The look is called otherwise now. */
    Changes renamed(String from, String to) {
        return new Changes(
                places(nudged, from, to),
                looks(kept, from, to),
                past.stream()
                        .map(
                                b ->
                                        new Before(
                                                places(b.nudged(), from, to),
                                                looks(b.kept(), from, to),
                                                b.shot(),
                                                b.says()))
                        .toList());
    }

    private static Map<Place, Adjustment> places(
            Map<Place, Adjustment> of, String from, String to) {
        Map<Place, Adjustment> all = new LinkedHashMap<>();
        of.forEach(
                (place, adjustment) ->
                        all.put(
                                place.look().equals(from) ? new Place(place.shot(), to) : place,
                                adjustment));
        return all;
    }

    private static Map<String, Adjustment> looks(
            Map<String, Adjustment> of, String from, String to) {
        Map<String, Adjustment> all = new LinkedHashMap<>();
        of.forEach((look, adjustment) -> all.put(look.equals(from) ? to : look, adjustment));
        return all;
    }

    /** The shot's changes become the look's. */
    Changes keep(String shot, String look, String says) {
        Adjustment adjustment = nudged.get(new Place(shot, look));
        if (adjustment == null) {
            return this;
        }
        Map<Place, Adjustment> nextNudged = new LinkedHashMap<>(nudged);
        nextNudged.remove(new Place(shot, look));
        Map<String, Adjustment> nextKept = new LinkedHashMap<>(kept);
        nextKept.put(look, adjustment);
        nextKept.values().removeIf(Adjustment::none);
        return change(nextNudged, nextKept, shot, says);
    }

    /** The shot's changes are gone; without any, those that were kept in its look. */
    Changes forget(String shot, String look, String says) {
        Map<Place, Adjustment> nextNudged = new LinkedHashMap<>(nudged);
        Map<String, Adjustment> nextKept = new LinkedHashMap<>(kept);
        if (nextNudged.remove(new Place(shot, look)) == null && nextKept.remove(look) == null) {
            return this;
        }
        return change(nextNudged, nextKept, shot, says);
    }

    Changes undone() {
        if (past.isEmpty()) {
            return this;
        }
        Before before = past.get(past.size() - 1);
        return new Changes(before.nudged(), before.kept(), past.subList(0, past.size() - 1));
    }

    private Changes change(
            Map<Place, Adjustment> nextNudged,
            Map<String, Adjustment> nextKept,
            String shot,
            String says) {
        List<Before> next = new ArrayList<>(past);
        next.add(new Before(nudged, kept, shot, says));
        return new Changes(
                nextNudged,
                nextKept,
                next.subList(Math.max(0, next.size() - MOST_PAST), next.size()));
    }
}

package lookstep.server.live;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lookstep.server.live.Event.PlateAsked;
import lookstep.server.live.Event.PlateTaken;
import lookstep.server.live.Event.PlatesBegun;

/**
 * Plates while they are taken, and afterwards.
 *
 * @param begun what was begun
 * @param place where the shoot was; empty for the plan's first
 * @param steps as they are now: one that burnt was asked again with less light
 * @param at the step that is lit, counted from 0
 * @param shownEpochMillis since when
 * @param taken the frame of each step, by the step
 * @param asked what was asked again, in the order of time
 */
public record PlateRun(
        PlatesBegun begun,
        String place,
        List<PlateStep> steps,
        int at,
        long shownEpochMillis,
        Map<Integer, PlateTaken> taken,
        List<PlateAsked> asked) {
    public PlateRun {
        steps = List.copyOf(steps);
        taken = Map.copyOf(taken);
        asked = List.copyOf(asked);
    }

    static PlateRun of(PlatesBegun begun, String place, long atEpochMillis) {
        return new PlateRun(begun, place, begun.steps(), 0, atEpochMillis, Map.of(), List.of());
    }

    /** Tells it from other runs. */
    public String id() {
        return begun.id();
    }

    /** The step that is lit. */
    public PlateStep step() {
        return steps.get(at);
    }

    /** The first step that has no frame yet, from the one that is lit on; empty if all have one. */
    public Optional<Integer> missing() {
        for (int i = 0; i < steps.size(); i++) {
            int step = (at + i) % steps.size();
            if (!taken.containsKey(step)) {
                return Optional.of(step);
            }
        }
        return Optional.empty();
    }

    /** Why this step was asked again last; empty if it was not since it has its frame. */
    public Optional<PlateAsked> newestAsked(int step) {
        for (int i = asked.size() - 1; i >= 0; i--) {
            if (asked.get(i).step() == step) {
                return taken.containsKey(step) ? Optional.empty() : Optional.of(asked.get(i));
            }
        }
        return Optional.empty();
    }

    /** How often a step was asked again by itself since a hand asked for it last. */
    public int askedByItself(int step) {
        int count = 0;
        for (PlateAsked one : asked) {
            if (one.step() == step) {
                count = one.byHand() ? 0 : count + 1;
            }
        }
        return count;
    }

    PlateRun shown(int step, long atEpochMillis) {
        return new PlateRun(begun, place, steps, step, atEpochMillis, taken, asked);
    }

    PlateRun renamed(String from, String to) {
        return begun.look().equals(from)
                ? new PlateRun(begun.on(to), place, steps, at, shownEpochMillis, taken, asked)
                : this;
    }

    PlateRun taken(PlateTaken one) {
        Map<Integer, PlateTaken> more = new LinkedHashMap<>(taken);
        more.put(one.step(), one);
        return new PlateRun(begun, place, steps, at, shownEpochMillis, more, asked);
    }

    PlateRun asked(PlateAsked one, long atEpochMillis) {
        Map<Integer, PlateTaken> less = new LinkedHashMap<>(taken);
        less.remove(one.step());
        List<PlateAsked> more = new ArrayList<>(asked);
        more.add(one);
        List<PlateStep> now = new ArrayList<>(steps);
        if (!one.levels().isEmpty()) {
            now.set(one.step(), now.get(one.step()).with(one.levels()));
        }
        return new PlateRun(begun, place, now, one.step(), atEpochMillis, less, more);
    }
}

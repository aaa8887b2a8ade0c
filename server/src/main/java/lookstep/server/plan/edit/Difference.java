package lookstep.server.plan.edit;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/**
 * One place in which two plans differ.
 *
 * @param path where; entries of lists by name or id where they have one
 * @param kind what happened there
 * @param was null if it is new
 * @param now null if it is gone
 */
public record Difference(PlanPath path, Kind kind, JsonNode was, JsonNode now) {
    /** What happened. */
    public enum Kind {
        /** Another value. */
        CHANGED,
        /** A key or an entry that was not there. */
        NEW,
        /** A key or an entry that was there. */
        GONE,
        /** The entries that stayed are in another order; was and now are their names. */
        ORDER
    }

    /** {@code looks, safe, lights, key: stops -0.7 is now -1}. */
    public String words() {
        List<String> steps = path.steps().stream().map(Step::words).toList();
        String what =
                switch (kind) {
                    case CHANGED -> " " + Said.value(was) + " is now " + Said.value(now);
                    case NEW -> " is new: " + Said.value(now);
                    case GONE -> " is gone, it was " + Said.value(was);
                    case ORDER -> " are now in the order " + names(now);
                };
        if (steps.isEmpty()) {
            return "the plan" + what;
        }
        String place = String.join(", ", steps.subList(0, steps.size() - 1));
        return (place.isEmpty() ? "" : place + ": ") + steps.get(steps.size() - 1) + what;
    }

    /** Whether one of the two is in the other, or they are the same place. */
    boolean touches(Difference other) {
        int shorter = Math.min(path.steps().size(), other.path.steps().size());
        if (kind == Kind.ORDER || other.kind == Kind.ORDER) {
            return kind == other.kind && path.equals(other.path);
        }
        return path.steps().subList(0, shorter).equals(other.path.steps().subList(0, shorter));
    }

    private static String names(JsonNode list) {
        List<String> out = new ArrayList<>();
        list.forEach(name -> out.add(name.asText()));
        return out.stream().collect(Collectors.joining(", "));
    }
}

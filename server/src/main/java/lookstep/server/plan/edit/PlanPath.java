package lookstep.server.plan.edit;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/**
 * Where something is in a plan. JSON: {@code ["looks", {"name": "safe"}, "lights", "key",
 * "stops"]}.
 *
 * @param steps from the whole file inwards; none is the whole file
 */
public record PlanPath(List<Step> steps) {
    /** The whole file. */
    public static final PlanPath ROOT = new PlanPath(List.of());

    public PlanPath {
        steps = List.copyOf(steps);
    }

    /**
     * From keys ({@link String}), indices ({@link Integer}) and {@link Step}s.
     *
     * @throws IllegalArgumentException if one is something else
     */
    public static PlanPath of(Object... steps) {
        List<Step> out = new ArrayList<>();
        for (Object step : steps) {
            if (step instanceof String key) {
                out.add(new Step.Key(key));
            } else if (step instanceof Integer index) {
                out.add(new Step.Index(index));
            } else if (step instanceof Step one) {
                out.add(one);
            } else {
                throw new IllegalArgumentException("no step of a path: " + step);
            }
        }
        return new PlanPath(out);
    }

    /**
     * From its JSON form.
     *
     * @throws IllegalArgumentException if it is none
     */
    @JsonCreator
    public static PlanPath of(JsonNode json) {
        if (!json.isArray()) {
            throw new IllegalArgumentException("a path is a list of steps");
        }
        List<Step> out = new ArrayList<>();
        json.forEach(step -> out.add(Step.of(step)));
        return new PlanPath(out);
    }

    /** Its JSON form. */
    @JsonValue
    public ArrayNode json() {
        ArrayNode out = JsonNodeFactory.instance.arrayNode();
        for (Step step : steps) {
            if (step instanceof Step.Key key) {
                out.add(key.name());
            } else if (step instanceof Step.Index index) {
                out.add(index.at());
            } else if (step instanceof Step.Choice choice) {
                ObjectNode one = out.addObject();
                one.put(choice.key(), choice.value());
            }
        }
        return out;
    }

    /** One step further. */
    public PlanPath then(Step step) {
        List<Step> out = new ArrayList<>(steps);
        out.add(step);
        return new PlanPath(out);
    }

    /** One step further, to a key's value. */
    public PlanPath then(String key) {
        return then(new Step.Key(key));
    }

    /** One step further, to an item of a list. */
    public PlanPath then(int index) {
        return then(new Step.Index(index));
    }

    boolean isRoot() {
        return steps.isEmpty();
    }

    /** The last step; only of a path that has one. */
    Step last() {
        return steps.get(steps.size() - 1);
    }

    /** All but the last step; only of a path that has one. */
    PlanPath parent() {
        return new PlanPath(steps.subList(0, steps.size() - 1));
    }

    /** For sentences: {@code looks, safe, lights, key, stops}. */
    public String words() {
        return isRoot()
                ? "the plan"
                : steps.stream().map(Step::words).collect(Collectors.joining(", "));
    }
}

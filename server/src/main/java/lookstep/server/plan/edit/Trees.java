package lookstep.server.plan.edit;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** Edits on trees of values: what a text must say after an edit. Paths are keys and indices. */
final class Trees {
    private Trees() {}

    /** The value at a path that is there. */
    static JsonNode at(JsonNode root, PlanPath path) {
        JsonNode at = root;
        for (Step step : path.steps()) {
            at =
                    step instanceof Step.Key key
                            ? at.get(key.name())
                            : at.get(((Step.Index) step).at());
        }
        return at;
    }

    static JsonNode set(JsonNode root, PlanPath path, JsonNode value) {
        JsonNode out = root.deepCopy();
        JsonNode parent = at(out, path.parent());
        if (path.last() instanceof Step.Key key) {
            ((ObjectNode) parent).set(key.name(), value);
        } else if (path.last() instanceof Step.Index index) {
            ((ArrayNode) parent).set(index.at(), value);
        }
        return out;
    }

    static JsonNode remove(JsonNode root, PlanPath path) {
        JsonNode out = root.deepCopy();
        JsonNode parent = at(out, path.parent());
        if (path.last() instanceof Step.Key key) {
            ((ObjectNode) parent).remove(key.name());
        } else if (path.last() instanceof Step.Index index) {
            ((ArrayNode) parent).remove(index.at());
        }
        return out;
    }

    /** One key of a group called otherwise, at its place. */
    static JsonNode renamed(JsonNode root, PlanPath group, String key, String name) {
        ObjectNode out = JsonNodeFactory.instance.objectNode();
        at(root, group)
                .properties()
                .forEach(e -> out.set(e.getKey().equals(key) ? name : e.getKey(), e.getValue()));
        return group.isRoot() ? out : set(root, group, out);
    }

    static JsonNode insert(JsonNode root, PlanPath list, int index, JsonNode value) {
        JsonNode out = root.deepCopy();
        ((ArrayNode) at(out, list)).insert(index, value);
        return out;
    }

    static JsonNode move(JsonNode root, PlanPath item, int to) {
        JsonNode out = root.deepCopy();
        ArrayNode list = (ArrayNode) at(out, item.parent());
        list.insert(to, list.remove(((Step.Index) item.last()).at()));
        return out;
    }

    /** A group with one key more, or a list with one item more if the key is empty. */
    static JsonNode with(JsonNode bunch, String key, JsonNode value) {
        if (bunch.isObject()) {
            ObjectNode group = bunch.deepCopy();
            return group.set(key, value);
        }
        ArrayNode list = bunch.deepCopy();
        return list.add(value);
    }

    /** A value below keys: {@code {"a": {"b": value}}}. */
    static JsonNode below(PlanPath keys, JsonNode value) {
        JsonNode out = value;
        for (int i = keys.steps().size() - 1; i >= 0; i--) {
            ObjectNode group = JsonNodeFactory.instance.objectNode();
            group.set(((Step.Key) keys.steps().get(i)).name(), out);
            out = group;
        }
        return out;
    }
}

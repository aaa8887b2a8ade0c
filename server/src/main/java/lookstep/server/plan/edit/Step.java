package lookstep.server.plan.edit;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Map;

/** One step into a plan's tree. */
public sealed interface Step {
    /** How sentences call it. */
    String words();

    /** The value of a key. JSON: {@code "looks"}. */
    record Key(String name) implements Step {
        @Override
        public String words() {
            return name;
        }
    }

    /**
     * An item of a list by its place. JSON: {@code 2}.
     *
     * @param at from 0
     */
    record Index(int at) implements Step {
        public Index {
            if (at < 0) {
                throw new IllegalArgumentException("an index into a list begins with 0");
            }
        }

        @Override
        public String words() {
            return "entry " + (at + 1);
        }
    }

    /** The item of a list that has this value under this key. JSON: {@code {"name": "safe"}}. */
    record Choice(String key, String value) implements Step {
        @Override
        public String words() {
            return value;
        }

        boolean fits(JsonNode item) {
            JsonNode there = item.get(key);
            return there != null && there.isValueNode() && there.asText().equals(value);
        }
    }

    /**
     * From its JSON form.
     *
     * @throws IllegalArgumentException if it is none
     */
    static Step of(JsonNode json) {
        if (json.isTextual()) {
            return new Key(json.textValue());
        }
        if (json.isInt()) {
            return new Index(json.intValue());
        }
        if (json.isObject() && json.size() == 1) {
            Map.Entry<String, JsonNode> only = json.properties().iterator().next();
            if (only.getValue().isValueNode()) {
                return new Choice(only.getKey(), only.getValue().asText());
            }
        }
        throw new IllegalArgumentException(
                "a step of a path is a key, a number from 0, or one key with its value such as"
                        + " {\"name\": \"safe\"}");
    }
}

package lookstep.server.plan.edit;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.NullNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;

/**
 * One change of a plan, with what its author saw there before. A value that is absent, and a key
 * without a value, are JSON null.
 *
 * <p>JSON: {@code {"op": "set", "path": ["looks", {"name": "safe"}, "lights", "key", "stops"],
 * "was": -0.7, "value": -1}}.
 */
@JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "op")
@JsonSubTypes({
    @JsonSubTypes.Type(value = Edit.Set.class, name = "set"),
    @JsonSubTypes.Type(value = Edit.Remove.class, name = "remove"),
    @JsonSubTypes.Type(value = Edit.Insert.class, name = "insert"),
    @JsonSubTypes.Type(value = Edit.Move.class, name = "move"),
    @JsonSubTypes.Type(value = Edit.Duplicate.class, name = "duplicate"),
    @JsonSubTypes.Type(value = Edit.Rename.class, name = "rename")
})
public sealed interface Edit {
    /** What it is about: the value, the item, or the list that gets an item. */
    PlanPath path();

    /**
     * Gives a key or an item of a list another value. A key that is not there is made, at the end
     * of its group; groups on the way to it too.
     *
     * @param was what stood there; null if nothing did
     * @param value anything but null; a group or list is compared with the one that is there, and
     *     only what differs is written
     */
    record Set(PlanPath path, JsonNode was, JsonNode value) implements Edit {
        public Set {
            need(path, "path");
            was = orNull(was);
            value = orNull(value);
        }
    }

    /**
     * Takes away a key or an item of a list, with its comments: those on its lines, below it and
     * farther in, and directly above it.
     *
     * @param was what stood there
     */
    record Remove(PlanPath path, JsonNode was) implements Edit {
        public Remove {
            need(path, "path");
            was = orNull(was);
        }
    }

    /**
     * Puts a new item into a list. At most one of the three places is given; none is the end.
     *
     * @param path the list
     * @param at before the item that has this index now, from 0; its size is the end; or null
     * @param before the item to stand before, or null
     * @param after the item to stand behind, or null
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    record Insert(PlanPath path, Integer at, JsonNode before, JsonNode after, JsonNode value)
            implements Edit {
        public Insert {
            need(path, "path");
            value = orNull(value);
            before = before == null || before.isNull() ? null : before;
            after = after == null || after.isNull() ? null : after;
            int places = (at == null ? 0 : 1) + (before == null ? 0 : 1) + (after == null ? 0 : 1);
            if (places > 1) {
                throw new IllegalArgumentException("give one of 'at', 'before' and 'after'");
            }
        }

        /** At the end. */
        public Insert(PlanPath path, JsonNode value) {
            this(path, null, null, null, value);
        }

        /** At an index. */
        public Insert(PlanPath path, int at, JsonNode value) {
            this(path, at, null, null, value);
        }
    }

    /**
     * Puts an item to another place of its list, with its comments.
     *
     * @param path the item
     * @param to its index afterwards, from 0
     * @param was the item as it was seen
     */
    record Move(PlanPath path, int to, JsonNode was) implements Edit {
        public Move {
            need(path, "path");
            was = orNull(was);
        }
    }

    /**
     * Copies an item of a list, with its comments, to directly behind it.
     *
     * @param path the item
     * @param was the item as it was seen
     * @param changed the keys that the copy has other values of, such as a new name; null takes a
     *     key away
     */
    record Duplicate(PlanPath path, JsonNode was, ObjectNode changed) implements Edit {
        public Duplicate {
            need(path, "path");
            was = orNull(was);
            need(changed, "changed");
        }
    }

    /**
     * Gives a key another name, in its place and with its comments.
     *
     * @param path to the key's value
     * @param value the new name; no other key of the group may have it
     */
    record Rename(PlanPath path, String value) implements Edit {
        public Rename {
            need(path, "path");
            need(value, "value");
        }
    }

    /**
     * From a JSON list of edits.
     *
     * @throws EditRefused if it is none
     */
    static List<Edit> read(JsonNode json) throws EditRefused {
        if (!json.isArray()) {
            throw new EditRefused("these are no edits", "send a list of them");
        }
        List<Edit> out = new ArrayList<>();
        for (JsonNode one : json) {
            try {
                out.add(Json.MAPPER.treeToValue(one, Edit.class));
            } catch (JsonProcessingException | IllegalArgumentException e) {
                String why =
                        e instanceof JsonProcessingException p
                                ? p.getOriginalMessage()
                                : e.getMessage();
                throw new EditRefused(
                        "edit " + (out.size() + 1) + " cannot be read (" + why + ")",
                        "write {\"op\": \"set\", \"path\": [\"title\"], \"was\": \"a\", \"value\":"
                                + " \"b\"}; op is set, remove, insert, move, duplicate or rename");
            }
        }
        return List.copyOf(out);
    }

    private static JsonNode orNull(JsonNode json) {
        return json == null ? NullNode.instance : json;
    }

    private static void need(Object part, String name) {
        if (part == null) {
            throw new IllegalArgumentException("'" + name + "' is missing");
        }
    }

    /** How edits are read. */
    final class Json {
        private static final JsonMapper MAPPER = JsonMapper.builder().build();

        private Json() {}
    }
}

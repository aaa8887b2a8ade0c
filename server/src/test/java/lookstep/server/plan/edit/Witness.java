package lookstep.server.plan.edit;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.LoadSettingsBuilder;
import org.snakeyaml.engine.v2.api.lowlevel.Parse;
import org.snakeyaml.engine.v2.comments.CommentType;
import org.snakeyaml.engine.v2.events.CommentEvent;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.schema.CoreSchema;

/** Another parser, of YAML 1.2 rather than 1.1: it says what a text says, and its comments. */
final class Witness {
    private static final LoadSettings PLAIN = settings().build();
    private static final LoadSettings WITH_COMMENTS = settings().setParseComments(true).build();

    private Witness() {}

    /**
     * Version 3.0.1 fails on letters of two chars at the edge of its buffer: so it gets a large
     * one.
     */
    private static LoadSettingsBuilder settings() {
        return LoadSettings.builder().setSchema(new CoreSchema()).setBufferSize(1_000_000);
    }

    /** What it says. */
    static JsonNode json(String text) {
        return json(new Load(PLAIN).loadFromString(text));
    }

    private static JsonNode json(Object value) {
        JsonNodeFactory nodes = JsonNodeFactory.instance;
        if (value == null) {
            return nodes.nullNode();
        }
        if (value instanceof Map<?, ?> map) {
            ObjectNode out = nodes.objectNode();
            map.forEach((k, v) -> out.set(String.valueOf(k), json(v)));
            return out;
        }
        if (value instanceof List<?> list) {
            ArrayNode out = nodes.arrayNode();
            list.forEach(v -> out.add(json(v)));
            return out;
        }
        if (value instanceof Boolean b) {
            return nodes.booleanNode(b);
        }
        if (value instanceof Double d) {
            return nodes.numberNode(d);
        }
        if (value instanceof Integer i) {
            return nodes.numberNode(i);
        }
        if (value instanceof Long l) {
            return nodes.numberNode(l);
        }
        return nodes.textNode(String.valueOf(value));
    }

    /** Its comments from the first to the last, without the hash sign. */
    static List<String> comments(String text) {
        List<String> out = new ArrayList<>();
        for (Event event : new Parse(WITH_COMMENTS).parseString(text)) {
            if (event instanceof CommentEvent c && c.getCommentType() != CommentType.BLANK_LINE) {
                out.add(c.getValue());
            }
        }
        return out;
    }
}

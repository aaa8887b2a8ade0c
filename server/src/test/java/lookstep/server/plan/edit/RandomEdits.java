package lookstep.server.plan.edit;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.NullNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** Edits that anybody might make, and what the tree has to be then, reckoned on the tree alone. */
final class RandomEdits {
    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;
    private static final List<String> TEXTS =
            List.of(
                    "plain",
                    "two words",
                    "17:30",
                    "1/100",
                    "8 min",
                    "yes",
                    "No",
                    "on",
                    "off",
                    "null",
                    "~",
                    "1.70",
                    "-3",
                    "+1",
                    "0x1F",
                    "0o17",
                    "1_000",
                    "1e3",
                    "2026-05-01",
                    "a: b",
                    "a #b",
                    "#c",
                    "a#b",
                    "[x]",
                    "{y}",
                    "a, b",
                    "- d",
                    "-d",
                    "? e",
                    "*f",
                    "&g",
                    "!h",
                    "|",
                    ">",
                    "%i",
                    "@j",
                    "`k",
                    "\"q\"",
                    "it's",
                    "it's \"q\"",
                    "back\\slash",
                    "",
                    " lead",
                    "trail ",
                    "two\nlines",
                    "tab\there",
                    "é 名",
                    "😀 🎸",
                    "true",
                    "False",
                    "y",
                    "n",
                    ".5",
                    ".inf",
                    ".",
                    "...",
                    "---",
                    "=",
                    "<<",
                    "colon:",
                    "a:b",
                    "\u2028",
                    "\u0007",
                    "\u00a0x",
                    "1,5",
                    "0",
                    "08",
                    "12:30:45",
                    "1.",
                    "http://x.y/z#a?b=c");
    private static final List<String> KEYS =
            List.of("new", "new key", "yes", "1", "a: b", "#x", "😀k", "it's", "-", "k,l", "");
    private static final double[] DOUBLES = {
        1.7, -0.7, 0.1 + 0.2, 1.70000001, 0.003, -0.003, 1e-5, 100, 2.5e9, 0, -0.0, 1234567.25
    };

    private final Random random;

    RandomEdits(long seed) {
        random = new Random(seed);
    }

    /**
     * @param json the tree afterwards
     */
    record Wanted(Edit edit, JsonNode json) {}

    /** One edit that fits. */
    Wanted next(JsonNode root) {
        while (true) {
            List<PlanPath> paths = new ArrayList<>();
            collect(root, PlanPath.ROOT, paths);
            PlanPath path = paths.get(random.nextInt(paths.size()));
            Wanted wanted =
                    switch (random.nextInt(10)) {
                        case 0, 1, 2 -> set(root, path);
                        case 3 -> create(root, path);
                        case 4, 5 -> remove(root, path);
                        case 6, 7 -> insert(root, path);
                        case 8 -> move(root, path);
                        default -> duplicate(root, path);
                    };
            if (wanted != null) {
                return wanted;
            }
        }
    }

    private static void collect(JsonNode at, PlanPath path, List<PlanPath> out) {
        out.add(path);
        at.properties().forEach(e -> collect(e.getValue(), path.then(e.getKey()), out));
        for (int i = 0; at.isArray() && i < at.size(); i++) {
            collect(at.get(i), path.then(i), out);
        }
    }

    private static JsonNode get(JsonNode root, PlanPath path) {
        JsonNode at = root;
        for (Step step : path.steps()) {
            at = step instanceof Step.Key k ? at.get(k.name()) : at.get(((Step.Index) step).at());
        }
        return at;
    }

    private Wanted set(JsonNode root, PlanPath path) {
        if (path.steps().isEmpty()) {
            return null;
        }
        JsonNode was = get(root, path);
        JsonNode value = random.nextInt(4) > 0 ? scalar() : value(0);
        JsonNode out = root.deepCopy();
        put(out, path, value);
        return new Wanted(new Edit.Set(path, was, value), out);
    }

    private static void put(JsonNode root, PlanPath path, JsonNode value) {
        JsonNode parent = get(root, path.parent());
        if (path.last() instanceof Step.Key key) {
            ((ObjectNode) parent).set(key.name(), value);
        } else {
            ((ArrayNode) parent).set(((Step.Index) path.last()).at(), value);
        }
    }

    private Wanted create(JsonNode root, PlanPath path) {
        JsonNode at = get(root, path);
        String key = KEYS.get(random.nextInt(KEYS.size()));
        if (!at.isObject() || at.has(key)) {
            return null;
        }
        JsonNode value = value(0);
        JsonNode out = root.deepCopy();
        ((ObjectNode) get(out, path)).set(key, value);
        return new Wanted(new Edit.Set(path.then(key), NullNode.instance, value), out);
    }

    private Wanted remove(JsonNode root, PlanPath path) {
        if (path.steps().isEmpty()) {
            return null;
        }
        JsonNode out = root.deepCopy();
        JsonNode parent = get(out, path.parent());
        if (path.last() instanceof Step.Key key) {
            ((ObjectNode) parent).remove(key.name());
        } else {
            ((ArrayNode) parent).remove(((Step.Index) path.last()).at());
        }
        return new Wanted(new Edit.Remove(path, get(root, path)), out);
    }

    private Wanted insert(JsonNode root, PlanPath path) {
        JsonNode at = get(root, path);
        if (!at.isArray()) {
            return null;
        }
        int index = random.nextInt(at.size() + 1);
        JsonNode value = random.nextBoolean() || at.isEmpty() ? value(0) : at.get(0).deepCopy();
        JsonNode out = root.deepCopy();
        ((ArrayNode) get(out, path)).insert(index, value);
        return new Wanted(new Edit.Insert(path, index, value), out);
    }

    private Wanted move(JsonNode root, PlanPath path) {
        if (path.steps().isEmpty() || !(path.last() instanceof Step.Index index)) {
            return null;
        }
        JsonNode out = root.deepCopy();
        ArrayNode list = (ArrayNode) get(out, path.parent());
        int to = random.nextInt(list.size());
        list.insert(to, list.remove(index.at()));
        return new Wanted(new Edit.Move(path, to, get(root, path)), out);
    }

    private Wanted duplicate(JsonNode root, PlanPath path) {
        if (path.steps().isEmpty() || !(path.last() instanceof Step.Index index)) {
            return null;
        }
        JsonNode was = get(root, path);
        JsonNode copy = was.deepCopy();
        ObjectNode changed = NODES.objectNode();
        if (copy instanceof ObjectNode group && group.has("name")) {
            changed.put("name", "a copy");
            group.put("name", "a copy");
        }
        JsonNode out = root.deepCopy();
        ((ArrayNode) get(out, path.parent())).insert(index.at() + 1, copy);
        return new Wanted(new Edit.Duplicate(path, was, changed), out);
    }

    private JsonNode scalar() {
        return switch (random.nextInt(5)) {
            case 0 -> NODES.numberNode(random.nextInt(2000) - 1000);
            case 1 -> NODES.numberNode(DOUBLES[random.nextInt(DOUBLES.length)]);
            case 2 -> NODES.booleanNode(random.nextBoolean());
            default -> NODES.textNode(TEXTS.get(random.nextInt(TEXTS.size())));
        };
    }

    private JsonNode value(int depth) {
        int kind = depth > 2 ? 0 : random.nextInt(4);
        int size = random.nextInt(4);
        if (kind == 1) {
            ArrayNode out = NODES.arrayNode();
            for (int i = 0; i < size; i++) {
                out.add(value(depth + 1));
            }
            return out;
        }
        if (kind == 2) {
            ObjectNode out = NODES.objectNode();
            for (int i = 0; i < size; i++) {
                out.set(KEYS.get(random.nextInt(KEYS.size())), value(depth + 1));
            }
            return out;
        }
        return scalar();
    }
}

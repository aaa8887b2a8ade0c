package lookstep.server.plan.edit;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;

/** How groups and lists are written: as their neighbours are, and else as seems natural. */
final class ValueText {
    private static final int WIDEST = 88;
    private static final int WIDEST_GROUP = 60;

    private final Style style;

    ValueText(Style style) {
        this.style = style;
    }

    /**
     * A key with its value, or a dash with its item, without the indent of its first line.
     *
     * @param key empty in a list
     * @param column how far in it is
     * @param like a neighbour to take after, or null
     */
    String member(String key, boolean keyed, JsonNode value, int column, Piece like)
            throws EditRefused {
        if (keyed) {
            return ScalarText.of(key, false, false) + ":" + behindKey(key, value, column, like);
        }
        if (inFlow(value, like, column)) {
            return "- " + single(key, value, like);
        }
        return "- " + block(key, value, column + 2, like);
    }

    /** What follows a colon: a space and the value, or the lines of it. */
    String behindKey(String key, JsonNode value, int column, Piece like) throws EditRefused {
        if (inFlow(value, like, column)) {
            return " " + single(key, value, like);
        }
        int farther = column + (value.isArray() ? style.listIndent() : style.indent());
        return style.lineEnd() + " ".repeat(farther) + block(key, value, farther, like);
    }

    /** On one line, but not within [ ] or { } when it is a single value. */
    private String single(String key, JsonNode value, Piece like) throws EditRefused {
        return value.isValueNode()
                ? ScalarText.of(value, false, style.signed().contains(key), false)
                : flow(key, value, like);
    }

    private String block(String key, JsonNode value, int column, Piece like) throws EditRefused {
        List<String> lines = new ArrayList<>();
        if (value.isObject()) {
            for (var entry : value.properties()) {
                Piece one = likeIn(like, entry.getKey(), entry.getValue());
                lines.add(member(entry.getKey(), true, entry.getValue(), column, one));
            }
        } else {
            for (JsonNode item : value) {
                lines.add(member(key, false, item, column, likeIn(like, "", item)));
            }
        }
        return String.join(style.lineEnd() + " ".repeat(column), lines);
    }

    /** In one line. */
    String flow(String key, JsonNode value, Piece like) throws EditRefused {
        List<String> parts = new ArrayList<>();
        if (value.isObject()) {
            for (var entry : value.properties()) {
                parts.add(flowMember(entry.getKey(), true, entry.getValue(), like));
            }
            return "{" + String.join(", ", parts) + "}";
        }
        if (value.isArray()) {
            for (JsonNode item : value) {
                parts.add(flowMember(key, false, item, like));
            }
            return "[" + String.join(", ", parts) + "]";
        }
        return ScalarText.of(value, true, style.signed().contains(key), false);
    }

    /** A part of what is in [ ] or { }. */
    String flowMember(String key, boolean keyed, JsonNode value, Piece like) throws EditRefused {
        return keyed
                ? ScalarText.of(key, true, false) + ": " + flow(key, value, like)
                : flow(key, value, like);
    }

    private boolean inFlow(JsonNode value, Piece like, int column) throws EditRefused {
        if (value.isValueNode() || value.isEmpty()) {
            return true;
        }
        if (like instanceof Piece.Bunch bunch
                && bunch.keyed() == value.isObject()
                && !bunch.members().isEmpty()) {
            return bunch.flow();
        }
        int width = flow("", value, null).length();
        return value.isArray()
                ? isFlat(value) && column + width <= WIDEST
                : isFlatGroup(value) && width <= WIDEST_GROUP;
    }

    private static boolean isFlat(JsonNode value) {
        for (JsonNode item : value) {
            if (!item.isValueNode()) {
                return false;
            }
        }
        return true;
    }

    private static boolean isFlatGroup(JsonNode value) {
        for (JsonNode item : value) {
            if ((item.isObject() && !item.isEmpty()) || !isFlat(item)) {
                return false;
            }
        }
        return true;
    }

    /** The same key of a neighbour, or else its first value if it is of the same kind. */
    static Piece likeIn(Piece like, String key, JsonNode value) {
        if (!(like instanceof Piece.Bunch bunch) || bunch.members().isEmpty()) {
            return null;
        }
        int at = bunch.keyed() && !key.isEmpty() ? bunch.indexOf(key) : -1;
        Piece found = bunch.members().get(Math.max(0, at)).value();
        boolean fits = found.json().getNodeType() == value.getNodeType();
        return fits ? found : null;
    }
}

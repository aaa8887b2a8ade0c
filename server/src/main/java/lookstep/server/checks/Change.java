package lookstep.server.checks;

import java.util.List;

/**
 * One edit of the plan file, in the plan's own words.
 *
 * @param path from the top: a key is a text, an entry of a list a map with the key that names it,
 *     such as {@code ["looks", {"name": "safe"}, "camera", "f"]}; {@code "+"} is a new entry at the
 *     end of a list
 * @param value what is to stand there: text, number, truth, list or map of such
 */
public record Change(List<Object> path, Object value) {
    public Change {
        path = List.copyOf(path);
    }
}

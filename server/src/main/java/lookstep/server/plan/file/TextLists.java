package lookstep.server.plan.file;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A key that has a line of text, or a list of such lines. */
final class TextLists {
    static final int MOST = 50;

    private TextLists() {}

    /** The lines; none if the key is not there. */
    static List<String> read(Fields f, String key, String example) {
        Optional<Value> value = f.get(key, example);
        if (value.isEmpty()) {
            return List.of();
        }
        if (!value.get().isList()) {
            return value.get().text(example).map(List::of).orElse(List.of());
        }
        List<String> lines = new ArrayList<>();
        value.get()
                .list(MOST, "[" + example + "]")
                .ifPresent(list -> list.forEach(v -> v.text(example).ifPresent(lines::add)));
        return List.copyOf(lines);
    }
}

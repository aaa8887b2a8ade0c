package lookstep.server.plan.file;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/** The lists that a file is made of. */
final class Sections {
    private Sections() {}

    /** A list with at least one entry. */
    static <T> List<T> read(
            Fields f, String key, String example, Names names, Function<Value, List<T>> read) {
        Optional<Value> value = f.need(key, "a list, for example - " + example);
        if (value.isEmpty()) {
            names.incomplete();
            return List.of();
        }
        if (value.get().node() instanceof Node.Sequence s && s.items().isEmpty()) {
            value.get().wrong("write at least one entry, for example - " + example);
            names.incomplete();
            return List.of();
        }
        return read.apply(value.get());
    }
}

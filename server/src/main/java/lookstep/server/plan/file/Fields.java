package lookstep.server.plan.file;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import lookstep.server.plan.file.Node.Entry;
import lookstep.server.plan.file.Node.Mapping;
import lookstep.server.plan.file.Node.Scalar;

/**
 * The keys of one group. Where a value is wrong it was reported, and a stand-in is given so that
 * reading goes on: nobody sees it, for the plan is then not handed out.
 */
final class Fields {
    private final Mapping mapping;
    private final String path;
    private final Problems problems;

    private Fields(Mapping mapping, String path, Problems problems) {
        this.mapping = mapping;
        this.path = path;
        this.problems = problems;
    }

    static Fields of(Mapping mapping, String path, Problems problems, List<String> known) {
        mapping.entries()
                .forEach(
                        (key, entry) -> {
                            if (!known.contains(key)) {
                                unknown(key, entry, path, problems, known);
                            }
                        });
        return new Fields(mapping, path, problems);
    }

    private static void unknown(
            String key, Entry entry, String path, Problems problems, List<String> known) {
        String whole = path.isEmpty() ? Words.brief(key) : path + "." + Words.brief(key);
        if (key.matches("\\d+") && entry.value() instanceof Scalar s && s.text().isEmpty()) {
            problems.error(
                    entry.keyAt(),
                    "'" + key + "' stands here as a key of its own",
                    "write decimals with a point, not a comma: 5.6");
            return;
        }
        problems.error(
                entry.keyAt(),
                whole + " is not a key of a " + problems.kind().noun() + " file",
                Words.nearest(key, known)
                        .map(n -> "write '" + n + "'")
                        .orElse("known here: " + String.join(", ", known)));
    }

    Mark at() {
        return mapping.at();
    }

    String path(String key) {
        return path.isEmpty() ? key : path + "." + key;
    }

    boolean has(String key) {
        return mapping.entries().containsKey(key);
    }

    /** Where the key stands, or the group if it does not. */
    Mark keyAt(String key) {
        Entry entry = mapping.entries().get(key);
        return entry == null ? mapping.at() : entry.keyAt();
    }

    /** The value if the key is there; one without a value is reported. */
    Optional<Value> get(String key, String example) {
        Entry entry = mapping.entries().get(key);
        if (entry == null) {
            return Optional.empty();
        }
        if (entry.value() instanceof Scalar s && s.kind() == Scalar.Kind.NOTHING) {
            problems.error(
                    entry.keyAt(),
                    path(key) + " has no value",
                    "write " + key + ": " + example + ", or delete the line");
            return Optional.empty();
        }
        return Optional.of(new Value(entry.value(), path(key), problems));
    }

    /** The value; a missing key is reported with what to write. */
    Optional<Value> need(String key, String example) {
        if (!has(key)) {
            problems.error(
                    mapping.at(), path(key) + " is missing", "write " + key + ": " + example);
        }
        return get(key, example);
    }

    double number(String key, Quantity q) {
        return need(key, Words.number(q.example())).flatMap(v -> v.number(q)).orElse(q.example());
    }

    double number(String key, Quantity q, double otherwise) {
        return optional(key, Words.number(q.example()), v -> v.number(q), otherwise);
    }

    int whole(String key, Quantity q, int otherwise) {
        return optional(key, Words.number(q.example()), v -> v.whole(q), otherwise);
    }

    boolean truth(String key) {
        return optional(key, "true", Value::truth, false);
    }

    <T> T optional(String key, String example, Function<Value, Optional<T>> read, T otherwise) {
        return get(key, example).flatMap(read).orElse(otherwise);
    }
}

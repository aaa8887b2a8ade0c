package lookstep.server.plan.file;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** The names of one kind (people, lights, looks): each once, and what may refer to them. */
final class Names {
    static final int LONGEST = 60;

    private final String kind;
    private final Map<String, Mark> known = new LinkedHashMap<>();
    private boolean whole = true;

    /**
     * @param kind what bears these names: person, light, look
     */
    Names(String kind) {
        this.kind = kind;
    }

    /** Reads a name and takes it in. */
    String take(Fields fields, String key, String example) {
        Optional<Value> value = fields.need(key, example);
        Optional<String> text = value.flatMap(v -> v.text(example));
        if (text.isEmpty()) {
            whole = false;
            return example;
        }
        String name = text.get();
        Value v = value.get();
        if (name.length() > LONGEST) {
            v.problems()
                    .error(
                            v.at(),
                            v.path() + " has " + name.length() + " letters",
                            "write at most " + LONGEST + "; it must fit on a page");
        }
        // 'Rim' and 'rim' are one name when they are called across a stage.
        for (Map.Entry<String, Mark> other : known.entrySet()) {
            if (other.getKey().toLowerCase(Locale.ROOT).equals(name.toLowerCase(Locale.ROOT))) {
                v.problems()
                        .error(
                                v.at(),
                                v.path()
                                        + ": there is "
                                        + (kind.equals("emitter") ? "an " : "a ")
                                        + kind
                                        + " '"
                                        + other.getKey()
                                        + "' on line "
                                        + other.getValue().line()
                                        + " already",
                                "give this " + kind + " another name");
                whole = false;
                return name;
            }
        }
        known.put(name, v.at());
        return name;
    }

    /** Something could not be read, so an unknown name proves nothing. */
    void incomplete() {
        whole = false;
    }

    /** False if something could not be read. */
    boolean whole() {
        return whole;
    }

    Set<String> all() {
        return known.keySet();
    }

    Mark at(String name) {
        return known.get(name);
    }

    /** Reports a reference to nobody; false if it did. */
    boolean check(String name, Mark at, String path, Problems problems) {
        if (known.containsKey(name)) {
            return true;
        }
        if (whole) {
            problems.error(
                    at,
                    path + ": there is no " + kind + " '" + Words.brief(name) + "'",
                    known.isEmpty()
                            ? "add it to the file first"
                            : Words.suggest(name, known.keySet()));
        }
        return false;
    }
}

package lookstep.server.plan.file;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lookstep.server.plan.Modifier;

/**
 * What can stand in front of a light. Common practice: a softbox lets through about half of the
 * light, an umbrella gives back somewhat more, a grid costs little on the axis and all beside it.
 * From a reflector of 70 degrees a softbox so costs a stop and a third on the axis, an umbrella a
 * stop and two thirds.
 */
final class ModifierWords {
    static final Map<String, Modifier> WORDS = words();

    static final Modifier BARE = WORDS.get("bare");

    private static final List<String> KEYS =
            List.of("name", "size", "transmission", "beam", "cuts");
    private static final String EXAMPLE =
            "{name: lantern, size: 0.65, transmission: 0.4, beam: 160}";

    private ModifierWords() {}

    static Optional<Modifier> read(Value value) {
        if (value.isGroup()) {
            return value.fields(KEYS, EXAMPLE).map(ModifierWords::object);
        }
        if (!value.isText()) {
            return value.wrong("write one of " + Words.list(WORDS.keySet()) + ", or " + EXAMPLE);
        }
        return value.text("bare")
                .flatMap(
                        t -> {
                            Modifier m = WORDS.get(t);
                            return m != null
                                    ? Optional.of(m)
                                    : value.wrong(Words.suggest(t, WORDS.keySet()));
                        });
    }

    private static Modifier object(Fields f) {
        return new Modifier(
                f.need("name", "lantern").flatMap(v -> v.text("lantern")).orElse(""),
                f.number("size", Quantity.metres(0.01, 5, 0.9)),
                f.number("transmission", new Quantity("a share of the light", "", 0.01, 1, 0.5)),
                f.number("beam", new Quantity("degrees", " degrees", 0, 179, 90), 0),
                f.truth("cuts"));
    }

    private static Map<String, Modifier> words() {
        Map<String, Modifier> map = new LinkedHashMap<>();
        for (Modifier m :
                List.of(
                        new Modifier("bare", 0.3, 1, 0, false),
                        new Modifier("diffuser", 0.5, 0.7, 0, false),
                        new Modifier("softbox 60", 0.6, 0.6, 85, false),
                        new Modifier("softbox 90", 0.9, 0.55, 85, false),
                        new Modifier("softbox 120", 1.2, 0.5, 85, false),
                        new Modifier("strip box", 0.6, 0.5, 60, false),
                        new Modifier("umbrella", 1.0, 0.6, 110, false),
                        new Modifier("grid 20", 0.3, 0.75, 20, true),
                        new Modifier("grid 30", 0.3, 0.85, 30, true),
                        new Modifier("barn doors", 0.3, 1, 50, true))) {
            map.put(m.name(), m);
        }
        return java.util.Collections.unmodifiableMap(map);
    }
}

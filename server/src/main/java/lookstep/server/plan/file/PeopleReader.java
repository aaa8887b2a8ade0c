package lookstep.server.plan.file;

import java.util.ArrayList;
import java.util.List;
import lookstep.server.plan.Person;
import lookstep.server.plan.Surface;

/** The band. */
final class PeopleReader {
    static final int MOST = 60;
    static final String EXAMPLE = "{name: Ines, plays: drums, height: 1.78}";

    private static final List<String> KEYS =
            List.of("name", "plays", "height", "skin", "hair", "top", "bottom", "note");

    private final Names names;
    private final List<Person> people = new ArrayList<>();

    PeopleReader(Names names) {
        this.names = names;
    }

    List<Person> read(Value value) {
        value.list(MOST, "- " + EXAMPLE)
                .ifPresentOrElse(list -> list.forEach(this::one), names::incomplete);
        return people;
    }

    private void one(Value value) {
        value.fields(KEYS, EXAMPLE).ifPresentOrElse(this::one, names::incomplete);
    }

    private void one(Fields f) {
        people.add(
                new Person(
                        names.take(f, "name", "Ines"),
                        f.optional("plays", "drums", v -> v.text("drums"), ""),
                        f.number("height", Quantity.metres(1.0, 2.3, 1.78)),
                        surface(f, "skin", SurfaceWords.SKIN, "medium"),
                        surface(f, "hair", SurfaceWords.HAIR, "brown"),
                        surface(f, "top", SurfaceWords.CLOTHES, "grey cloth"),
                        surface(f, "bottom", SurfaceWords.CLOTHES, "denim"),
                        f.optional("note", "no hats", v -> v.text("no hats"), "")));
    }

    private static Surface surface(Fields f, String key, SurfaceWords table, String otherwise) {
        return f.optional(key, otherwise, table::read, table.words().get(otherwise));
    }
}

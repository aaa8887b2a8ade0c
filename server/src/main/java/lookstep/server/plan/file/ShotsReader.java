package lookstep.server.plan.file;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lookstep.server.plan.PlanWords;
import lookstep.server.plan.Shot;
import lookstep.simulator.model.scene.Arrangement;
import lookstep.simulator.model.scene.Arrangement.Kind;

/** The shots, in the running order. */
final class ShotsReader {
    static final int MOST = 500;
    static final String EXAMPLE =
            "{name: All five, safe: true, look: safe, lens: 35, distance: 4.2}";
    static final List<String> FRAMINGS =
            List.of("landscape 3:2", "landscape 16:9", "portrait 4:5", "square", "spread", "cover");

    private static final List<String> KEYS =
            List.of(
                    "id",
                    "name",
                    "safe",
                    "solos",
                    "look",
                    "people",
                    "arrangement",
                    "lens",
                    "distance",
                    "height",
                    "framing",
                    "say",
                    "importance",
                    "job",
                    "together",
                    "seconds",
                    "text");
    static final List<String> SIDES = List.of("top", "bottom", "left", "right");
    private static final Quantity SECONDS = new Quantity("seconds", " s", 1, 3600, 20);
    private static final Quantity LENS = new Quantity("millimetres", " mm", 8, 800, 35);
    private static final Quantity IMPORTANCE = new Quantity("a number", "", 1, 10, 5);
    private static final int LONGEST_ID = 60;

    private final Names people;
    private final Names looks;
    private final Names clients;
    private final Problems problems;
    private final List<Shot> shots = new ArrayList<>();
    private final Map<String, Mark> places = new LinkedHashMap<>();
    private final List<Entry> entries = new ArrayList<>();
    private boolean safeUnclear;

    /** One entry of the list, for what is checked across them. */
    private record Entry(Mark at, String path, boolean safe, Mark safeAt) {}

    ShotsReader(Names people, Names looks, Names clients, Problems problems) {
        this.people = people;
        this.clients = clients;
        this.looks = looks;
        this.problems = problems;
    }

    List<Shot> read(Value value) {
        Optional<List<Value>> list = value.list(MOST, "- " + EXAMPLE);
        list.ifPresent(l -> l.forEach(this::one));
        if (list.isPresent() && entries.size() == list.get().size()) {
            safeFirst();
        }
        return shots;
    }

    /** Where each shot stands, by its id. */
    Map<String, Mark> places() {
        return places;
    }

    private void one(Value value) {
        value.fields(KEYS, EXAMPLE).ifPresent(f -> one(f, value.path()));
    }

    private void one(Fields f, String path) {
        int before = problems.errorCount();
        boolean safe = f.truth("safe");
        safeUnclear |= problems.errorCount() > before;
        boolean solos = f.truth("solos");
        entries.add(new Entry(f.at(), path, safe && !solos, f.keyAt("safe")));
        if (safe && solos) {
            safeUnclear = true;
            problems.error(
                    f.keyAt("solos"),
                    path + " is the safe shot and a round of solos",
                    "make the safe shot one picture of everybody");
        }
        Optional<Value> lookValue = f.need("look", "safe");
        Optional<String> look = lookValue.flatMap(v -> v.text("safe"));
        look.ifPresent(l -> looks.check(l, lookValue.get().at(), path + ".look", problems));
        Optional<String> name = name(f, solos);
        Optional<List<String>> who = who(f);
        Arrangement arrangement = arrangement(f, path, who, solos);
        Shot shot =
                new Shot(
                        "",
                        name.orElse(""),
                        safe,
                        look.orElse(""),
                        who.orElse(List.of()),
                        arrangement,
                        f.number("lens", LENS),
                        f.number("distance", Quantity.metres(0.3, 60, 4.2)),
                        f.number("height", Quantity.metres(0.1, 10, 1.5), 1.5),
                        f.optional(
                                "framing",
                                "landscape 3:2",
                                v -> ArrangementWords.oneOf(v, FRAMINGS),
                                FRAMINGS.get(0)),
                        say(f),
                        f.whole("importance", IMPORTANCE, safe ? 10 : 5),
                        use(f, path, solos));
        if (solos) {
            solos(f, shot);
        } else {
            id(f, shot.name())
                    .ifPresent(id -> add(shot, id, shot.name(), shot.people(), idAt(f, "name")));
        }
    }

    private Shot.Use use(Fields f, String path, boolean solos) {
        Optional<Value> jobValue = f.get("job", "the Harbour Weekly");
        Optional<String> job = jobValue.flatMap(v -> v.text("the Harbour Weekly"));
        job.ifPresent(j -> clients.check(j, jobValue.get().at(), path + ".job", problems));
        String round = solos ? "solos " + (f.has("id") ? id(f, "").orElse("") : "solo") : "";
        return new Shot.Use(
                job.orElse(""),
                f.optional("together", "on the stairs", v -> v.text("on the stairs"), round),
                solos,
                f.number("seconds", SECONDS, 0),
                f.optional("text", "top", v -> ArrangementWords.oneOf(v, SIDES), ""));
    }

    private void solos(Fields f, Shot shot) {
        String prefix = f.has("id") ? id(f, "").orElse("") : "solo";
        String name = shot.name().isEmpty() ? "Solo" : shot.name();
        for (String person : shot.people()) {
            String id = prefix + "-" + slug(person);
            add(shot, id, name + ", " + person, List.of(person), idAt(f, "solos"));
        }
    }

    private void add(Shot s, String id, String name, List<String> who, Mark at) {
        Mark first = places.putIfAbsent(id, at);
        if (first != null) {
            problems.error(
                    at,
                    "the id '" + id + "' stands for the shot of line " + first.line() + " already",
                    "write an id of its own: id: " + freeId(id));
        }
        shots.add(
                new Shot(
                        id,
                        name,
                        s.safe(),
                        s.look(),
                        who,
                        s.arrangement(),
                        s.lensMillimetres(),
                        s.distanceMetres(),
                        s.cameraHeightMetres(),
                        s.framing(),
                        s.say(),
                        s.importance(),
                        s.use()));
    }

    private String freeId(String id) {
        int n = 2;
        while (places.containsKey(id + "-" + n)) {
            n++;
        }
        return id + "-" + n;
    }

    private static Mark idAt(Fields f, String otherwise) {
        return f.keyAt(f.has("id") ? "id" : otherwise);
    }

    private static Optional<String> name(Fields f, boolean solos) {
        Optional<Value> value = solos ? f.get("name", "Solo") : f.need("name", "All five");
        return value.flatMap(v -> v.text("All five"));
    }

    private Optional<String> id(Fields f, String name) {
        if (!f.has("id")) {
            if (name.isEmpty()) {
                return Optional.empty();
            }
            String made = slug(name);
            if (made.isEmpty()) {
                problems.error(
                        f.keyAt("name"),
                        f.path("name") + " has no letter or digit to make an id from",
                        "write id: shot-1");
                return Optional.empty();
            }
            return Optional.of(made);
        }
        return f.get("id", "all-five")
                .flatMap(
                        v ->
                                v.text("all-five")
                                        .flatMap(
                                                t ->
                                                        t.matches(
                                                                        "[A-Za-z0-9-]{1,"
                                                                                + LONGEST_ID
                                                                                + "}")
                                                                ? Optional.of(t)
                                                                : v.wrong(
                                                                        "write letters a to z,"
                                                                                + " digits and hyphens:"
                                                                                + " "
                                                                                + (slug(t).isEmpty()
                                                                                        ? "all-five"
                                                                                        : slug(
                                                                                                t)))));
    }

    /** Lower case, accents gone, everything else a hyphen. */
    static String slug(String name) {
        String plain = PlanWords.slug(name);
        return plain.length() <= LONGEST_ID ? plain : plain.substring(0, LONGEST_ID);
    }

    private Optional<List<String>> who(Fields f) {
        if (!f.has("people")) {
            return Optional.of(List.copyOf(people.all()));
        }
        Optional<Value> value = f.get("people", "all");
        if (value.isEmpty()) {
            return Optional.empty();
        }
        Value v = value.get();
        if (v.isText()) {
            return v.text("all").equals(Optional.of("all"))
                    ? Optional.of(List.copyOf(people.all()))
                    : v.wrong("write all, or names in brackets: [Ines, Marlo]");
        }
        return v.list(PeopleReader.MOST, "[Ines, Marlo]").flatMap(list -> named(v, list));
    }

    private Optional<List<String>> named(Value whole, List<Value> list) {
        if (list.isEmpty()) {
            return whole.wrong("name who is in the picture, or write all");
        }
        List<String> out = new ArrayList<>();
        boolean good = true;
        for (Value v : list) {
            Optional<String> name = v.text("Ines");
            if (name.isEmpty() || !people.check(name.get(), v.at(), v.path(), problems)) {
                good = false;
            } else if (out.contains(name.get())) {
                v.wrong("name each person once");
                good = false;
            } else {
                out.add(name.get());
            }
        }
        return good ? Optional.of(List.copyOf(out)) : Optional.empty();
    }

    private Arrangement arrangement(
            Fields f, String path, Optional<List<String>> who, boolean solos) {
        Optional<Value> value = f.get("arrangement", "line");
        Optional<Arrangement> read = value.flatMap(ArrangementWords::read);
        int count = solos ? 1 : who.map(List::size).orElse(0);
        if (read.isEmpty()) {
            return ArrangementWords.of(count == 1 ? Kind.SOLO : Kind.LINE);
        }
        Arrangement a = read.get();
        boolean known = count > 0;
        if (solos && a.kind() != Kind.SOLO) {
            value.get().wrong("delete it: in a round of solos each stands alone");
        } else if (known) {
            misfit(a, count)
                    .ifPresent(
                            mend ->
                                    problems.error(
                                            value.get().at(),
                                            path
                                                    + ".arrangement does not fit "
                                                    + (count == 1 ? "1 person" : count + " people"),
                                            mend));
        }
        return a;
    }

    private static Optional<String> misfit(Arrangement a, int count) {
        return switch (a.kind()) {
            case SOLO ->
                    count == 1
                            ? Optional.empty()
                            : Optional.of("name one person, or write solos: true");
            case WEDGE, ZIGZAG ->
                    count >= 3
                            ? Optional.empty()
                            : Optional.of("a v or w takes 3 people or more; write line");
            case ROWS -> {
                int sum = a.rows().stream().mapToInt(Integer::intValue).sum();
                yield sum == count
                        ? Optional.empty()
                        : Optional.of(
                                "the rows hold "
                                        + sum
                                        + "; write rows, front first, that add up to "
                                        + count);
            }
            case LINE, CLUSTER -> Optional.empty();
        };
    }

    private static List<String> say(Fields f) {
        Optional<Value> value = f.get("say", "Eyes to the lens");
        if (value.isEmpty()) {
            return List.of();
        }
        if (!value.get().isList()) {
            return value.get().text("Eyes to the lens").map(List::of).orElse(List.of());
        }
        List<String> lines = new ArrayList<>();
        value.get()
                .list(10, "[Eyes to the lens]")
                .ifPresent(
                        list ->
                                list.forEach(
                                        v -> v.text("Eyes to the lens").ifPresent(lines::add)));
        return List.copyOf(lines);
    }

    private void safeFirst() {
        if (entries.isEmpty()) {
            return;
        }
        Integer firstSafe = null;
        for (int i = 0; i < entries.size(); i++) {
            Entry e = entries.get(i);
            if (!e.safe()) {
                continue;
            }
            if (firstSafe != null) {
                problems.error(
                        e.safeAt(),
                        e.path() + " is a second safe shot",
                        "keep safe: true in one shot; the first is on line "
                                + entries.get(firstSafe).safeAt().line());
                continue;
            }
            firstSafe = i;
            if (i > 0) {
                problems.error(
                        e.safeAt(),
                        e.path() + " is the safe shot, but comes after other shots",
                        "move it up to be the first of the list");
            }
        }
        if (firstSafe == null && !safeUnclear) {
            problems.error(
                    entries.get(0).at(),
                    "no shot is the safe shot",
                    "write safe: true in the one that must exist before any other, and put it"
                            + " first");
        }
    }
}

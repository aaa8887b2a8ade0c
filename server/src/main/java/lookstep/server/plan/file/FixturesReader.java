package lookstep.server.plan.file;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lookstep.protocols.fixture.Fixture;

/** The fixtures a plan may name: those that are built in, and those of the files it lists. */
final class FixturesReader {
    static final int MOST = 64;
    static final String EXAMPLE = "stage-panel.fixture.yaml";

    private final List<Fixture> known;
    private final FixtureSource source;
    private final Path plan;
    private final Problems problems;
    private final Map<String, Mark> places = new HashMap<>();
    private boolean whole = true;

    /**
     * @param plan the plan's file, beside which the others are looked for
     */
    FixturesReader(List<Fixture> builtIn, FixtureSource source, Path plan, Problems problems) {
        known = new ArrayList<>(builtIn);
        this.source = source;
        this.plan = plan;
        this.problems = problems;
    }

    void read(Value value) {
        value.list(MOST, "[" + EXAMPLE + "]")
                .ifPresentOrElse(list -> list.forEach(this::one), () -> whole = false);
    }

    List<Fixture> known() {
        return known;
    }

    /** False if one could not be read, so that an unknown id proves nothing. */
    boolean whole() {
        return whole;
    }

    private void one(Value value) {
        Optional<String> file = value.text(EXAMPLE);
        Optional<List<Fixture>> fixtures = file.flatMap(t -> read(value, t));
        if (fixtures.isEmpty()) {
            whole = false;
            return;
        }
        fixtures.get().forEach(f -> add(value, file.get(), f));
    }

    private void add(Value value, String file, Fixture fixture) {
        String id = fixture.id();
        Mark other = places.get(id);
        if (known.stream().noneMatch(k -> k.id().equals(id))) {
            known.add(fixture);
            places.put(id, value.at());
            return;
        }
        problems.error(
                value.at(),
                value.path()
                        + ": there is a fixture '"
                        + id
                        + (other == null ? "' built in" : "' from line " + other.line())
                        + " already",
                (other == null ? "" : "delete one of the two lines, or ")
                        + (FixtureFiles.isGdtf(Path.of(file))
                                ? "rename the file, from which its id comes"
                                : "write another id in that file"));
    }

    private Optional<List<Fixture>> read(Value value, String text) {
        FixtureReading reading;
        try {
            reading = source.read(plan.resolveSibling(text));
        } catch (InvalidPathException e) {
            return value.wrong("write the path of a file, for example " + EXAMPLE);
        }
        String before = value.path() + ": ";
        if (reading instanceof FixtureReading.Bad bad) {
            bad.errors()
                    .forEach(
                            e ->
                                    problems.error(
                                            value.at(),
                                            before + e.place(text) + ": " + plain(e.what()),
                                            plain(e.mend())));
            return Optional.empty();
        }
        FixtureReading.Good good = (FixtureReading.Good) reading;
        good.notes()
                .forEach(
                        n ->
                                problems.warning(
                                        value.at(),
                                        before + text + ": " + plain(n),
                                        "'check " + text + "' shows what was understood"));
        return Optional.of(good.fixtures());
    }

    /** What comes out of an archive may hold anything, and a terminal obeys control characters. */
    private static String plain(String text) {
        return text.replaceAll("\\p{Cntrl}", "?");
    }
}

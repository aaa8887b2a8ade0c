package lookstep.server.plan.file;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import lookstep.simulator.model.scene.Arrangement;
import lookstep.simulator.model.scene.Arrangement.Kind;

/**
 * How people stand, in words. Shoulders 0.55 m apart and rows 0.6 m apart are common practice for
 * standing groups.
 */
final class ArrangementWords {
    static final double SPACING_METRES = 0.55;
    static final double ROW_METRES = 0.6;
    static final List<String> WORDS =
            List.of("line", "v towards camera", "v away", "w", "rows 2-3", "cluster", "solo");
    static final List<String> KINDS = List.of("line", "v", "w", "rows", "cluster", "solo");

    private static final Pattern ROWS = Pattern.compile("rows ([1-9]\\d?(?:-[1-9]\\d?){1,5})");
    private static final List<String> KEYS = List.of("kind", "apex", "spacing", "row", "rows");
    private static final String EXAMPLE = "{kind: v, apex: near, spacing: 0.6}";

    private ArrangementWords() {}

    static Arrangement of(Kind kind) {
        return new Arrangement(kind, false, SPACING_METRES, ROW_METRES, List.of());
    }

    static Optional<Arrangement> read(Value value) {
        if (value.isGroup()) {
            return value.fields(KEYS, EXAMPLE).flatMap(ArrangementWords::object);
        }
        if (!value.isText()) {
            return value.wrong("write one of " + Words.list(WORDS) + ", or " + EXAMPLE);
        }
        return value.text("line").flatMap(t -> word(t, value));
    }

    private static Optional<Arrangement> word(String text, Value value) {
        String lower = text.substring(0, 1).toLowerCase(Locale.ROOT) + text.substring(1);
        if (ROWS.matcher(lower).matches()) {
            List<Integer> rows = new ArrayList<>();
            for (String n : lower.substring(5).split("-", -1)) {
                rows.add(Integer.valueOf(n));
            }
            return Optional.of(new Arrangement(Kind.ROWS, false, SPACING_METRES, ROW_METRES, rows));
        }
        return switch (lower) {
            case "line" -> Optional.of(of(Kind.LINE));
            case "v towards camera" ->
                    Optional.of(
                            new Arrangement(
                                    Kind.WEDGE, true, SPACING_METRES, ROW_METRES, List.of()));
            case "v away" -> Optional.of(of(Kind.WEDGE));
            case "w" -> Optional.of(of(Kind.ZIGZAG));
            case "cluster" -> Optional.of(of(Kind.CLUSTER));
            case "solo" -> Optional.of(of(Kind.SOLO));
            case "v" ->
                    value.wrong(
                            "write 'v towards camera' (the middle is nearest) or 'v away' (the"
                                    + " middle is farthest)");
            default -> value.wrong(Words.suggest(text, WORDS));
        };
    }

    private static Optional<Arrangement> object(Fields f) {
        Optional<String> kindWord = f.need("kind", "line").flatMap(v -> oneOf(v, KINDS));
        Optional<Value> apex = f.get("apex", "near");
        Optional<String> apexWord = apex.flatMap(v -> oneOf(v, List.of("near", "far")));
        double spacing = f.number("spacing", Quantity.metres(0.3, 2, 0.55), SPACING_METRES);
        double row = f.number("row", Quantity.metres(0.3, 2, 0.6), ROW_METRES);
        List<Integer> rows = new ArrayList<>();
        f.get("rows", "[2, 3]")
                .flatMap(v -> v.list(6, "[2, 3]"))
                .ifPresent(
                        list ->
                                list.forEach(
                                        v ->
                                                v.whole(new Quantity("people", "", 1, 50, 2))
                                                        .ifPresent(rows::add)));
        if (kindWord.isEmpty()) {
            return Optional.empty();
        }
        Kind kind =
                switch (kindWord.get()) {
                    case "line" -> Kind.LINE;
                    case "v" -> Kind.WEDGE;
                    case "w" -> Kind.ZIGZAG;
                    case "rows" -> Kind.ROWS;
                    case "cluster" -> Kind.CLUSTER;
                    default -> Kind.SOLO;
                };
        boolean whole = true;
        if (kind == Kind.WEDGE) {
            whole = f.need("apex", "near").isPresent();
        } else if (apex.isPresent()) {
            apex.get().wrong("delete it: only a v has an apex");
        }
        if (kind == Kind.ROWS) {
            whole = f.need("rows", "[2, 3]").isPresent();
        } else {
            f.get("rows", "").ifPresent(v -> v.wrong("delete it, or write kind: rows"));
        }
        if (!whole) {
            return Optional.empty();
        }
        return Optional.of(
                new Arrangement(
                        kind,
                        kind == Kind.WEDGE && apexWord.equals(Optional.of("near")),
                        spacing,
                        row,
                        List.copyOf(rows)));
    }

    static Optional<String> oneOf(Value value, List<String> words) {
        if (!value.isText()) {
            return value.wrong("write one of " + Words.list(words));
        }
        return value.text(words.get(0))
                .flatMap(
                        t ->
                                words.contains(t)
                                        ? Optional.of(t)
                                        : value.wrong(Words.suggest(t, words)));
    }
}

package lookstep.server.plan.file;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import lookstep.protocols.fixture.DimmingCurve;
import lookstep.protocols.fixture.Mode.Channel;
import lookstep.simulator.model.colour.Mixing;

/** What each slot of a mode does, in slot order. */
final class SlotsReader {
    static final List<String> WHITES_KEYS = List.of("whites", "bits", "curve");
    static final List<String> TINT_KEYS = List.of("tint", "bits");
    static final List<String> FIXED_KEYS = List.of("fixed", "is", "bits");
    static final List<String> SIDES = List.of("greener", "pinker");

    private static final int MOST = 512;
    private static final String EXAMPLE = "[dimmer 16, warm, cool]";
    private static final String WHITES_EXAMPLE = "{whites: [warm, cool], bits: 16}";
    private static final String TINT_EXAMPLE =
            "{tint: {greener: {green: 0.3}, pinker: {red: 0.2, blue: 0.2}}}";
    private static final String FIXED_EXAMPLE = "{fixed: 255, is: shutter open}";
    private static final Pattern WIDE = Pattern.compile("(.+) (8|16)");
    private static final Quantity LEVEL = new Quantity("a level against full", "", 0.001, 1, 0.3);

    private final Names emitters;
    private final Problems problems;
    private final List<String> notes;

    SlotsReader(Names emitters, Problems problems, List<String> notes) {
        this.emitters = emitters;
        this.problems = problems;
        this.notes = notes;
    }

    /** The channels; what makes no sense together was reported. */
    List<Channel> read(Value value) {
        if (value.node() instanceof Node.Sequence s && s.items().isEmpty()) {
            value.wrong("write what each slot does, for example " + EXAMPLE);
            return List.of();
        }
        int before = problems.errorCount();
        List<SlotRules.Placed> placed = new ArrayList<>();
        for (Value item : value.list(MOST, EXAMPLE).orElse(List.of())) {
            channel(item).ifPresent(c -> placed.add(new SlotRules.Placed(c, item)));
        }
        if (problems.errorCount() == before && emitters.whole()) {
            new SlotRules(value, placed, List.copyOf(emitters.all()), notes).check();
        }
        return placed.stream().map(SlotRules.Placed::channel).toList();
    }

    private Optional<Channel> channel(Value item) {
        if (item.isText()) {
            return item.text("dimmer").flatMap(t -> named(item, t));
        }
        if (!(item.node() instanceof Node.Mapping m)) {
            return item.wrong(
                    "write what the slot does: dimmer, an emitter, "
                            + WHITES_EXAMPLE
                            + ", "
                            + TINT_EXAMPLE
                            + " or "
                            + FIXED_EXAMPLE);
        }
        if (m.entries().containsKey("whites")) {
            return item.fields(WHITES_KEYS, WHITES_EXAMPLE).flatMap(this::whites);
        } else if (m.entries().containsKey("tint")) {
            return item.fields(TINT_KEYS, TINT_EXAMPLE).flatMap(this::tint);
        } else if (m.entries().containsKey("fixed")) {
            return item.fields(FIXED_KEYS, FIXED_EXAMPLE).flatMap(this::fixed);
        }
        problems.error(
                item.at(),
                item.path() + " does not say what the slot does",
                "write " + WHITES_EXAMPLE + ", " + TINT_EXAMPLE + " or " + FIXED_EXAMPLE);
        return Optional.empty();
    }

    /** {@code dimmer}, {@code dimmer 16}, {@code warm}, {@code warm 16}. */
    private Optional<Channel> named(Value item, String text) {
        Matcher wide = WIDE.matcher(text);
        boolean saysBits = wide.matches();
        String name = saysBits ? wide.group(1) : text;
        int bytes = saysBits && wide.group(2).equals("16") ? 2 : 1;
        if (name.equals("dimmer")) {
            return Optional.of(new Channel.Dimmer(bytes));
        }
        int emitter = index(name);
        if (emitter >= 0) {
            return Optional.of(new Channel.Emitter(emitter, bytes));
        }
        if (!emitters.whole()) {
            return Optional.empty();
        }
        List<String> known = new ArrayList<>(emitters.all());
        known.add("dimmer");
        Optional<String> meant =
                known.stream().filter(k -> text.matches(Pattern.quote(k) + " ?\\d+.*")).findFirst();
        if (meant.isPresent()) {
            return item.wrong(
                    "write '%1$s' for one slot, '%1$s 16' for two".formatted(meant.get()));
        }
        return item.wrong(Words.suggest(name, known) + ", or hold the slot: " + FIXED_EXAMPLE);
    }

    private Optional<Channel> whites(Fields f) {
        Optional<Integer> bytes = bytes(f);
        DimmingCurve curve = f.optional("curve", "linear", CurveWords::read, DimmingCurve.LINEAR);
        Optional<Value> pair = f.get("whites", "[warm, cool]");
        if (pair.isEmpty()) {
            return Optional.empty();
        }
        List<Value> items =
                pair.get().node() instanceof Node.Sequence s && s.items().size() == 2
                        ? pair.get().list(2, "[warm, cool]").orElse(List.of())
                        : List.of();
        if (items.isEmpty()) {
            return pair.get().wrong("write the warm and the cool emitter: [warm, cool]");
        }
        Optional<Integer> warm = emitter(items.get(0));
        Optional<Integer> cool = emitter(items.get(1));
        if (warm.isEmpty() || cool.isEmpty() || bytes.isEmpty()) {
            return Optional.empty();
        }
        if (warm.equals(cool)) {
            return items.get(1).wrong("write two emitters, the warm one first");
        }
        return Optional.of(new Channel.Whites(warm.get(), cool.get(), bytes.get(), curve));
    }

    private Optional<Channel> tint(Fields f) {
        Optional<Integer> bytes = bytes(f);
        Optional<Fields> sides =
                f.get("tint", TINT_EXAMPLE).flatMap(v -> v.fields(SIDES, TINT_EXAMPLE));
        if (sides.isEmpty()) {
            return Optional.empty();
        }
        Optional<List<Double>> greener =
                sides.get().need("greener", "{green: 0.3}").flatMap(this::side);
        Optional<List<Double>> pinker =
                sides.get().need("pinker", "{red: 0.2, blue: 0.2}").flatMap(this::side);
        if (greener.isEmpty() || pinker.isEmpty() || bytes.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new Channel.Tint(greener.get(), pinker.get(), bytes.get()));
    }

    /** A level for each emitter; 0 where it is not named. */
    private Optional<List<Double>> side(Value value) {
        if (!(value.node() instanceof Node.Mapping m) || m.entries().isEmpty()) {
            return value.wrong("write emitters and their levels, for example {green: 0.3}");
        }
        if (m.entries().size() > Mixing.MAX_EMITTERS) {
            return value.wrong("name each emitter once at most");
        }
        List<Double> levels = new ArrayList<>(Collections.nCopies(emitters.all().size(), 0.0));
        boolean good = true;
        for (Map.Entry<String, Node.Entry> entry : m.entries().entrySet()) {
            String name = entry.getKey();
            String path = value.path() + "." + Words.brief(name);
            Optional<Double> level =
                    new Value(entry.getValue().value(), path, problems).number(LEVEL);
            boolean known = emitters.check(name, entry.getValue().keyAt(), path, problems);
            if (known && level.isPresent()) {
                levels.set(index(name), level.get());
            } else {
                good = false;
            }
        }
        return good ? Optional.of(levels) : Optional.empty();
    }

    private Optional<Channel> fixed(Fields f) {
        Optional<Integer> bytes = bytes(f);
        int most = bytes.isPresent() && bytes.get() == 1 ? 255 : 65535;
        Optional<Integer> value =
                f.get("fixed", "255")
                        .flatMap(v -> v.whole(new Quantity("a value", "", 0, most, 255)));
        Optional<String> what = f.need("is", "shutter open").flatMap(v -> v.text("shutter open"));
        if (bytes.isEmpty() || value.isEmpty() || what.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new Channel.Fixed(bytes.get(), value.get(), what.get()));
    }

    private static Optional<Integer> bytes(Fields f) {
        if (!f.has("bits")) {
            return Optional.of(1);
        }
        return f.get("bits", "16")
                .flatMap(
                        v -> {
                            if (v.node() instanceof Node.Scalar s
                                    && (s.text().equals("8") || s.text().equals("16"))
                                    && v.isNumber()) {
                                return Optional.of(s.text().equals("8") ? 1 : 2);
                            }
                            return v.wrong("write 8, or 16 for two slots, coarse first");
                        });
    }

    private Optional<Integer> emitter(Value value) {
        return value.text("warm")
                .filter(name -> emitters.check(name, value.at(), value.path(), problems))
                .map(this::index);
    }

    /** Counted from 0; -1 if there is none. */
    private int index(String name) {
        return List.copyOf(emitters.all()).indexOf(name);
    }
}

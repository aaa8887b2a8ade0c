package lookstep.server.plan.file;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.Mode;
import lookstep.protocols.sacn.SacnAddress;
import lookstep.server.plan.Light;
import lookstep.simulator.model.space.Vec3;

/** The lights as placed. */
final class RigReader {
    static final int MOST = 512;
    static final String EXAMPLE =
            "{name: key, fixture: bi-colour, slot: 1, position: [-2, -3, 2.2]}";

    private static final int SLOTS = 512;
    private static final List<String> KEYS =
            List.of("name", "fixture", "mode", "universe", "slot", "position", "aim", "modifier");

    /** Faces of people who stand, in the middle of the nearest row. */
    private static final Vec3 FACES = new Vec3(0, 0, 1.6);

    // ANSI E1.31-2018 has universes 1 to 63999.
    private static final Quantity UNIVERSE =
            new Quantity(
                    "a universe",
                    "",
                    SacnAddress.LEAST_UNIVERSE,
                    SacnAddress.MOST_UNIVERSE,
                    SacnAddress.LEAST_UNIVERSE);
    private static final Quantity SLOT = new Quantity("a slot", "", 1, SLOTS, 1);

    private final FixturesReader known;
    private final List<Fixture> fixtures;
    private final Names names;
    private final Problems problems;
    private final List<Light> lights = new ArrayList<>();
    private final List<Addressed> addressed = new ArrayList<>();

    /** Slots that are taken, and where the file says so. */
    private record Addressed(Light light, Mark at, String path) {
        int first() {
            return light.startSlot();
        }

        int last() {
            return light.startSlot() + slots(light.mode()) - 1;
        }

        boolean meets(int universe, int first, int last) {
            return light.universe() == universe && first <= last() && last >= first();
        }
    }

    RigReader(FixturesReader known, Names names, Problems problems) {
        this.known = known;
        fixtures = known.known();
        this.names = names;
        this.problems = problems;
    }

    List<Light> read(Value value) {
        value.list(MOST, "- " + EXAMPLE)
                .ifPresentOrElse(list -> list.forEach(this::one), names::incomplete);
        overlaps();
        return lights;
    }

    static int slots(Mode mode) {
        return mode.channels().stream().mapToInt(Mode.Channel::bytes).sum();
    }

    private void one(Value value) {
        value.fields(KEYS, EXAMPLE).ifPresentOrElse(f -> one(f, value.path()), names::incomplete);
    }

    private void one(Fields f, String path) {
        String name = names.take(f, "name", "key");
        Optional<Fixture> fixture = f.need("fixture", fixtures.get(0).id()).flatMap(this::fixture);
        Optional<Value> modeValue =
                f.get("mode", fixture.orElse(fixtures.get(0)).modes().get(0).id());
        Optional<Mode> mode =
                fixture.flatMap(
                        x ->
                                modeValue.isPresent()
                                        ? mode(x, modeValue.get())
                                        : Optional.of(x.modes().get(0)));
        int before = problems.errorCount();
        int universe = f.whole("universe", UNIVERSE, 1);
        Optional<Value> slotValue = f.need("slot", "1");
        Optional<Integer> slot = slotValue.flatMap(v -> v.whole(SLOT));
        boolean addressGood = problems.errorCount() == before;
        Optional<Value> positionValue = f.need("position", "[-2, -3, 2.2]");
        Optional<Vec3> position = positionValue.flatMap(v -> v.point("[-2, -3, 2.2]"));
        Optional<Vec3> aim =
                f.has("aim")
                        ? f.get("aim", "[0, 0, 1.6]").flatMap(v -> v.point("[0, 0, 1.6]"))
                        : Optional.of(FACES);
        if (position.isPresent() && position.equals(aim)) {
            problems.error(
                    positionValue.get().at(),
                    path + ".position and aim are the same point",
                    "write where the light stands, and as aim what it looks at");
        }
        Light light =
                new Light(
                        name,
                        fixture.orElse(fixtures.get(0)),
                        mode.orElse(fixtures.get(0).modes().get(0)),
                        universe,
                        slot.orElse(1),
                        position.orElse(FACES),
                        aim.orElse(FACES),
                        f.optional(
                                "modifier", "softbox 90", ModifierWords::read, ModifierWords.BARE));
        lights.add(light);
        if (mode.isPresent() && addressGood && slot.isPresent()) {
            address(new Addressed(light, slotValue.get().at(), path + ".slot"));
        }
    }

    private void address(Addressed a) {
        int count = slots(a.light().mode());
        if (a.last() > SLOTS) {
            problems.error(
                    a.at(),
                    a.path()
                            + ": '"
                            + a.light().name()
                            + "' would take slots "
                            + a.first()
                            + " to "
                            + a.last()
                            + ", and a universe ends at 512",
                    "write a slot between 1 and " + (SLOTS - count + 1));
        } else {
            addressed.add(a);
        }
    }

    private void overlaps() {
        for (int i = 1; i < addressed.size(); i++) {
            Addressed a = addressed.get(i);
            for (Addressed b : addressed.subList(0, i)) {
                if (b.meets(a.light().universe(), a.first(), a.last())) {
                    problems.error(
                            a.at(),
                            a.path()
                                    + ": "
                                    + taken(a)
                                    + " meets "
                                    + taken(b)
                                    + " of line "
                                    + b.at().line(),
                            free(a));
                    break;
                }
            }
        }
    }

    private static String taken(Addressed a) {
        String slots =
                a.first() == a.last()
                        ? "slot " + a.first()
                        : "slots " + a.first() + " to " + a.last();
        return "'" + a.light().name() + "' on " + slots;
    }

    private String free(Addressed a) {
        int count = slots(a.light().mode());
        int universe = a.light().universe();
        for (int tried = 0; tried < SLOTS; tried++) {
            int first = (a.first() - 1 + tried) % SLOTS + 1;
            int last = first + count - 1;
            if (last <= SLOTS
                    && addressed.stream()
                            .noneMatch(b -> !b.equals(a) && b.meets(universe, first, last))) {
                return "write slot: " + first + ", which is free, and set the light to it";
            }
        }
        return "write another universe: this one has no " + count + " free slots in a row";
    }

    private Optional<Fixture> fixture(Value value) {
        List<String> ids = fixtures.stream().map(Fixture::id).toList();
        return value.text(ids.get(0))
                .flatMap(
                        t -> {
                            Optional<Fixture> found =
                                    fixtures.stream().filter(x -> x.id().equals(t)).findFirst();
                            return found.isPresent() || !known.whole()
                                    ? found
                                    : value.wrong(Words.suggest(t, ids));
                        });
    }

    private static Optional<Mode> mode(Fixture fixture, Value value) {
        List<String> ids = fixture.modes().stream().map(Mode::id).toList();
        return value.text(ids.get(0))
                .flatMap(
                        t -> {
                            Optional<Mode> found =
                                    fixture.modes().stream()
                                            .filter(m -> m.id().equals(t))
                                            .findFirst();
                            return found.isPresent()
                                    ? found
                                    : value.wrong(
                                            Words.suggest(t, ids)
                                                    + ": '"
                                                    + fixture.id()
                                                    + "' has "
                                                    + Words.list(ids));
                        });
    }
}

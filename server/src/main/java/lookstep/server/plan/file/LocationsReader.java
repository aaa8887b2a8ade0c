package lookstep.server.plan.file;

import java.time.LocalTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import lookstep.server.plan.Circuit;
import lookstep.server.plan.House;
import lookstep.server.plan.Light;
import lookstep.server.plan.Location;
import lookstep.server.plan.Place;
import lookstep.server.plan.ShootPlan;

/** The places of a shoot: one under {@code place}, or several under {@code places}. */
final class LocationsReader {
    static final int MOST = 20;
    static final List<String> KEYS =
            List.of("house", "from", "until", "access", "ask", "notes", "circuits", "lights");

    private static final String TIME_EXAMPLE = "\"18:30\"";
    private static final Pattern TIME = Pattern.compile("([01]?\\d|2[0-3])[:.]([0-5]\\d)");
    private static final String LIGHTS_EXAMPLE = "[key, {name: rim, position: [-2, 1.5, 2.4]}]";
    private static final String CIRCUIT_EXAMPLE = "{name: stage left, amps: 16, lights: [key]}";
    private static final List<String> CIRCUIT_KEYS =
            List.of("name", "amps", "volts", "lights", "watts");
    private static final Quantity AMPS = new Quantity("amperes", " A", 1, 400, 16);
    private static final Quantity VOLTS = new Quantity("volts", " V", 90, 480, 230);
    private static final Quantity WATTS = new Quantity("watts", " W", 0, 100_000, 0);

    private final House house;
    private final List<Light> rig;
    private final Names lights;
    private final Problems problems;
    private final Names names = new Names("place");

    /**
     * @param house of places that have none of their own
     * @param lights names of the rig's
     */
    LocationsReader(House house, List<Light> rig, Names lights, Problems problems) {
        this.house = house;
        this.rig = rig;
        this.lights = lights;
        this.problems = problems;
    }

    /** At least one; none if something was reported. */
    List<Location> read(Fields f) {
        if (f.has("place") && f.has("places")) {
            problems.error(
                    f.keyAt("places"),
                    "there are place and places",
                    "write all of them under places, in the order you go through them");
            return List.of();
        }
        if (!f.has("places")) {
            return f.need("place", PlaceReader.EXAMPLE).flatMap(this::one).stream().toList();
        }
        List<Location> all = new ArrayList<>();
        Optional<List<Value>> list =
                f.get("places", "[" + PlaceReader.EXAMPLE + "]")
                        .flatMap(v -> v.list(MOST, "- " + PlaceReader.EXAMPLE));
        list.ifPresent(items -> items.forEach(v -> one(v).ifPresent(all::add)));
        if (list.isPresent() && list.get().isEmpty()) {
            problems.error(f.keyAt("places"), "places is empty", "write - " + PlaceReader.EXAMPLE);
        }
        return all;
    }

    /** A place where nothing can be made is no place of the shoot. */
    void checkThatShotsCanBeMade(ShootPlan plan) {
        for (Location location : plan.locations()) {
            if (plan.at(location.name()).shots().isEmpty()) {
                problems.error(
                        names.at(location.name()),
                        "no shot can be made at '"
                                + location.name()
                                + "': of no look of a shot the key is there",
                        "name in its lights what looks measure stops against, such as '"
                                + plan.looks().get(0).key()
                                + "'");
            }
        }
    }

    private Optional<Location> one(Value value) {
        List<String> keys = new ArrayList<>(PlaceReader.PLACE_KEYS);
        keys.addAll(KEYS);
        return value.fields(keys, PlaceReader.EXAMPLE).map(this::one);
    }

    private Location one(Fields f) {
        Place place = PlaceReader.place(f, names, problems);
        List<Light> there = lights(f);
        return new Location(
                place,
                f.optional("house", "{lux: 5, kelvin: 2700}", PlaceReader::house, house),
                time(f, "from"),
                time(f, "until"),
                there,
                circuits(f, there),
                f.optional("access", "through the yard", v -> v.text("through the yard"), ""),
                f.optional("ask", "the house technician", v -> v.text("the house technician"), ""),
                TextLists.read(f, "notes", "no tape on the floor"));
    }

    private Optional<LocalTime> time(Fields f, String key) {
        return f.get(key, TIME_EXAMPLE).flatMap(this::time);
    }

    private Optional<LocalTime> time(Value value) {
        String mend = "write a time of day in quotes, for example " + TIME_EXAMPLE;
        if (!value.isText()) {
            return value.wrong(mend);
        }
        Matcher m = TIME.matcher(value.text(TIME_EXAMPLE).orElse(""));
        return m.matches()
                ? Optional.of(
                        LocalTime.of(Integer.parseInt(m.group(1)), Integer.parseInt(m.group(2))))
                : value.wrong(mend);
    }

    private List<Light> lights(Fields f) {
        Optional<List<Value>> list =
                f.get("lights", LIGHTS_EXAMPLE)
                        .flatMap(v -> v.list(RigReader.MOST, LIGHTS_EXAMPLE));
        if (list.isEmpty()) {
            return rig;
        }
        if (list.get().isEmpty()) {
            problems.error(
                    f.keyAt("lights"),
                    f.path("lights") + " is empty",
                    "name the lights that are there, or leave the line out for all of them");
            return rig;
        }
        Map<String, Light> there = new LinkedHashMap<>();
        list.get().forEach(v -> light(v).ifPresent(l -> there.putIfAbsent(l.name(), l)));
        // in the rig's order, whatever the file's
        return rig.stream()
                .filter(l -> there.containsKey(l.name()))
                .map(l -> there.get(l.name()))
                .toList();
    }

    private Optional<Light> light(Value value) {
        if (value.isText()) {
            return value.text("key").flatMap(name -> named(name, value));
        }
        return value.fields(List.of("name", "position", "aim"), "{name: rim, position: [0, 2, 2]}")
                .flatMap(
                        f -> {
                            Optional<Value> at = f.need("name", "rim");
                            return at.flatMap(v -> v.text("rim"))
                                    .flatMap(name -> named(name, at.get()))
                                    .map(l -> l.placed(PlacingReader.read(f, l, problems)));
                        });
    }

    private Optional<Light> named(String name, Value value) {
        if (!lights.check(name, value.at(), value.path(), problems)) {
            return Optional.empty();
        }
        return rig.stream().filter(l -> l.name().equals(name)).findFirst();
    }

    private List<Circuit> circuits(Fields f, List<Light> there) {
        List<Circuit> all = new ArrayList<>();
        Map<String, String> plugged = new LinkedHashMap<>();
        f.get("circuits", "[" + CIRCUIT_EXAMPLE + "]")
                .flatMap(v -> v.list(50, "[" + CIRCUIT_EXAMPLE + "]"))
                .ifPresent(
                        list ->
                                list.forEach(
                                        v ->
                                                v.fields(CIRCUIT_KEYS, CIRCUIT_EXAMPLE)
                                                        .ifPresent(
                                                                c ->
                                                                        all.add(
                                                                                circuit(
                                                                                        c, there,
                                                                                        plugged)))));
        return all;
    }

    private Circuit circuit(Fields f, List<Light> there, Map<String, String> plugged) {
        String name = f.need("name", "stage left").flatMap(v -> v.text("stage left")).orElse("");
        List<String> on = new ArrayList<>();
        f.get("lights", "[key]")
                .flatMap(v -> v.list(RigReader.MOST, "[key]"))
                .ifPresent(
                        list ->
                                list.forEach(
                                        v ->
                                                v.text("key")
                                                        .flatMap(n -> named(n, v))
                                                        .map(Light::name)
                                                        .ifPresent(
                                                                n ->
                                                                        plug(
                                                                                n, name, v, plugged,
                                                                                on))));
        on.removeIf(n -> there.stream().noneMatch(l -> l.name().equals(n)));
        return new Circuit(
                name,
                f.number("amps", AMPS),
                f.number("volts", VOLTS, VOLTS.example()),
                on,
                f.number("watts", WATTS, WATTS.example()));
    }

    private static void plug(
            String light, String circuit, Value at, Map<String, String> plugged, List<String> on) {
        String other = plugged.putIfAbsent(light, circuit);
        if (other != null) {
            at.wrong("plug it into one circuit only: it is on '" + other + "' already");
        } else {
            on.add(light);
        }
    }
}

package lookstep.server.plan.file;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.Placing;

/** The looks. */
final class LooksReader {
    static final int MOST = 200;
    static final String EXAMPLE = "{name: safe, lights: {key: {percent: 100}}}";
    static final double FADE_SECONDS = 0.7;

    private static final List<String> KEYS =
            List.of("name", "camera", "fade", "key", "lights", "moved");
    private static final Quantity FADE = new Quantity("seconds", " s", 0, 60, FADE_SECONDS);
    private static final String LIGHTS_EXAMPLE = "{key: {percent: 100}}";

    private final CameraReader.Some camera;
    private final List<Light> rig;
    private final Names lightNames;
    private final Names lookNames;
    private final Problems problems;
    private final List<Look> looks = new ArrayList<>();

    LooksReader(
            CameraReader.Some camera,
            List<Light> rig,
            Names lightNames,
            Names lookNames,
            Problems problems) {
        this.camera = camera;
        this.rig = rig;
        this.lightNames = lightNames;
        this.lookNames = lookNames;
        this.problems = problems;
    }

    List<Look> read(Value value) {
        value.list(MOST, "- " + EXAMPLE)
                .ifPresentOrElse(list -> list.forEach(this::one), lookNames::incomplete);
        return looks;
    }

    private void one(Value value) {
        value.fields(KEYS, EXAMPLE)
                .ifPresentOrElse(f -> one(f, value.path()), lookNames::incomplete);
    }

    private void one(Fields f, String path) {
        String name = lookNames.take(f, "name", "safe");
        CameraReader.Some own =
                f.get("camera", CameraReader.EXAMPLE)
                        .map(CameraReader::some)
                        .orElse(CameraReader.Some.NONE);
        CameraSettings settings =
                CameraReader.settings(own, camera, f.keyAt("camera"), path + ".camera", problems);
        double fade = f.number("fade", FADE, FADE_SECONDS);
        Map<String, Setting> lights = new LinkedHashMap<>();
        Optional<Value> lightsValue = f.need("lights", LIGHTS_EXAMPLE);
        int before = problems.errorCount();
        lightsValue.ifPresent(v -> lights(v, settings.kelvin(), lights));
        boolean lightsGood = lightsValue.isPresent() && problems.errorCount() == before;
        Optional<Value> keyValue = f.get("key", "key");
        Optional<String> key = keyValue.flatMap(v -> v.text("key"));
        if (f.has("key")) {
            if (key.isPresent()
                    && lightNames.check(key.get(), keyValue.get().at(), path + ".key", problems)
                    && lightsGood) {
                givenKey(key.get(), keyValue.get(), lights);
            }
        } else if (lightsGood) {
            key = impliedKey(f, path, lights);
        }
        looks.add(
                new Look(
                        name,
                        settings,
                        fade,
                        key.orElse(""),
                        Collections.unmodifiableMap(lights),
                        moved(f)));
    }

    private Map<String, Placing> moved(Fields f) {
        String example = "{key: {position: [2, -1, 2.2]}}";
        Optional<Value> value = f.get("moved", example);
        if (value.isEmpty()) {
            return Map.of();
        }
        if (!(value.get().node() instanceof Node.Mapping m)) {
            value.get().wrong("name lights with their new places, for example " + example);
            return Map.of();
        }
        Map<String, Placing> all = new LinkedHashMap<>();
        m.entries()
                .forEach(
                        (name, entry) -> {
                            String path = value.get().path() + "." + Words.brief(name);
                            if (!lightNames.check(name, entry.keyAt(), path, problems)) {
                                return;
                            }
                            rig.stream()
                                    .filter(l -> l.name().equals(name))
                                    .findFirst()
                                    .ifPresent(
                                            l ->
                                                    new Value(entry.value(), path, problems)
                                                            .fields(
                                                                    List.of("position", "aim"),
                                                                    "{position: [2, -1, 2.2]}")
                                                            .ifPresent(
                                                                    p ->
                                                                            all.put(
                                                                                    name,
                                                                                    PlacingReader
                                                                                            .read(
                                                                                                    p,
                                                                                                    l,
                                                                                                    problems))));
                        });
        return Collections.unmodifiableMap(all);
    }

    private void lights(Value value, double cameraKelvin, Map<String, Setting> into) {
        if (!(value.node() instanceof Node.Mapping m) || m.entries().isEmpty()) {
            value.wrong("name at least one light, for example " + LIGHTS_EXAMPLE);
            return;
        }
        if (m.entries().size() > RigReader.MOST) {
            value.wrong("name " + RigReader.MOST + " lights at most");
            return;
        }
        m.entries()
                .forEach(
                        (light, entry) -> {
                            String path = value.path() + "." + Words.brief(light);
                            lightNames.check(light, entry.keyAt(), path, problems);
                            new Value(entry.value(), path, problems)
                                    .fields(SettingReader.KEYS, SettingReader.EXAMPLE)
                                    .ifPresent(
                                            f ->
                                                    into.put(
                                                            light,
                                                            SettingReader.read(
                                                                    f,
                                                                    path,
                                                                    cameraKelvin,
                                                                    problems)));
                        });
    }

    private void givenKey(String key, Value at, Map<String, Setting> lights) {
        Setting setting = lights.get(key);
        if (setting == null) {
            problems.error(
                    at.at(),
                    at.path() + ": '" + key + "' is off in this look",
                    "name it under lights, in percent or lux, or name another key");
        } else if (setting.level() instanceof Level.StopsFromKey) {
            problems.error(
                    at.at(),
                    at.path() + ": '" + key + "' is itself given in stops",
                    "give '" + key + "' in percent or lux: stops are measured against it");
        } else {
            dark(key, at.at(), at.path(), lights);
        }
    }

    private Optional<String> impliedKey(Fields f, String path, Map<String, Setting> lights) {
        List<String> measured =
                lights.entrySet().stream()
                        .filter(e -> !(e.getValue().level() instanceof Level.StopsFromKey))
                        .map(Map.Entry::getKey)
                        .toList();
        boolean stops = measured.size() < lights.size();
        if (measured.isEmpty()) {
            problems.error(
                    f.keyAt("lights"),
                    path + " has stops, but no light in percent or lux to measure them against",
                    "give the key in percent or lux, for example key: {percent: 70}");
            return Optional.empty();
        }
        if (stops && measured.size() > 1) {
            problems.error(
                    f.keyAt("lights"),
                    path + " has stops and " + measured.size() + " lights in percent or lux",
                    "say which of them stops are measured against: key: " + measured.get(0));
        } else {
            dark(measured.get(0), f.keyAt("lights"), path, lights);
        }
        return Optional.of(measured.get(0));
    }

    /** Nothing can be measured against no light. */
    private void dark(String key, Mark at, String path, Map<String, Setting> lights) {
        boolean stops =
                lights.values().stream().anyMatch(s -> s.level() instanceof Level.StopsFromKey);
        if (stops && lights.get(key).level() instanceof Level.Percent p && p.percent() == 0) {
            problems.error(
                    at,
                    path + ": stops are measured against '" + key + "', which is at 0 percent",
                    "give '" + key + "' some light, or write the others in percent or lux");
        }
    }
}

package lookstep.server.plan.file;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import lookstep.server.plan.Look.Blend;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.Look.Setting;

/** What one light does in a look. */
final class SettingReader {
    static final List<String> KEYS =
            List.of("percent", "stops", "lux", "kelvin", "duv", "xy", "hue", "saturation", "blend");
    static final List<String> BLENDS = List.of("broad", "most");
    static final String EXAMPLE = "{percent: 70, kelvin: 3000}";

    private static final List<String> LEVELS = List.of("percent", "stops", "lux");
    private static final Quantity PERCENT = new Quantity("percent", " %", 0, 100, 70);
    private static final Quantity STOPS = new Quantity("stops", " stops", -10, 5, -1);
    private static final Quantity LUX = new Quantity("lux", " lx", 0.1, 100_000, 400);

    /** Beyond it a light looks wrong rather than tinted; a full green gel is about half of that. */
    private static final Quantity DUV = new Quantity("a Duv", "", -0.03, 0.03, 0.003);

    private static final Quantity CHROMATICITY =
            new Quantity("a chromaticity", "", 0.001, 0.9, 0.2);
    private static final Quantity HUE = new Quantity("degrees", " degrees", 0, 360, 220);
    private static final Quantity SATURATION = new Quantity("percent", " %", 0, 100, 80);

    private final Fields f;
    private final String path;
    private final double cameraKelvin;
    private final Problems problems;

    private SettingReader(Fields f, String path, double cameraKelvin, Problems problems) {
        this.f = f;
        this.path = path;
        this.cameraKelvin = cameraKelvin;
        this.problems = problems;
    }

    /**
     * Reads one.
     *
     * @param cameraKelvin the colour of a light that says none: it is white to the camera
     */
    static Setting read(Fields f, String path, double cameraKelvin, Problems problems) {
        SettingReader r = new SettingReader(f, path, cameraKelvin, problems);
        Level level = r.level();
        return new Setting(level, r.colour(), r.blend());
    }

    private Level level() {
        List<String> given = LEVELS.stream().filter(f::has).toList();
        if (given.size() > 1) {
            twice(given, given.size() == 2 ? "keep one of the two" : "keep one of the three");
        } else if (given.isEmpty()) {
            problems.error(
                    f.at(),
                    path + " does not say how much light",
                    "write percent: 70, stops: -1 (against the key) or lux: 400 (at the people)");
        }
        if (f.has("stops")) {
            return new Level.StopsFromKey(f.number("stops", STOPS));
        }
        return f.has("lux")
                ? new Level.Lux(f.number("lux", LUX))
                : new Level.Percent(f.number("percent", PERCENT, 0));
    }

    private Colour colour() {
        boolean white = f.has("kelvin") || f.has("duv");
        boolean hue = f.has("hue") || f.has("saturation");
        if ((white ? 1 : 0) + (f.has("xy") ? 1 : 0) + (hue ? 1 : 0) > 1) {
            twice(
                    List.of("kelvin", "duv", "xy", "hue", "saturation").stream()
                            .filter(f::has)
                            .toList(),
                    "keep one way to say the colour: kelvin (with duv), xy, or hue and saturation");
        } else if (hue) {
            return hue();
        }
        Optional<Colour> xy = f.get("xy", "[0.2, 0.15]").flatMap(SettingReader::xy);
        double kelvin = f.number("kelvin", Quantity.KELVIN, cameraKelvin);
        double duv = f.number("duv", DUV, 0);
        return xy.orElseGet(() -> new Colour.Temperature(kelvin, duv));
    }

    private Colour hue() {
        for (String key : List.of("hue", "saturation")) {
            if (!f.has(key)) {
                String other = key.equals("hue") ? "saturation" : "hue";
                problems.error(
                        f.keyAt(other),
                        path + " has " + other + " without " + key,
                        "write " + key + " beside it, for example hue: 220, saturation: 80");
            }
        }
        return new Colour.HueSaturation(
                f.number("hue", HUE, 0), f.number("saturation", SATURATION, 100) / 100);
    }

    private Blend blend() {
        return f.optional("blend", "most", SettingReader::blend, Blend.BROAD);
    }

    private static Optional<Blend> blend(Value value) {
        return value.text("most")
                .flatMap(
                        t ->
                                switch (t) {
                                    case "broad" -> Optional.of(Blend.BROAD);
                                    case "most" -> Optional.of(Blend.MOST);
                                    default -> value.wrong(Words.suggest(t, BLENDS));
                                });
    }

    private static Optional<Colour> xy(Value value) {
        Optional<double[]> n = value.numbers(2, CHROMATICITY, "[0.2, 0.15]");
        if (n.isPresent() && n.get()[0] + n.get()[1] > 1) {
            value.problems()
                    .error(
                            value.at(),
                            value.path() + " is no colour: x and y are more than 1 together",
                            "write the CIE 1931 chromaticity, for example [0.2, 0.15]");
            return Optional.empty();
        }
        return n.map(a -> new Colour.Xy(a[0], a[1]));
    }

    /** Reports keys that exclude each other where the last of them stands. */
    private void twice(List<String> given, String mend) {
        List<String> keys =
                given.stream()
                        .sorted(
                                Comparator.<String>comparingInt(k -> f.keyAt(k).line())
                                        .thenComparingInt(k -> f.keyAt(k).column()))
                        .toList();
        String last = keys.get(keys.size() - 1);
        problems.error(
                f.keyAt(last),
                path
                        + " has "
                        + String.join(", ", keys.subList(0, keys.size() - 1))
                        + " and "
                        + last,
                mend);
    }
}

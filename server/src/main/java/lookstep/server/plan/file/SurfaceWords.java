package lookstep.server.plan.file;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import lookstep.server.plan.Surface;

/**
 * Words for surfaces. The reflectances are common practice: skin 0.05 to 0.45, black cloth 0.02 to
 * 0.05, white walls 0.7 to 0.9, the 18 % card for grey; the colours are chosen to these.
 */
final class SurfaceWords {
    static final SurfaceWords SKIN =
            new SurfaceWords(
                    of(
                            "light", new Surface(0.52, 0.33, 0.25),
                            "medium", new Surface(0.36, 0.20, 0.14),
                            "brown", new Surface(0.20, 0.105, 0.068),
                            "deep", new Surface(0.10, 0.05, 0.033)));

    static final SurfaceWords HAIR =
            new SurfaceWords(
                    of(
                            "black",
                            grey(0.02),
                            "brown",
                            new Surface(0.06, 0.035, 0.02),
                            "red",
                            new Surface(0.18, 0.06, 0.02),
                            "fair",
                            new Surface(0.35, 0.25, 0.12),
                            "grey",
                            grey(0.30),
                            "white",
                            grey(0.60)));

    static final SurfaceWords CLOTHES =
            new SurfaceWords(
                    of(
                            "black cloth", grey(0.03),
                            "grey cloth", grey(0.18),
                            "white cloth", grey(0.75),
                            "cream cloth", new Surface(0.65, 0.58, 0.42),
                            "denim", new Surface(0.05, 0.08, 0.14),
                            "red cloth", new Surface(0.35, 0.03, 0.03),
                            "green cloth", new Surface(0.05, 0.16, 0.06),
                            "blue cloth", new Surface(0.04, 0.07, 0.30),
                            "yellow cloth", new Surface(0.60, 0.42, 0.05),
                            "black leather", grey(0.05),
                            "brown leather", new Surface(0.10, 0.05, 0.03)));

    static final SurfaceWords ROOM =
            new SurfaceWords(
                    of(
                            "black cloth", grey(0.03),
                            "grey cloth", grey(0.18),
                            "white cloth", grey(0.75),
                            "black paint", grey(0.05),
                            "grey paint", grey(0.30),
                            "white paint", grey(0.80),
                            "wood", new Surface(0.30, 0.19, 0.10),
                            "brick", new Surface(0.30, 0.13, 0.08),
                            "concrete", grey(0.25)));

    private final Map<String, Surface> words;

    private SurfaceWords(Map<String, Surface> words) {
        this.words = words;
    }

    Map<String, Surface> words() {
        return words;
    }

    /** A word of this table or {@code [red, green, blue]}. */
    Optional<Surface> read(Value value) {
        String example = words.keySet().iterator().next();
        if (value.isList()) {
            return value.numbers(3, Quantity.REFLECTANCE, "[0.35, 0.03, 0.03]")
                    .map(n -> new Surface(n[0], n[1], n[2]));
        }
        if (!value.isText()) {
            return value.wrong("write a word or [red, green, blue], for example " + example);
        }
        return word(value);
    }

    /** A word of this table or one number; gives the share of white light it sends back. */
    Optional<Double> readGrey(Value value) {
        return value.isText()
                ? word(value).map(SurfaceWords::luminance)
                : value.number(Quantity.REFLECTANCE);
    }

    /** IEC 61966-2-1 primaries: the weight of each in CIE Y. */
    static double luminance(Surface s) {
        return 0.2126 * s.red() + 0.7152 * s.green() + 0.0722 * s.blue();
    }

    private Optional<Surface> word(Value value) {
        return value.text("")
                .flatMap(
                        t -> {
                            Surface s = words.get(t);
                            return s != null
                                    ? Optional.of(s)
                                    : value.wrong(Words.suggest(t, words.keySet()));
                        });
    }

    private static Surface grey(double reflectance) {
        return new Surface(reflectance, reflectance, reflectance);
    }

    private static Map<String, Surface> of(Object... pairs) {
        Map<String, Surface> map = new LinkedHashMap<>();
        for (int i = 0; i < pairs.length; i += 2) {
            map.put((String) pairs[i], (Surface) pairs[i + 1]);
        }
        return Collections.unmodifiableMap(map);
    }
}

package lookstep.server.plan;

import java.text.Normalizer;
import java.util.Locale;
import java.util.stream.Collectors;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.Look.Setting;
import lookstep.simulator.model.scene.Arrangement;

/** Parts of a plan in plain words, as the pages and {@code check} show them. */
public final class PlanWords {
    private PlanWords() {}

    /** {@code 1/125} below half a second or so, {@code 2} above; without the unit. */
    public static String time(double seconds) {
        double whole = 1 / seconds;
        boolean fraction = seconds < 1 && Math.abs(whole - Math.rint(whole)) < 1e-6 * whole;
        return fraction ? "1/" + Math.round(whole) : number(seconds);
    }

    /** {@code f/8, 1/125 s, ISO 3200, 3000 K}. */
    public static String camera(CameraSettings c) {
        return "f/"
                + number(c.fNumber())
                + ", "
                + time(c.seconds())
                + " s, ISO "
                + number(c.iso())
                + ", "
                + number(c.kelvin())
                + " K";
    }

    /** {@code universe 1, slots 1-4}. */
    public static String address(Light light) {
        int slots = light.mode().slots();
        int first = light.startSlot();
        return "universe "
                + light.universe()
                + (slots == 1 ? ", slot " + first : ", slots " + first + "-" + (first + slots - 1));
    }

    /**
     * {@code full, 3000 K}; {@code 2 stops under, 3000 K, Duv 0.003 greener}; {@code 400 lx, hue
     * 220, saturation 80 %}; {@code off}.
     */
    public static String setting(Setting setting) {
        if (setting.level() instanceof Level.Percent p && p.percent() == 0) {
            return "off";
        }
        String most = setting.blend() == Look.Blend.MOST ? ", blended for most light" : "";
        return level(setting.level()) + ", " + colour(setting.colour()) + most;
    }

    private static String level(Level level) {
        if (level instanceof Level.Percent p) {
            return p.percent() == 100 ? "full" : number(p.percent()) + " %";
        } else if (level instanceof Level.Lux lux) {
            return number(lux.lux()) + " lx";
        }
        double stops = ((Level.StopsFromKey) level).stops();
        if (stops == 0) {
            return "as much as the key";
        }
        double size = Math.abs(stops);
        String count = size == 1 ? "a stop" : size == 0.5 ? "half a stop" : number(size) + " stops";
        return count + (stops < 0 ? " under" : " over");
    }

    private static String colour(Colour colour) {
        if (colour instanceof Colour.Temperature t) {
            String kelvin = number(t.kelvin()) + " K";
            if (t.duv() == 0) {
                return kelvin;
            }
            return kelvin
                    + ", Duv "
                    + number(Math.abs(t.duv()))
                    + (t.duv() > 0 ? " greener" : " pinker");
        } else if (colour instanceof Colour.HueSaturation hs) {
            return "hue "
                    + number(hs.hueDegrees())
                    + ", saturation "
                    + number(hs.saturation() * 100)
                    + " %";
        }
        Colour.Xy xy = (Colour.Xy) colour;
        return "colour x " + number(xy.x()) + " y " + number(xy.y());
    }

    /** {@code V, middle nearest}; {@code W}; {@code rows of 2 and 3, front first}. */
    public static String arrangement(Arrangement a) {
        return switch (a.kind()) {
            case LINE -> "line";
            case WEDGE -> a.apexNear() ? "V, middle nearest" : "V, middle farthest";
            case ZIGZAG -> "W";
            case ROWS ->
                    "rows of "
                            + a.rows().stream()
                                    .map(String::valueOf)
                                    .collect(Collectors.joining(" and "))
                            + ", front first";
            case CLUSTER -> "cluster";
            case SOLO -> "solo";
        };
    }

    /** {@code 8 min}, {@code 1 min 30 s}, {@code 45 s}. */
    public static String length(double seconds) {
        long all = Math.round(seconds);
        long minutes = all / 60;
        long rest = all % 60;
        if (minutes == 0) {
            return rest + " s";
        }
        return minutes + " min" + (rest == 0 ? "" : " " + rest + " s");
    }

    /** Lower case, accents gone, everything else a hyphen; may be empty. */
    public static String slug(String name) {
        return Normalizer.normalize(name, Normalizer.Form.NFD)
                .replaceAll("\\p{M}+", "")
                .toLowerCase(Locale.ROOT)
                .replaceAll("[^a-z0-9]+", "-")
                .replaceAll("^-|-$", "");
    }

    /** Without needless zeros: {@code 8}, {@code 5.6}, {@code 1.85}. */
    public static String number(double value) {
        if (value == Math.rint(value) && Math.abs(value) < 1e9) {
            return String.valueOf((long) value);
        }
        return String.format(Locale.ROOT, "%.4f", value).replaceAll("0+$", "");
    }
}

package lookstep.server.look;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import lookstep.server.look.LookLevels.Worked;
import lookstep.server.plan.Look.Blend;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.PlanWords;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.ColourTemperature;
import lookstep.simulator.model.colour.Mired;
import lookstep.simulator.model.colour.WhiteBalance;

/** What the lights of a look cannot do, in plain words. */
final class LightNotes {
    /** Stops short of what was asked that are worth a word: a tenth is not seen. */
    private static final double WORTH_SAYING_STOPS = 0.1;

    /** Duv that is worth a word: three thousandths are seen on a white wall (common practice). */
    private static final double WORTH_SAYING_DUV = 0.003;

    /** CIEDE2000 that rounding may cost before it is worth a word: seen, but only side by side. */
    private static final double WORTH_SAYING_E = 3;

    private final String look;
    private final WhiteBalance camera;
    private final List<String> notes = new ArrayList<>();

    LightNotes(String look, WhiteBalance camera) {
        this.look = look;
        this.camera = camera;
    }

    List<String> all() {
        return List.copyOf(notes);
    }

    /** Looks at one light that is named in the look. */
    void about(Worked w, LightReport report) {
        if (w.setting().level() instanceof Level.Percent p && p.percent() == 0) {
            return;
        }
        boolean measured = !(w.setting().level() instanceof Level.Percent);
        if (measured && w.mostLux() <= 0) {
            say(w, "does not reach the people: aim it at them");
            return;
        }
        if (measured && w.wantedLux() <= 0) {
            say(w, "is off: the key, from which its stops are counted, gives the people no light");
            return;
        }
        if (!w.mix().reached()) {
            say(w, cannotMake(w.setting().colour(), w.mix()));
        }
        amount(w);
        report.given().ifPresent(g -> rounding(w, g));
    }

    private void amount(Worked w) {
        double asked = w.wantedLux();
        if (w.mostLux() <= 0 || asked <= 0) {
            return;
        }
        double missing = LightRange.stops(w.mostLux(), asked);
        double under = LightRange.stops(asked, w.leastLux());
        if (missing > WORTH_SAYING_STOPS) {
            say(w, toBe(w, w.mostLux()) + " is its most: " + mend(w, missing));
        } else if (under > WORTH_SAYING_STOPS) {
            say(w, toBe(w, w.leastLux()) + " is its least, and it gives that: " + lower());
        }
    }

    /** {@code is to be +6.0 stops from the key, +2.1}. */
    private static String toBe(Worked w, double canLux) {
        Level level = w.setting().level();
        if (level instanceof Level.StopsFromKey s) {
            double can = s.stops() + LightRange.stops(w.wantedLux(), canLux);
            return String.format(
                    Locale.ROOT, "is to be %+.1f stops from the key, %+.1f", s.stops(), can);
        } else if (level instanceof Level.Lux l) {
            return "is to be " + LightWords.lux(l.lux()) + ", " + LightWords.lux(canLux);
        }
        double percent = ((Level.Percent) level).percent();
        return String.format(
                Locale.ROOT,
                "is to be %s %%, %s %%",
                PlanWords.number(percent),
                PlanWords.number(Math.round(percent * canLux / w.wantedLux() * 1e4) / 1e4));
    }

    private String mend(Worked w, double missing) {
        String nearer =
                w.setting().level() instanceof Level.StopsFromKey
                        ? "bring it nearer or take the key down"
                        : "bring it nearer";
        if (w.setting().blend() == Blend.BROAD) {
            ColourMix most = ColourMix.of(w.light(), w.mix().wanted(), Blend.MOST);
            double more = LightRange.stops(w.mix().full().y(), most.full().y());
            if (more > WORTH_SAYING_STOPS) {
                return String.format(
                        Locale.ROOT,
                        "write blend: most for %.1f stops more, %s",
                        Math.min(more, missing),
                        nearer);
            }
        }
        return nearer;
    }

    private static String lower() {
        return "move it back, put something before it, or leave it out";
    }

    /** {@code cannot make 2000 K: 2700 K is the nearest, 130 mired colder}. */
    private String cannotMake(Colour colour, ColourMix mix) {
        Chromaticity got = mix.full().chromaticity();
        ColourTemperature nearest = ColourTemperature.of(got);
        if (!(colour instanceof Colour.Temperature t) || !nearest.useful()) {
            return String.format(
                    Locale.ROOT,
                    "cannot make %s, which is %s to the camera: the nearest is %s, xy %.3f, %.3f;"
                            + " ΔE00 %.0f away (%.3f in u'v')",
                    words(colour),
                    ColourName.of(mix.wanted(), camera),
                    ColourName.of(got, camera),
                    got.x(),
                    got.y(),
                    camera.difference(mix.wanted(), got),
                    got.distanceUvPrime(mix.wanted()));
        }
        StringBuilder text = new StringBuilder("cannot make " + words(colour) + ": ");
        text.append(LightWords.kelvin(nearest.kelvin())).append(" is the nearest");
        long mired = Math.round(Mired.shift(t.kelvin(), nearest.kelvin()));
        if (mired != 0) {
            text.append(", ").append(LightWords.mired(mired));
        }
        double duv = nearest.duv() - t.duv();
        if (Math.abs(duv) >= WORTH_SAYING_DUV) {
            text.append(
                    String.format(
                            Locale.ROOT,
                            ", %.3f Duv %s",
                            Math.abs(duv),
                            duv > 0 ? "greener" : "pinker"));
        }
        return text.toString();
    }

    private static String words(Colour colour) {
        if (colour instanceof Colour.Temperature t) {
            String kelvin = String.format(Locale.ROOT, "%.0f K", t.kelvin());
            return t.duv() == 0
                    ? kelvin
                    : kelvin + String.format(Locale.ROOT, " with Duv %+.3f", t.duv());
        } else if (colour instanceof Colour.HueSaturation hs) {
            return String.format(
                    Locale.ROOT,
                    "hue %s saturation %s %%",
                    PlanWords.number(hs.hueDegrees()),
                    PlanWords.number(hs.saturation() * 100));
        }
        Colour.Xy xy = (Colour.Xy) colour;
        return String.format(Locale.ROOT, "xy %.3f, %.3f", xy.x(), xy.y());
    }

    /** Few codes near the floor: the colour may be another one there. */
    private void rounding(Worked w, LightReport.Given given) {
        Chromaticity mixed = w.mix().full().chromaticity();
        double off = camera.difference(mixed, given.colour().given());
        if (off >= WORTH_SAYING_E) {
            say(
                    w,
                    String.format(
                            Locale.ROOT,
                            "is so dim that its slots round its colour by ΔE00 %.0f: a mode with a"
                                    + " dimmer or with 16 bits keeps it",
                            off));
        }
    }

    private void say(Worked w, String what) {
        notes.add("look ‘" + look + "’: ‘" + w.light().name() + "’ " + what);
    }
}

package lookstep.server.look;

import java.util.Locale;
import lookstep.server.look.LightReport.Amount;
import lookstep.server.look.LightReport.Colour;
import lookstep.server.look.LightReport.Given;

/** What a light gives, in the photographer's words. */
public final class LightWords {
    /** Five mired are not seen (common practice: gels begin at about that). */
    private static final double SAME_MIRED = 5;

    private static final double SEEN_DUV = 0.003;

    /** CIEDE2000: 1 is the least that is seen side by side, 2 is seen at a glance. */
    private static final double SEEN_E = 2;

    /** Half a stop of room is soon used up. */
    private static final double NEAR_STOPS = 0.5;

    /** Steps wider than this are seen when a light is nudged. */
    private static final double WIDE_STEP_STOPS = 0.2;

    private LightWords() {}

    /** {@code 412 lx}; one decimal below 10. */
    public static String lux(double lux) {
        return String.format(Locale.ROOT, lux < 9.95 ? "%.1f lx" : "%.0f lx", lux);
    }

    /** {@code the key}; {@code 0.7 stops under}; {@code as the key}; empty if the key is dark. */
    public static String stops(LightReport report) {
        double stops = report.given().map(g -> g.amount().stops()).orElse(Double.NaN);
        if (report.key()) {
            return "the key";
        } else if (Double.isNaN(stops) || Double.isInfinite(stops)) {
            return "";
        }
        double tenths = Math.round(Math.abs(stops) * 10) / 10.0;
        return tenths == 0
                ? "as the key"
                : String.format(
                        Locale.ROOT,
                        "%.1f %s %s",
                        tenths,
                        tenths == 1 ? "stop" : "stops",
                        stops < 0 ? "under" : "over");
    }

    /** {@code 4290 K}: to ten, as a meter shows; one kelvin is less than its error. */
    static String kelvin(double kelvin) {
        return Math.round(kelvin / 10) * 10 + " K";
    }

    /** {@code 130 mired colder}. */
    public static String mired(long mired) {
        return Math.abs(mired) + " mired " + (mired < 0 ? "colder" : "warmer");
    }

    /**
     * {@code 4300 K, as the camera}; {@code 5600 K, 155 mired colder than the camera}; {@code sky
     * blue to the camera, xy 0.200, 0.150}; how far that is from what was asked, if it is seen.
     */
    public static String colour(Colour c) {
        StringBuilder text = new StringBuilder();
        if (c.temperature().useful()) {
            text.append(kelvin(c.temperature().kelvin())).append(", ");
            boolean same = Math.abs(c.miredFromCamera()) < SAME_MIRED;
            text.append(
                    same
                            ? "as the camera"
                            : mired(Math.round(c.miredFromCamera())) + " than the camera");
            double duv = c.temperature().duv();
            if (Math.abs(duv) >= SEEN_DUV) {
                text.append(
                        String.format(
                                Locale.ROOT,
                                ", Duv %+.3f (%s)",
                                duv,
                                duv > 0 ? "greenish" : "pinkish"));
            }
        } else {
            text.append(
                    String.format(
                            Locale.ROOT,
                            "%s to the camera, xy %.3f, %.3f",
                            c.seen(),
                            c.given().x(),
                            c.given().y()));
        }
        if (c.differenceE() >= SEEN_E) {
            text.append(String.format(Locale.ROOT, ", ΔE00 %.1f off", c.differenceE()));
        }
        return text.toString();
    }

    /**
     * {@code at its most}, {@code 0.3 stops below its most} and the like; empty far from limits.
     */
    public static String limits(Given given) {
        Amount a = given.amount();
        if (a.mostLux() <= 0) {
            return "does not reach the people";
        }
        double up = LightRange.stops(a.lux(), a.mostLux());
        double down = LightRange.stops(a.leastLux(), a.lux());
        StringBuilder text = new StringBuilder();
        if (up < 0.05) {
            text.append("at its most");
        } else if (up < NEAR_STOPS) {
            text.append(String.format(Locale.ROOT, "%.1f stops below its most", up));
        } else if (Double.isInfinite(a.stepStops())) {
            text.append("at its least");
        } else if (a.stepStops() > WIDE_STEP_STOPS) {
            text.append(
                    String.format(
                            Locale.ROOT,
                            "%.1f stops above its least, in steps of %.1f stops",
                            down,
                            a.stepStops()));
        }
        return text.toString();
    }
}

package lookstep.simulator.model.optics;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * The numbers on a camera's dials in third stops, and the exact values behind them: f/11 is
 * 11.3137, 1/125 is 1/128. Nominal series as in ISO 517 and ISO 12232 practice (from memory).
 * Compute with the exact value, show the nominal one.
 */
public final class Scales {
    /**
     * One mark on a dial.
     *
     * @param text what the dial shows
     * @param nominal its value as a number
     * @param exact the value in whole thirds of a stop
     */
    public record Mark(String text, double nominal, double exact) {}

    private static final List<Mark> F_NUMBERS =
            marks(
                    "1 1.1 1.2 1.4 1.6 1.8 2 2.2 2.5 2.8 3.2 3.5 4 4.5 5 5.6 6.3 7.1 8 9 10 11 13"
                            + " 14 16 18 20 22 25 29 32",
                    1,
                    1.0 / 6);
    private static final List<Mark> TIMES =
            marks(
                    "30 25 20 15 13 10 8 6 5 4 3.2 2.5 2 1.6 1.3 1 0.8 0.6 1/2 0.4 0.3 1/4 1/5 1/6"
                            + " 1/8 1/10 1/13 1/15 1/20 1/25 1/30 1/40 1/50 1/60 1/80 1/100 1/125"
                            + " 1/160 1/200 1/250 1/320 1/400 1/500 1/640 1/800 1/1000 1/1250"
                            + " 1/1600 1/2000 1/2500 1/3200 1/4000 1/5000 1/6400 1/8000",
                    32,
                    -1.0 / 3);
    private static final List<Mark> ISOS =
            marks(
                    "50 64 80 100 125 160 200 250 320 400 500 640 800 1000 1250 1600 2000 2500 3200"
                            + " 4000 5000 6400 8000 10000 12800 16000 20000 25600 32000 40000"
                            + " 51200",
                    50,
                    1.0 / 3);

    /** A value further than this from every mark, nominal or exact, was not set on a dial. */
    private static final double STRAY_STOPS = 0.1;

    private Scales() {}

    /** f/1 to f/32. */
    public static List<Mark> fNumbers() {
        return F_NUMBERS;
    }

    /** 30 s to 1/8000 s. */
    public static List<Mark> times() {
        return TIMES;
    }

    /** ISO 50 to ISO 51200. */
    public static List<Mark> isos() {
        return ISOS;
    }

    /** The mark nearest to a relative aperture, nominal or exact. */
    public static Mark nearestFNumber(double fNumber) {
        return nearest(F_NUMBERS, fNumber);
    }

    /** The mark nearest to a time, nominal or exact. */
    public static Mark nearestTime(double seconds) {
        return nearest(TIMES, seconds);
    }

    /** The mark nearest to an exposure index, nominal or exact. */
    public static Mark nearestIso(double iso) {
        return nearest(ISOS, iso);
    }

    /** The exact value behind a nominal one; a value that is on no mark stays as it is. */
    public static double exactFNumber(double nominal) {
        return exact(F_NUMBERS, nominal, 2);
    }

    /** The exact value behind a nominal one; a value that is on no mark stays as it is. */
    public static double exactSeconds(double nominal) {
        return exact(TIMES, nominal, 1);
    }

    /** The exact value behind a nominal one; a value that is on no mark stays as it is. */
    public static double exactIso(double nominal) {
        return exact(ISOS, nominal, 1);
    }

    /** The nearest mark as photographers write it: {@code f/5.6}. */
    public static String formatFNumber(double fNumber) {
        return "f/" + nearestFNumber(fNumber).text();
    }

    /** The nearest mark as photographers write it: {@code 1/125 s}, {@code 2 s}. */
    public static String formatTime(double seconds) {
        return nearestTime(seconds).text() + " s";
    }

    /** The nearest mark as photographers write it: {@code ISO 800}. */
    public static String formatIso(double iso) {
        return "ISO " + nearestIso(iso).text();
    }

    /** A difference in stops, signed, in plain figures: {@code +1.3}, {@code -2}, {@code 0}. */
    public static String formatStops(double stops) {
        String text = String.format(Locale.ROOT, "%+.1f", stops);
        if (text.endsWith(".0")) {
            text = text.substring(0, text.length() - 2);
        }
        return text.equals("+0") || text.equals("-0") ? "0" : text;
    }

    private static Mark nearest(List<Mark> marks, double value) {
        Mark best = marks.get(0);
        for (Mark m : marks) {
            if (away(m, value) < away(best, value)) {
                best = m;
            }
        }
        return best;
    }

    private static double away(Mark m, double value) {
        return Math.min(
                Math.abs(Math.log(value / m.nominal())), Math.abs(Math.log(value / m.exact())));
    }

    private static double exact(List<Mark> marks, double value, double stopsPerDoubling) {
        Mark m = nearest(marks, value);
        double stops = away(m, value) / Math.log(2) * stopsPerDoubling;
        return stops < STRAY_STOPS ? m.exact() : value;
    }

    private static List<Mark> marks(String texts, double first, double doublingsPerMark) {
        List<Mark> marks = new ArrayList<>();
        for (String text : texts.split(" ", -1)) {
            int slash = text.indexOf('/');
            double nominal =
                    slash < 0
                            ? Double.parseDouble(text)
                            : 1 / Double.parseDouble(text.substring(slash + 1));
            marks.add(
                    new Mark(text, nominal, first * Math.pow(2, doublingsPerMark * marks.size())));
        }
        return List.copyOf(marks);
    }
}

package lookstep.server.framecheck;

import java.util.List;
import java.util.Locale;
import lookstep.simulator.model.optics.Scales;

/** Figures and names as the remarks write them. */
final class Say {
    private Say() {}

    /** {@code 1.3 stops}, {@code 0.3 stop}; of the size alone. */
    static String stops(double stops) {
        String size = Scales.formatStops(Math.abs(stops)).replace("+", "");
        return size + (Math.abs(stops) < 1.05 ? " stop" : " stops");
    }

    /** {@code Ines, Marlo and Petra}. */
    static String names(List<String> names) {
        int last = names.size() - 1;
        return last < 1
                ? String.join("", names)
                : String.join(", ", names.subList(0, last)) + " and " + names.get(last);
    }

    /** {@code 12 %}; {@code 0.4 %} below one. */
    static String percent(double share) {
        return String.format(Locale.ROOT, share < 0.0095 ? "%.1f %%" : "%.0f %%", share * 100);
    }

    /** {@code five people}; {@code 12 people}; {@code one person}. */
    static String people(int n) {
        List<String> words =
                List.of("no", "one", "two", "three", "four", "five", "six", "seven", "eight");
        return (n < words.size() ? words.get(n) : String.valueOf(n))
                + (n == 1 ? " person" : " people");
    }

    static double log2(double v) {
        return Math.log(v) / Math.log(2);
    }
}

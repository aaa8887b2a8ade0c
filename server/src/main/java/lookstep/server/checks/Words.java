package lookstep.server.checks;

import java.util.List;
import java.util.Locale;
import lookstep.simulator.model.optics.Scales;

/** Figures and names as the findings write them. */
final class Words {
    private Words() {}

    static String text(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }

    /** {@code 1.3 stops}, {@code 0.3 stop}; of the size alone. */
    static String stops(double stops) {
        double size = Math.abs(stops);
        return Scales.formatStops(size).replace("+", "") + (size < 1.05 ? " stop" : " stops");
    }

    /** {@code 1.3 stops over}, {@code 0.3 stop under}. */
    static String overUnder(double stops) {
        return stops(stops) + (stops >= 0 ? " over" : " under");
    }

    /** {@code Ines, Marlo and Petra}. */
    static String names(List<String> names) {
        int last = names.size() - 1;
        return last < 1
                ? String.join("", names)
                : String.join(", ", names.subList(0, last)) + " and " + names.get(last);
    }

    static String quoted(List<String> names) {
        return names(names.stream().map(n -> "‘" + n + "’").toList());
    }

    static String percent(double share) {
        return text("%.0f %%", share * 100);
    }

    static double log2(double v) {
        return Math.log(v) / Math.log(2);
    }
}

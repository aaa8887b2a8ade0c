package lookstep.server.plan.file;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Times as photographers write them. */
final class TimeWords {
    static final double SHORTEST_WINDOW_SECONDS = 10;
    static final double LONGEST_WINDOW_SECONDS = 4 * 3600;

    private static final Quantity EXPOSURE =
            new Quantity("seconds", " s", 1.0 / 8000, 30, 1.0 / 125);
    private static final Quantity WINDOW = new Quantity("minutes", " min", 0, 100_000, 8);
    private static final String EXPOSURE_MEND =
            "write seconds between 1/8000 and 30, for example 1/125";
    private static final String WINDOW_MEND =
            "write between 10 s and 4 h, for example 8 min, 90 s or 12:30";
    private static final Pattern FRACTION = Pattern.compile("1/(\\d{1,5}(?:\\.\\d+)?)");
    private static final Pattern LENGTH = Pattern.compile("(\\d{1,6}(?:\\.\\d+)?) ?(s|sec|min|h)");
    private static final Pattern CLOCK = Pattern.compile("(\\d{1,3}):([0-5]\\d)");

    private TimeWords() {}

    /** {@code 1/125}, or seconds; kept as written, 1/125 is 0.008. */
    static Optional<Double> exposure(Value value) {
        double seconds;
        if (value.isNumber()) {
            Optional<Double> plain =
                    value.number(new Quantity("seconds", "", -1e9, 1e9, EXPOSURE.example()));
            if (plain.isEmpty()) {
                return plain;
            }
            seconds = plain.get();
        } else if (value.isText()) {
            Matcher m = FRACTION.matcher(value.text("1/125").orElse(""));
            if (!m.matches()) {
                return value.wrong(EXPOSURE_MEND);
            }
            seconds = 1 / Double.parseDouble(m.group(1));
        } else {
            return value.wrong(EXPOSURE_MEND);
        }
        return EXPOSURE.holds(seconds) ? Optional.of(seconds) : value.wrong(EXPOSURE_MEND);
    }

    /** {@code 8 min}, {@code 90 s}, {@code 12:30} (minutes and seconds), or minutes; in seconds. */
    static Optional<Double> window(Value value) {
        double seconds;
        if (value.isNumber()) {
            Optional<Double> minutes = value.number(WINDOW);
            if (minutes.isEmpty()) {
                return minutes;
            }
            seconds = 60 * minutes.get();
        } else if (value.isText()) {
            String text = value.text("8 min").orElse("");
            Matcher length = LENGTH.matcher(text);
            Matcher clock = CLOCK.matcher(text);
            if (length.matches()) {
                double each =
                        switch (length.group(2)) {
                            case "h" -> 3600;
                            case "min" -> 60;
                            default -> 1;
                        };
                seconds = each * Double.parseDouble(length.group(1));
            } else if (clock.matches()) {
                seconds = 60 * Integer.parseInt(clock.group(1)) + Integer.parseInt(clock.group(2));
            } else {
                return value.wrong(WINDOW_MEND);
            }
        } else {
            return value.wrong(WINDOW_MEND);
        }
        boolean fits = seconds >= SHORTEST_WINDOW_SECONDS && seconds <= LONGEST_WINDOW_SECONDS;
        return fits ? Optional.of(seconds) : value.wrong(WINDOW_MEND);
    }
}

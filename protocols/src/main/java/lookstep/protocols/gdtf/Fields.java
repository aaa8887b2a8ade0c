package lookstep.protocols.gdtf;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;

/** The attributes of one element. What cannot be read becomes a note and takes its default. */
record Fields(Element element, Notes notes) {
    private static final int LONGEST_NUMBER = 64;
    private static final Pattern NUMBER =
            Pattern.compile("[+-]?(\\d+(\\.\\d*)?|\\.\\d+)([eE][+-]?\\d{1,3})?");

    /** A number as the standard has it, with a point; empty if it is none or out of all bounds. */
    static Optional<Double> number(String text) {
        String stripped = text.strip();
        if (stripped.length() > LONGEST_NUMBER || !NUMBER.matcher(stripped).matches()) {
            return Optional.empty();
        }
        double value = Double.parseDouble(stripped);
        return Math.abs(value) <= Limits.NUMBER ? Optional.of(value) : Optional.empty();
    }

    Optional<String> raw(String name) {
        return Optional.ofNullable(element.attributes().get(name));
    }

    /** Text that is shown or compared. */
    String text(String name, String byDefault) {
        return raw(name).map(Shown::of).orElse(byDefault);
    }

    /** A node or a name of one; empty if there is none. */
    String node(String name) {
        return text(name, "");
    }

    double number(String name, double byDefault) {
        return given(name, byDefault).value();
    }

    Given given(String name, double byDefault) {
        Optional<String> text = raw(name);
        Optional<Double> value = text.flatMap(Fields::number);
        if (text.isPresent() && value.isEmpty()) {
            bad(name, text.get(), "no number that can be", shortest(byDefault));
        }
        return new Given(value.orElse(byDefault), value.isPresent());
    }

    /** A number that must lie in a range, ends included. */
    Given given(String name, double byDefault, double least, double most) {
        Given given = given(name, byDefault);
        if (given.value() >= least && given.value() <= most) {
            return given;
        }
        bad(
                name,
                raw(name).orElse(""),
                "not " + shortest(least) + " to " + shortest(most),
                shortest(byDefault));
        return new Given(byDefault, false);
    }

    int whole(String name, int byDefault, int least, int most) {
        Given given = given(name, byDefault, least, most);
        int value = (int) given.value();
        if (value != given.value()) {
            bad(name, raw(name).orElse(""), "no whole number", String.valueOf(byDefault));
            return byDefault;
        }
        return value;
    }

    /** A DMX value; "None" and a missing one are empty. */
    Optional<DmxValue> dmx(String name) {
        Optional<String> text = raw(name).filter(t -> !t.strip().equalsIgnoreCase("None"));
        Optional<DmxValue> value = text.flatMap(DmxValue::of);
        if (text.isPresent() && value.isEmpty()) {
            bad(name, text.get(), "no DMX value such as 255/1", "none");
        }
        return value;
    }

    Optional<ColorCie> color(String name) {
        Optional<String> text = raw(name);
        Optional<ColorCie> value = text.flatMap(ColorCie::of);
        if (text.isPresent() && value.isEmpty()) {
            bad(name, text.get(), "no CIE 1931 colour such as 0.64,0.33,21.3", "none");
        }
        return value;
    }

    private void bad(String name, String value, String what, String taken) {
        notes.add(
                element,
                "%s %s '%s' is %s; taken: %s"
                        .formatted(Shown.of(element.name()), name, Shown.of(value), what, taken));
    }

    private static String shortest(double value) {
        return value == Math.rint(value)
                ? String.format(Locale.ROOT, "%.0f", value)
                : String.valueOf(value);
    }
}

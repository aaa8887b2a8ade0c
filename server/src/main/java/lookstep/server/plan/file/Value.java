package lookstep.server.plan.file;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import lookstep.server.plan.file.Node.Mapping;
import lookstep.server.plan.file.Node.Reported;
import lookstep.server.plan.file.Node.Scalar;
import lookstep.server.plan.file.Node.Sequence;
import lookstep.simulator.model.space.Vec3;

/**
 * A value of the file with the path to it. Each method gives what the value is, or reports what is
 * wrong and gives nothing.
 *
 * @param path as errors call it: people[2].height, counted from 1
 */
record Value(Node node, String path, Problems problems) {
    static final int LONGEST_TEXT = 200;

    private static final Pattern NUMBER =
            Pattern.compile("[-+]?(\\d+\\.?\\d*|\\.\\d+)([eE][-+]?\\d+)?");
    private static final Pattern COMMA = Pattern.compile("([-+]?\\d+),(\\d+)");
    private static final Pattern WITH_UNIT = Pattern.compile("([-+]?\\d+(?:\\.\\d+)?) ?[^\\d\\s]+");

    Mark at() {
        return node.at();
    }

    Optional<Double> number(Quantity q) {
        if (!(node instanceof Scalar s && s.kind() == Scalar.Kind.NUMBER)) {
            return wrong(numberMend(q));
        }
        if (!NUMBER.matcher(s.text()).matches()) {
            return wrong(q.mend());
        }
        double value = Double.parseDouble(s.text());
        if (!q.holds(value)) {
            return wrong(q.mend(), s.text() + q.symbol());
        }
        return Optional.of(value);
    }

    Optional<Integer> whole(Quantity q) {
        Optional<Double> value = number(q);
        if (value.isPresent() && value.get() != Math.rint(value.get())) {
            return wrong("write a whole number, for example " + Words.number(q.example()));
        }
        return value.map(Double::intValue);
    }

    /** A short text on one line. */
    Optional<String> text(String example) {
        if (!(node instanceof Scalar s) || s.kind() == Scalar.Kind.NOTHING) {
            return wrong("write a text, for example " + example);
        }
        if (s.kind() != Scalar.Kind.TEXT) {
            return wrong("to have it as a text write it in quotes: \"" + s.text() + "\"");
        }
        if (s.text().length() > LONGEST_TEXT || s.text().indexOf('\n') >= 0) {
            return wrong("write one line of at most " + LONGEST_TEXT + " letters");
        }
        return Optional.of(s.text());
    }

    Optional<Boolean> truth() {
        if (node instanceof Scalar s
                && s.kind() == Scalar.Kind.TRUTH
                && (s.text().equals("true") || s.text().equals("false"))) {
            return Optional.of(s.text().equals("true"));
        }
        return wrong("write true or false");
    }

    boolean isText() {
        return node instanceof Scalar s && s.kind() == Scalar.Kind.TEXT;
    }

    boolean isNumber() {
        return node instanceof Scalar s && s.kind() == Scalar.Kind.NUMBER;
    }

    boolean isList() {
        return node instanceof Sequence;
    }

    boolean isGroup() {
        return node instanceof Mapping;
    }

    Optional<List<Value>> list(int most, String example) {
        if (!(node instanceof Sequence s)) {
            return wrong("write a list, for example " + example);
        }
        if (s.items().size() > most) {
            problems.error(
                    at(),
                    path + " has " + s.items().size() + " entries",
                    "keep it to " + most + " at most");
        }
        List<Value> out = new ArrayList<>();
        for (int i = 0; i < Math.min(most, s.items().size()); i++) {
            out.add(new Value(s.items().get(i), path + "[" + (i + 1) + "]", problems));
        }
        return Optional.of(out);
    }

    Optional<double[]> numbers(int count, Quantity q, String example) {
        if (!(node instanceof Sequence s) || s.items().size() != count) {
            return wrong("write " + count + " numbers, for example " + example);
        }
        double[] out = new double[count];
        boolean good = true;
        for (int i = 0; i < count; i++) {
            Optional<Double> n =
                    new Value(s.items().get(i), path + "[" + (i + 1) + "]", problems).number(q);
            out[i] = n.orElse(q.example());
            good &= n.isPresent();
        }
        return good ? Optional.of(out) : Optional.empty();
    }

    Optional<Vec3> point(String example) {
        return numbers(3, Quantity.metres(-50, 50, 1.5), example)
                .map(n -> new Vec3(n[0], n[1], n[2]));
    }

    /** The keys of a group; those that are not known are reported. */
    Optional<Fields> fields(List<String> known, String example) {
        if (!(node instanceof Mapping m)) {
            return wrong("write keys with values, for example " + example);
        }
        return Optional.of(Fields.of(m, path, problems, known));
    }

    <T> Optional<T> wrong(String mend) {
        return wrong(mend, describe());
    }

    private <T> Optional<T> wrong(String mend, String is) {
        if (!(node instanceof Reported)) {
            problems.error(at(), path + " is " + is, mend);
        }
        return Optional.empty();
    }

    String describe() {
        if (node instanceof Scalar s) {
            return switch (s.kind()) {
                case NOTHING -> "empty";
                case TEXT -> "'" + Words.brief(s.text()) + "'";
                case NUMBER, TRUTH -> Words.brief(s.text());
            };
        }
        if (node instanceof Sequence s) {
            return s.items().isEmpty() ? "empty" : "a list of " + s.items().size();
        }
        return node instanceof Mapping m && m.entries().isEmpty() ? "empty" : "a group of keys";
    }

    private String numberMend(Quantity q) {
        if (node instanceof Scalar s && s.kind() == Scalar.Kind.TEXT) {
            Matcher comma = COMMA.matcher(s.text());
            if (comma.matches()) {
                return "write a point, not a comma: " + comma.group(1) + "." + comma.group(2);
            }
            if (NUMBER.matcher(s.text()).matches()) {
                return "write it without quotes: " + s.text();
            }
            Matcher withUnit = WITH_UNIT.matcher(s.text());
            if (withUnit.matches()) {
                return "write the number alone: " + withUnit.group(1) + " (it is " + q.unit() + ")";
            }
        }
        return q.mend();
    }
}

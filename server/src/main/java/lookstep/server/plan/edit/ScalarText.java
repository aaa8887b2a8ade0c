package lookstep.server.plan.edit;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.regex.Pattern;
import org.yaml.snakeyaml.nodes.NodeId;
import org.yaml.snakeyaml.nodes.Tag;
import org.yaml.snakeyaml.reader.StreamReader;
import org.yaml.snakeyaml.resolver.Resolver;

/** How single values are written: in quotes exactly when some YAML would read them otherwise. */
final class ScalarText {
    /** YAML 1.1, 5.3 and 1.2, 5.3, indicators; the signs of numbers are among them. */
    private static final String INDICATORS = "-?:,[]{}#&*!|>'\"%@`+";

    /** The parser in use ends a plain text at a question mark too. */
    private static final String FLOW_INDICATORS = ",[]{}?";

    /**
     * What is no text to the plan reader or to YAML 1.2 (10.3.2), beyond what YAML 1.1 has; and y
     * and n, which the types of YAML 1.1 have though few parsers do.
     */
    private static final Pattern MORE_THAN_TEXT =
            Pattern.compile(
                    "(?i)y|n|<<|=|\\.+|0[ox][0-9a-f]*|\\.?\\d[\\d_]*\\.?[\\d_]*(e[-+]?\\d*)?|\\d[\\d_:]*");

    /** Nothing in it is told twice, so it may be shared. */
    private static final Resolver YAML_1_1 = new Resolver();

    private ScalarText() {}

    /**
     * A value in text.
     *
     * @param flow whether it will stand in [ ] or { }
     * @param plus whether a number above 0 gets its sign, as in stops
     * @param single whether single quotes are preferred
     */
    static String of(JsonNode value, boolean flow, boolean plus, boolean single)
            throws EditRefused {
        if (value.isNumber()) {
            String number = Numbers.text(value);
            return plus && value.decimalValue().signum() > 0 ? "+" + number : number;
        }
        if (value.isBoolean()) {
            return value.asText();
        }
        if (value.isNull()) {
            return "null";
        }
        return of(value.asText(), flow, single);
    }

    /** A text, or a key. */
    static String of(String text, boolean flow, boolean single) throws EditRefused {
        if (isPlain(text, flow)) {
            return text;
        }
        boolean simple = text.codePoints().allMatch(ScalarText::isSimple);
        boolean awkward = text.indexOf('"') >= 0 || text.indexOf('\\') >= 0;
        if (simple && (single || (awkward && text.indexOf('\'') < 0))) {
            return "'" + text.replace("'", "''") + "'";
        }
        return quoted(text);
    }

    private static boolean isPlain(String text, boolean flow) {
        if (text.isEmpty()
                || INDICATORS.indexOf(text.charAt(0)) >= 0
                || text.charAt(0) == ' '
                || text.startsWith("...")
                || text.endsWith(" ")
                || text.endsWith(":")
                || text.contains(": ")
                || text.contains(" #")
                || !text.codePoints().allMatch(ScalarText::isSimple)) {
            return false;
        }
        if (flow && text.chars().anyMatch(c -> FLOW_INDICATORS.indexOf(c) >= 0)) {
            return false;
        }
        return !MORE_THAN_TEXT.matcher(text).matches()
                && YAML_1_1.resolve(NodeId.scalar, text, true).equals(Tag.STR);
    }

    /** Needs no escape. */
    private static boolean isSimple(int point) {
        return point >= ' '
                && StreamReader.isPrintable(point)
                && point != 0x85
                && point != 0xA0
                && point != 0x2028
                && point != 0x2029
                && point != 0xFEFF;
    }

    /** YAML 1.2, 5.7: escape sequences, those that 1.1 has as well. */
    private static String quoted(String text) throws EditRefused {
        StringBuilder out = new StringBuilder("\"");
        for (int point : text.codePoints().toArray()) {
            switch (point) {
                case '"' -> out.append("\\\"");
                case '\\' -> out.append("\\\\");
                case '\n' -> out.append("\\n");
                case '\r' -> out.append("\\r");
                case '\t' -> out.append("\\t");
                default -> {
                    if (point >= Character.MIN_SURROGATE && point <= Character.MAX_SURROGATE) {
                        throw new EditRefused(
                                "the text has half a letter in it", "write the text anew");
                    }
                    if (isSimple(point)) {
                        out.appendCodePoint(point);
                    } else {
                        out.append(String.format(point > 0xFFFF ? "\\U%08X" : "\\u%04X", point));
                    }
                }
            }
        }
        return out.append('"').toString();
    }
}

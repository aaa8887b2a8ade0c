package lookstep.server.plan.edit;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.DecimalNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Comparator;

/** How numbers are written and compared: 1.7 is not 1.70000001, and 1 is 1.0. */
final class Numbers {
    /** More than anything on a set can be measured to; browsers add 0.1 and 0.2 less exactly. */
    private static final int DIGITS = 8;

    /** For {@link JsonNode#equals(Comparator, JsonNode)}: 0 if equal. */
    private static final Comparator<JsonNode> BY_VALUE =
            (a, b) -> {
                if (a.equals(b)) {
                    return 0;
                }
                if (isPlain(a) && isPlain(b)) {
                    return a.decimalValue().compareTo(b.decimalValue());
                }
                return 1;
            };

    private Numbers() {}

    /** Whether two trees say the same, whatever the order of keys. */
    static boolean same(JsonNode a, JsonNode b) {
        return a.equals(BY_VALUE, b);
    }

    private static boolean isPlain(JsonNode json) {
        return json.isNumber() && Double.isFinite(json.doubleValue());
    }

    /** Shortest, with all digits before the point. */
    static String text(JsonNode number) {
        BigDecimal rounded = rounded(number.decimalValue());
        return rounded.signum() == 0 ? "0" : rounded.stripTrailingZeros().toPlainString();
    }

    private static BigDecimal rounded(BigDecimal value) {
        int places = Math.max(0, DIGITS - value.precision() + value.scale());
        return value.scale() <= places ? value : value.setScale(places, RoundingMode.HALF_EVEN);
    }

    /**
     * The same with every number as it will be written.
     *
     * @throws EditRefused if a number is not finite
     */
    static JsonNode asWritten(JsonNode json) throws EditRefused {
        if (json.isObject()) {
            ObjectNode out = JsonNodeFactory.instance.objectNode();
            for (var entry : json.properties()) {
                out.set(entry.getKey(), asWritten(entry.getValue()));
            }
            return out;
        }
        if (json.isArray()) {
            ArrayNode out = JsonNodeFactory.instance.arrayNode();
            for (JsonNode item : json) {
                out.add(asWritten(item));
            }
            return out;
        }
        if (json.isNumber() && !isPlain(json)) {
            throw new EditRefused(json + " is no number to write", "write a finite number");
        }
        return json.isFloatingPointNumber()
                ? DecimalNode.valueOf(new BigDecimal(text(json)))
                : json;
    }
}

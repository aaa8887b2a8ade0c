package lookstep.server.plan.edit;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;

/** How values are said in sentences. */
final class Said {
    private static final int LONGEST = 70;

    private Said() {}

    /** {@code -0.7}, {@code 'black cloth'}, {@code {f: 8, iso: 6400}}, {@code empty}. */
    static String value(JsonNode json) {
        if (json == null || json.isMissingNode() || json.isNull()) {
            return "empty";
        }
        String all = json.isTextual() ? "'" + json.textValue() + "'" : part(json);
        String line = all.replaceAll("\\s+", " ");
        if (line.length() <= LONGEST) {
            return line;
        }
        int cut = line.offsetByCodePoints(0, line.codePointCount(0, LONGEST - 1));
        return line.substring(0, cut) + "…";
    }

    private static String part(JsonNode json) {
        if (json.isObject()) {
            List<String> parts = new ArrayList<>();
            json.properties().forEach(e -> parts.add(e.getKey() + ": " + part(e.getValue())));
            return "{" + String.join(", ", parts) + "}";
        }
        if (json.isArray()) {
            List<String> parts = new ArrayList<>();
            json.forEach(item -> parts.add(part(item)));
            return "[" + String.join(", ", parts) + "]";
        }
        return json.isNumber() && Double.isFinite(json.doubleValue())
                ? Numbers.text(json)
                : json.asText();
    }
}

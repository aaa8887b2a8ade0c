package lookstep.server.checks;

import java.util.LinkedHashMap;
import java.util.Map;

/** Figures of a finding, in order. */
final class Numbers {
    private final Map<String, Object> all = new LinkedHashMap<>();

    /** A figure; one that is not finite becomes a word, for JSON has no such numbers. */
    Numbers put(String name, double value) {
        all.put(
                name,
                Double.isFinite(value)
                        ? (Object) value
                        : Double.isNaN(value) ? "none" : value > 0 ? "infinite" : "minus infinite");
        return this;
    }

    Numbers put(String name, String value) {
        all.put(name, value);
        return this;
    }

    Map<String, Object> all() {
        return all;
    }
}

package lookstep.server.patch;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import lookstep.protocols.fixture.Emitter;

/**
 * What the eye can tell of a light: which colours, and roughly how much of each. Steps are coarse,
 * for nobody tells half from six tenths by eye.
 *
 * @param emitters by how much they give, most first; those that are dark are left out
 * @param cells into how many the light is divided, each with slots of its own; amounts are of all
 *     cells together
 */
record Seen(Map<Amount, List<String>> emitters, int cells) {
    enum Amount {
        FULL(0.9, "full"),
        THREE_QUARTERS(0.625, "at about three quarters"),
        HALF(0.375, "at about half"),
        QUARTER(0.15, "at about a quarter"),
        TENTH(0.05, "at about a tenth"),
        HUNDREDTHS(0.01, "at a few hundredths"),
        LESS(0.0005, "at less than a hundredth"),
        /** More than eleven stops under full: lost beside any other light. */
        TRACE(0, "a trace");

        private final double least;
        private final String words;

        Amount(double least, String words) {
            this.least = least;
            this.words = words;
        }

        static Amount of(double level) {
            for (Amount amount : values()) {
                if (level >= amount.least) {
                    return amount;
                }
            }
            throw new IllegalArgumentException("level " + level);
        }
    }

    /**
     * From the light fractions.
     *
     * @param levels of each emitter, 0 or more; of several cells their mean
     */
    static Seen of(List<Emitter> emitters, double[] levels, int cells) {
        Map<Amount, List<String>> seen = new TreeMap<>();
        for (int i = 0; i < levels.length; i++) {
            if (levels[i] > 0) {
                seen.computeIfAbsent(Amount.of(levels[i]), a -> new ArrayList<>())
                        .add(emitters.get(i).name());
            }
        }
        return new Seen(seen, cells);
    }

    boolean looksLike(Seen other) {
        Map<Amount, List<String>> clear = clear();
        return clear.equals(other.clear()) && (clear.isEmpty() || cells == other.cells);
    }

    private Map<Amount, List<String>> clear() {
        Map<Amount, List<String>> clear = new TreeMap<>(emitters);
        clear.remove(Amount.TRACE);
        return clear;
    }

    /** {@code cool, full}; {@code red, full; white, at about half}; {@code nothing}. */
    String words() {
        Map<Amount, List<String>> clear = clear();
        if (!clear.isEmpty()) {
            return clear.entrySet().stream()
                            .map(e -> names(e.getValue()) + ", " + e.getKey().words)
                            .collect(Collectors.joining("; "))
                    + (cells == 1 ? "" : ", of its " + cells + " cells together");
        }
        return emitters.isEmpty()
                ? "nothing"
                : "nothing, or a trace of " + names(emitters.get(Amount.TRACE));
    }

    private static String names(List<String> emitters) {
        int end = emitters.size() - 1;
        return end == 0
                ? emitters.get(0)
                : String.join(", ", emitters.subList(0, end)) + " and " + emitters.get(end);
    }
}

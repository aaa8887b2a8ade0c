package lookstep.server.suggest;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import java.util.List;
import java.util.Map;

/**
 * Suggestions for programs. Keys stay; new ones may be added. Numbers that cannot be told, as of
 * faces that are not seen, are null.
 *
 * @param shot id
 * @param measure what differences are
 * @param inPlace in the order to step them
 * @param moved those that add most first
 * @param bestPossible no choice of those compared has a greater least difference
 */
@JsonPropertyOrder({
    "shot",
    "measure",
    "leastDifference",
    "meanDifference",
    "bestPossible",
    "proven",
    "counts",
    "inPlace",
    "moved"
})
public record SuggestJson(
        String shot,
        String measure,
        double leastDifference,
        double meanDifference,
        double bestPossible,
        boolean proven,
        Suggestions.Counts counts,
        List<Entry> inPlace,
        List<Entry> moved) {
    /**
     * One look.
     *
     * @param seconds to come to it from the one before, or to move the light
     * @param move what to carry; left out where nothing is
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    @JsonPropertyOrder({
        "name",
        "camera",
        "lights",
        "nearest",
        "difference",
        "ciede2000",
        "why",
        "seconds"
    })
    public record Entry(
            String name,
            String camera,
            List<Suggestion.LightLine> lights,
            String nearest,
            double difference,
            double ciede2000,
            String why,
            double seconds,
            String inPlan,
            Map<String, Double> passes,
            String move,
            String caution) {}

    public static SuggestJson of(Suggestions s) {
        return new SuggestJson(
                s.shot(),
                Suggestions.MEASURE,
                finite(s.quality().least()),
                s.quality().mean(),
                finite(s.quality().bestPossible()),
                s.quality().proven(),
                s.counts(),
                s.inPlace().stream().map(SuggestJson::entry).toList(),
                s.moved().stream().map(SuggestJson::entry).toList());
    }

    private static Entry entry(Suggestion s) {
        Passes p = s.passes();
        Map<String, Double> passes = new java.util.TreeMap<>();
        put(passes, "faceStops", p.faceStops());
        put(passes, "darkestFaceStops", p.darkestFaceStops());
        put(passes, "separationStops", p.separationStops());
        put(passes, "burntShare", p.burntShare());
        return new Entry(
                s.look().name(),
                s.camera(),
                s.lights(),
                s.nearest().look(),
                s.nearest().difference(),
                s.nearest().ciede2000(),
                s.why(),
                s.seconds(),
                s.inPlan().isEmpty() ? null : s.inPlan(),
                passes,
                s.moved().map(Suggestion.Moved::words).orElse(null),
                s.moved().map(Suggestion.Moved::caution).filter(c -> !c.isEmpty()).orElse(null));
    }

    private static void put(Map<String, Double> into, String key, double value) {
        if (Double.isFinite(value)) {
            into.put(key, value);
        }
    }

    /** A single look is infinitely far from nothing. */
    private static double finite(double value) {
        return Double.isFinite(value) ? value : 0;
    }
}

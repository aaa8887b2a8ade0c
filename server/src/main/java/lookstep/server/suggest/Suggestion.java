package lookstep.server.suggest;

import java.util.List;
import java.util.Optional;
import lookstep.server.plan.Look;

/**
 * A look worth trying.
 *
 * @param look complete, with a name that no look of the plan has
 * @param why what is different about it against {@code nearest}, in words
 * @param lights what each light of the rig gives
 * @param camera what to set, in words
 * @param nearest the one that is most like it, of the others and of the plan's
 * @param passes what it measures
 * @param seconds to step to it from the one before it in the order
 * @param moved the light that is carried for it
 * @param inPlan name of the plan's look that it is; empty for a new one
 */
public record Suggestion(
        Look look,
        String why,
        List<LightLine> lights,
        String camera,
        Nearest nearest,
        Passes passes,
        double seconds,
        Optional<Moved> moved,
        String inPlan) {
    public Suggestion {
        lights = List.copyOf(lights);
    }

    /**
     * One light.
     *
     * @param emitters levels, 0..1
     * @param lux at the subject
     * @param words how much and which colour; {@code off}
     */
    public record LightLine(String light, List<Double> emitters, double lux, String words) {}

    /**
     * Another look and how far it is.
     *
     * @param difference see {@link Suggestions#MEASURE}; 0 or more
     * @param ciede2000 mean over the picture
     */
    public record Nearest(String look, double difference, double ciede2000) {}

    /**
     * A light that stands elsewhere.
     *
     * @param words such as {@code move ‘fill’ behind them to the left, 2.1 m high (about 1 min)}
     * @param caution what to look out for; may be empty
     * @param seconds by the plan's own times
     */
    public record Moved(String light, String words, String caution, double seconds) {}
}

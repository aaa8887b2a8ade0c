package lookstep.server.web;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import lookstep.server.plan.Look.Blend;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.tryout.Mix;
import lookstep.server.tryout.MixRange;

/**
 * A mix as the pages have it: {@code {"kelvin": 4300, "iso": 800, "lights": {"key": {"under": 0.7,
 * "kelvin": 3200}, "rim": {"under": 0, "hue": 210, "saturation": 40}}}}, saturation in percent.
 */
final class MixJson {
    private static final String MOST = "most";
    private static final String BROAD = "broad";

    private MixJson() {}

    /**
     * What the page needs to draw its sliders.
     *
     * @param shot whose people and camera it is
     * @param fNumber stays
     * @param seconds stays
     * @param mix where they begin
     * @param ranges of the lights, in the rig's order
     */
    record Start(
            String shot,
            String look,
            double fNumber,
            double seconds,
            Whole mix,
            List<MixRange> ranges) {}

    /** The mix itself. */
    record Whole(double kelvin, double iso, Map<String, Lamp> lights) {
        static Whole of(Mix mix) {
            return new Whole(
                    mix.kelvin(),
                    mix.iso(),
                    mix.lights().entrySet().stream()
                            .collect(
                                    Collectors.toMap(
                                            Map.Entry::getKey,
                                            e -> Lamp.of(e.getValue()),
                                            (a, b) -> a,
                                            LinkedHashMap::new)));
        }
    }

    /** One light; either kelvin and duv or hue and saturation are null. */
    record Lamp(
            double under, Double kelvin, Double duv, Double hue, Double saturation, String blend) {
        static Lamp of(Mix.Lamp lamp) {
            String blend = lamp.blend() == Blend.MOST ? MOST : BROAD;
            if (lamp.colour() instanceof Colour.HueSaturation hs) {
                return new Lamp(
                        lamp.under(), null, null, hs.hueDegrees(), 100 * hs.saturation(), blend);
            }
            Colour.Temperature white = (Colour.Temperature) lamp.colour();
            return new Lamp(lamp.under(), white.kelvin(), white.duv(), null, null, blend);
        }
    }

    static Start start(ShootPlan plan, Shot shot, Mix mix) {
        return new Start(
                shot.id(),
                shot.look(),
                plan.look(shot.look()).camera().fNumber(),
                plan.look(shot.look()).camera().seconds(),
                Whole.of(mix),
                MixRange.of(plan));
    }

    /**
     * Reads one.
     *
     * @throws IllegalArgumentException if it is none; the message says what
     */
    static Mix read(JsonNode json) {
        Map<String, Mix.Lamp> lights = new LinkedHashMap<>();
        json.path("lights")
                .properties()
                .forEach(e -> lights.put(e.getKey(), lamp(e.getKey(), e.getValue())));
        return new Mix(number(json, "kelvin"), number(json, "iso"), lights);
    }

    private static Mix.Lamp lamp(String name, JsonNode json) {
        try {
            return new Mix.Lamp(
                    number(json, "under"),
                    json.path("hue").isNumber()
                            ? new Colour.HueSaturation(
                                    number(json, "hue"), number(json, "saturation") / 100)
                            : new Colour.Temperature(
                                    number(json, "kelvin"), json.path("duv").asDouble(0)),
                    json.path("blend").asText(BROAD).equals(MOST) ? Blend.MOST : Blend.BROAD);
        } catch (IllegalArgumentException e) {
            throw new IllegalArgumentException("‘" + name + "’: " + e.getMessage(), e);
        }
    }

    private static double number(JsonNode json, String name) {
        if (!json.path(name).isNumber()) {
            throw new IllegalArgumentException("there is no " + name);
        }
        return json.path(name).doubleValue();
    }
}

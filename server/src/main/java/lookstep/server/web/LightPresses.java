package lookstep.server.web;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Optional;
import lookstep.server.lighting.Nudging;
import lookstep.server.lighting.Walking;
import lookstep.server.live.Event;
import lookstep.server.live.Live;
import lookstep.server.live.NotPossible;
import lookstep.server.plan.Light;
import lookstep.server.plan.ShootPlan;

/** What the presses about the light mean, word by word; empty for what is no press at all. */
final class LightPresses {
    private static final double LEAST_KELVIN = 1000;
    private static final double MOST_KELVIN = 25_000;

    private final ShootPlan plan;
    private final Nudging nudging;
    private final Walking walking;

    LightPresses(ShootPlan plan, Nudging nudging, Walking walking) {
        this.plan = plan;
        this.nudging = nudging;
        this.walking = walking;
    }

    Optional<Live.Change> change(JsonNode body) {
        Optional<Live.Change> whole =
                switch (body.path("do").asText()) {
                    case "swap" -> Optional.of(nudging::swap);
                    case "keep" -> Optional.of(nudging::keep);
                    case "forget" -> Optional.of(nudging::forget);
                    case "undo" -> Optional.of(nudging::undo);
                    case "steady" -> steady(body.path("kelvin"));
                    case "unsteady" -> Optional.of(now -> nudging.steady(now, 0));
                    default -> Optional.empty();
                };
        return whole.isPresent() ? whole : light(body).flatMap(l -> one(body, l));
    }

    private Optional<Live.Change> steady(JsonNode kelvin) {
        double k = kelvin.asDouble();
        return k >= LEAST_KELVIN && k <= MOST_KELVIN
                ? Optional.of(now -> nudging.steady(now, k))
                : Optional.empty();
    }

    private Optional<Live.Change> one(JsonNode body, Light light) {
        return switch (body.path("do").asText()) {
            case "brighter" -> Optional.of(now -> nudging.brighter(now, light, Nudging.STOPS));
            case "darker" -> Optional.of(now -> nudging.brighter(now, light, -Nudging.STOPS));
            case "warmer" -> Optional.of(now -> nudging.warmer(now, light, Nudging.MIRED));
            case "colder" -> Optional.of(now -> nudging.warmer(now, light, -Nudging.MIRED));
            case "off" -> Optional.of(now -> nudging.power(now, light, false));
            case "on" -> Optional.of(now -> nudging.power(now, light, true));
            default -> Optional.empty();
        };
    }

    Optional<Live.Change> test(JsonNode body) {
        return switch (body.path("do").asText()) {
            case "light" -> light(body).map(l -> now -> walking.light(l));
            case "slot" ->
                    Optional.of(
                            now ->
                                    walking.slot(
                                            body.path("universe").asInt(),
                                            body.path("slot").asInt()));
            case "next" -> Optional.of(now -> walking.on(now, 1));
            case "previous" -> Optional.of(now -> walking.on(now, -1));
            case "end" -> Optional.of(walking::end);
            default -> Optional.empty();
        };
    }

    Optional<Live.Change> flashing(JsonNode body) {
        JsonNode said = body.path("acknowledged");
        return said.isBoolean()
                ? Optional.of(now -> acknowledged(said.booleanValue()))
                : Optional.empty();
    }

    private Event acknowledged(boolean said) throws NotPossible {
        if (!plan.flashingAllowed()) {
            throw new NotPossible(
                    "the plan does not allow flashing; it takes ‘flashing: allowed’ in the plan file");
        }
        return new Event.FlashingAcknowledged(said);
    }

    private Optional<Light> light(JsonNode body) {
        String name = body.path("light").asText();
        return plan.rig().stream().filter(l -> l.name().equals(name)).findFirst();
    }
}

package lookstep.server.web;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.function.LongSupplier;
import lookstep.server.lighting.Lightings;
import lookstep.server.live.Live;
import lookstep.server.live.LiveState;
import lookstep.server.live.NotPossible;
import lookstep.server.order.Variety;
import lookstep.server.plan.Job;
import lookstep.server.plan.ShootPlan;
import lookstep.server.window.Cutting;
import lookstep.server.window.SecondJob;
import lookstep.server.window.SolosRound;
import lookstep.server.window.WindowNow;
import lookstep.server.window.WindowView;

/**
 * What presses about the window mean: re-cut, solos, jobs, places. Empty for what is no press at
 * all.
 */
final class WindowPresses {
    private static final int MOST_TEXT = 200;

    private final Live live;
    private final Lightings lightings;
    private final Function<ShootPlan, Variety> variety;
    private final LongSupplier epochMillis;

    /**
     * @param variety how alike the shots of a plan are
     */
    WindowPresses(
            Live live,
            Lightings lightings,
            Function<ShootPlan, Variety> variety,
            LongSupplier epochMillis) {
        this.live = live;
        this.lightings = lightings;
        this.variety = variety;
        this.epochMillis = epochMillis;
    }

    /** Carries a press out. */
    interface Press {
        void make() throws IOException, NotPossible;
    }

    /**
     * {@code {"at": 3, "seconds": 90}} fits what is left to 90 s from now, {@code "seconds": null}
     * to what the clock says, {@code "back": true} takes the newest re-cut back.
     */
    Optional<Press> cut(JsonNode body) {
        if (!body.path("at").isInt()) {
            return Optional.empty();
        }
        int at = body.path("at").intValue();
        if (body.path("back").asBoolean()) {
            return Optional.of(() -> live.takeCutBack(at));
        }
        JsonNode seconds = body.path("seconds");
        if (seconds.isNull()) {
            return Optional.of(() -> cut(at, OptionalDouble.empty()));
        }
        double asked = seconds.asDouble();
        return seconds.isNumber() && asked >= Cutting.LEAST_SECONDS && asked <= Cutting.MOST_SECONDS
                ? Optional.of(() -> cut(at, OptionalDouble.of(asked)))
                : Optional.empty();
    }

    private void cut(int at, OptionalDouble seconds) throws IOException, NotPossible {
        live.recut(
                at,
                state -> {
                    long now = epochMillis.getAsLong();
                    return Cutting.cut(window(state, now), state, seconds, now);
                });
    }

    private WindowNow window(LiveState state, long nowEpochMillis) {
        ShootPlan plan = plan(state);
        return WindowNow.of(plan, state, variety.apply(plan), nowEpochMillis);
    }

    private ShootPlan plan(LiveState state) {
        return lightings.of(state).plan();
    }

    /** {@code {"at": 3}} for all who lack one, or with {@code "people": ["Ines"]}. */
    Optional<Press> solos(JsonNode body) {
        return body.path("at").isInt()
                ? Optional.of(() -> solos(body.path("at").intValue(), texts(body.path("people"))))
                : Optional.empty();
    }

    private void solos(int at, List<String> people) throws IOException, NotPossible {
        LiveState state = live.state();
        SolosRound round = SolosRound.of(plan(state), state, people);
        int solos = round.ids().size();
        live.next(
                at,
                round.ids(),
                round.added(),
                solos == 1 ? "Solos: 1 comes next" : "Solos: " + solos + " come next");
    }

    /** {@code {"open": {"client", "promised", "note", "shots"}}} or {@code {"switch": client}}. */
    Optional<Press> job(JsonNode body) {
        if (body.path("open").isObject()) {
            return Optional.of(() -> open(body.path("open")));
        }
        return body.path("switch").isTextual()
                ? Optional.of(() -> switchTo(body.path("switch").asText()))
                : Optional.empty();
    }

    /** If the order was within the window and is no longer, it is fitted to the time again. */
    private void open(JsonNode job) throws IOException, NotPossible {
        LiveState before = live.state();
        ShootPlan plan = plan(before);
        SecondJob second =
                SecondJob.of(
                        plan,
                        new Job(
                                text(job.path("client")),
                                texts(job.path("promised")),
                                text(job.path("contact")),
                                text(job.path("note"))),
                        JobsPart.of(plan, before).list().stream()
                                .map(JobsPart.JobPart::client)
                                .toList(),
                        texts(job.path("shots")));
        long now = epochMillis.getAsLong();
        boolean fitted = WindowView.of(window(before, now), before).fallsOff() == 0;
        LiveState opened = live.open(second.job(), second.shots());
        boolean fits = WindowView.of(window(opened, now), opened).fallsOff() == 0;
        if (fitted && !fits) {
            cut(opened.position(), OptionalDouble.empty());
        }
    }

    private void switchTo(String client) throws IOException, NotPossible {
        LiveState state = live.state();
        ShootPlan plan = plan(state);
        if (JobsPart.of(plan, state).list().stream().noneMatch(j -> j.client().equals(client))) {
            throw new NotPossible("there is no client '" + client + "'; reload the page");
        }
        live.switchTo(client.equals(JobsPart.first(plan)) ? "" : client);
    }

    /** {@code {"to": name}}. */
    Optional<Press> place(JsonNode body) {
        return body.path("to").isTextual()
                ? Optional.of(() -> moveTo(body.path("to").asText()))
                : Optional.empty();
    }

    private void moveTo(String place) throws IOException, NotPossible {
        ShootPlan read = lightings.read();
        if (read.locations().stream().noneMatch(l -> l.name().equals(place))) {
            throw new NotPossible("there is no place '" + place + "'; reload the page");
        }
        if (read.at(place).shots().isEmpty()) {
            throw new NotPossible(
                    "no shot can be made there: no look has its key light at '" + place + "'");
        }
        live.moveTo(place);
    }

    private static String text(JsonNode node) {
        String text = node.asText("").strip();
        return text.substring(0, Math.min(MOST_TEXT, text.length()));
    }

    private static List<String> texts(JsonNode list) {
        List<String> all = new ArrayList<>();
        list.forEach(
                one -> {
                    if (!text(one).isEmpty()) {
                        all.add(text(one));
                    }
                });
        return all;
    }
}

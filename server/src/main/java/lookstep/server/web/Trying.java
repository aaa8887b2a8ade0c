package lookstep.server.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.undertow.server.HttpHandler;
import io.undertow.server.HttpServerExchange;
import io.undertow.util.Headers;
import io.undertow.util.StatusCodes;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Executor;
import java.util.function.Supplier;
import lookstep.server.lighting.Lighting;
import lookstep.server.live.NotPossible;
import lookstep.server.pictured.LookPictures;
import lookstep.server.pictured.LookPictures.Size;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.tryout.Mix;
import lookstep.server.tryout.TryOuts;
import lookstep.simulator.model.plates.PlateStack.Doubt;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Looks that are tried before they are in the plan. The newest answer is what counts. */
final class Trying {
    private static final Logger LOG = LoggerFactory.getLogger(Trying.class);
    private static final int USUAL = 6;

    /** Darker than that is black in any picture. */
    private static final double BLACK_STOPS = 10;

    private static final double BURNT_SHARE = 0.001;
    private static final String NO_SHOT = "There is no such shot; reload the page.";

    private final Supplier<Lighting> lighting;
    private final Supplier<Shot> current;
    private final LookPictures looks;
    private final TryOuts tryOuts;
    private final PlanDesk desk;
    private final ObjectMapper json;
    private final Executor mixing;
    private final Executor counting;
    private final Executor suggesting;
    private final Executor keeping;

    /**
     * Nothing is tried yet.
     *
     * @param lighting plan and light as they are
     * @param current the shot that is on, or that comes
     * @param mixing runs one mix after the other
     * @param counting counts in one mix after the other
     * @param suggesting looks for suggestions, which takes its time
     * @param keeping writes the plan, in turn with what else writes it
     */
    Trying(
            Supplier<Lighting> lighting,
            Supplier<Shot> current,
            LookPictures looks,
            TryOuts tryOuts,
            PlanDesk desk,
            ObjectMapper json,
            Executor mixing,
            Executor counting,
            Executor suggesting,
            Executor keeping) {
        this.lighting = lighting;
        this.current = current;
        this.looks = looks;
        this.tryOuts = tryOuts;
        this.desk = desk;
        this.json = json;
        this.mixing = mixing;
        this.counting = counting;
        this.suggesting = suggesting;
        this.keeping = keeping;
    }

    /** Where the sliders begin: the shot that is on, or {@code ?shot=ID}. */
    void start(HttpServerExchange exchange) {
        ShootPlan plan = lighting.get().plan();
        Optional<Shot> shot =
                asked(exchange, "shot").map(plan::shot).orElseGet(() -> Optional.of(current.get()));
        if (shot.isEmpty()) {
            say(exchange, StatusCodes.NOT_FOUND, NO_SHOT);
            return;
        }
        Shot from = shot.get();
        suggesting.execute(() -> lookAhead(plan, from));
        send(exchange, MixJson.start(plan, from, Mix.of(plan, plan.look(from.look()))));
    }

    /** Whoever tries looks is likely to ask for suggestions. */
    private void lookAhead(ShootPlan plan, Shot shot) {
        try {
            tryOuts.lookAhead(plan, shot, USUAL, current.get().look());
        } catch (RuntimeException none) {
            LOG.debug("no suggestions yet: {}", none.getMessage());
        }
    }

    /** A mix becomes a picture. */
    void mix(HttpServerExchange exchange) {
        read(
                exchange,
                mixing,
                body -> {
                    ShootPlan plan = lighting.get().plan();
                    Shot shot = shot(plan, body);
                    Look look = MixJson.read(body).look(plan, plan.look(shot.look()), "mix");
                    Size size = body.path("small").asBoolean() ? Size.SMALL : Size.LARGE;
                    Pictures.pictured(exchange, looks.picture(plan, shot, look, size), false);
                });
    }

    /** What is counted in a mix, in words. */
    void counted(HttpServerExchange exchange) {
        read(
                exchange,
                counting,
                body -> {
                    ShootPlan plan = lighting.get().plan();
                    Shot shot = shot(plan, body);
                    Look look = MixJson.read(body).look(plan, plan.look(shot.look()), "mix");
                    List<String> says = new ArrayList<>(tryOuts.counted(plan, shot, look));
                    looks.doubt(plan, look).ifPresent(d -> says.addAll(words(d)));
                    send(exchange, new CountedPart(says));
                });
    }

    private static List<String> words(Doubt doubt) {
        List<String> words = new ArrayList<>();
        if (doubt.burntShare() > BURNT_SHARE) {
            words.add(
                    String.format(
                            Locale.ROOT,
                            "%.1f %% of the picture was burnt in a plate, and is brighter than it is"
                                    + " shown",
                            100 * doubt.burntShare()));
        }
        if (doubt.noiseStopsUnderWhite() < BLACK_STOPS) {
            words.add(
                    String.format(
                            Locale.ROOT,
                            "what is %.0f stops under white or darker is noise",
                            doubt.noiseStopsUnderWhite()));
        }
        return words;
    }

    /** A line each. */
    record CountedPart(List<String> says) {}

    /** A mix becomes a look of the plan, with a shot that is made in it. */
    void keep(HttpServerExchange exchange) {
        read(
                exchange,
                keeping,
                body -> {
                    ShootPlan plan = lighting.get().plan();
                    Shot shot = shot(plan, body);
                    String name = body.path("name").asText("").strip();
                    if (name.isEmpty()) {
                        throw new NotPossible("give the look a name");
                    }
                    Look look = MixJson.read(body).look(plan, plan.look(shot.look()), name);
                    desk.put(look, shot, "look ‘" + name + "’, mixed from ‘" + shot.look() + "’");
                    send(exchange, new Kept(name));
                });
    }

    /** The look is in the plan. */
    record Kept(String look) {}

    /** Looks that differ most: {@code {"count": 6}}. */
    void suggest(HttpServerExchange exchange) {
        read(
                exchange,
                suggesting,
                body -> {
                    ShootPlan plan = lighting.get().plan();
                    Shot shot = shot(plan, body);
                    send(
                            exchange,
                            SuggestedPart.of(
                                    tryOuts.suggest(
                                            plan,
                                            shot,
                                            body.path("count").asInt(USUAL),
                                            current.get().look()),
                                    looks));
                });
    }

    /** The picture of a suggestion, by the number of the list and its place there. */
    void suggested(HttpServerExchange exchange) {
        exchange.dispatch(
                mixing,
                (HttpHandler)
                        e -> {
                            Optional<TryOuts.Shown> shown =
                                    tryOuts.shown(Pictures.parameter(e, "id"));
                            if (shown.isEmpty()) {
                                say(
                                        e,
                                        StatusCodes.NOT_FOUND,
                                        "There is no such suggestion any more; ask again.");
                                return;
                            }
                            TryOuts.Shown s = shown.get();
                            Size size =
                                    asked(e, "size").filter("small"::equals).isPresent()
                                            ? Size.SMALL
                                            : Size.LARGE;
                            Pictures.pictured(
                                    e, looks.picture(s.plan(), s.shot(), s.look(), size), false);
                        });
    }

    /** A suggestion is put into the plan: {@code {"id": "3-1"}}. */
    void put(HttpServerExchange exchange) {
        read(
                exchange,
                keeping,
                body -> {
                    TryOuts.Shown shown =
                            tryOuts.shown(body.path("id").asText(""))
                                    .orElseThrow(
                                            () ->
                                                    new NotPossible(
                                                            "this suggestion is no longer there:"
                                                                    + " ask again"));
                    desk.put(
                            shown.look(),
                            shown.shot(),
                            "look ‘" + shown.look().name() + "’, as suggested");
                    send(exchange, new Kept(shown.look().name()));
                });
    }

    private Shot shot(ShootPlan plan, JsonNode body) throws NotPossible {
        return body.path("shot").isTextual()
                ? plan.shot(body.path("shot").asText()).orElseThrow(() -> new NotPossible(NO_SHOT))
                : current.get();
    }

    /** Carries out what makes an answer from a body, and says in words what was wrong with it. */
    private interface Made {
        void of(JsonNode body) throws IOException, NotPossible;
    }

    private void read(HttpServerExchange exchange, Executor on, Made made) {
        exchange.getRequestReceiver()
                .receiveFullString(
                        (e, text) ->
                                e.dispatch(on, (HttpHandler) later -> answer(later, text, made)),
                        (e, tooLong) -> {
                            e.setStatusCode(StatusCodes.REQUEST_ENTITY_TOO_LARGE);
                            e.setPersistent(false);
                            e.endExchange();
                        },
                        StandardCharsets.UTF_8);
    }

    private void answer(HttpServerExchange exchange, String text, Made made) {
        try {
            made.of(json.readTree(text));
        } catch (JsonProcessingException notJson) {
            say(exchange, StatusCodes.BAD_REQUEST, "this is no press that is known here");
        } catch (IllegalArgumentException wrong) {
            say(exchange, StatusCodes.BAD_REQUEST, wrong.getMessage());
        } catch (NotPossible no) {
            say(exchange, StatusCodes.UNPROCESSABLE_ENTITY, no.getMessage());
        } catch (IOException notWritten) {
            LOG.error("the plan could not be written: {}", notWritten.getMessage());
            say(exchange, StatusCodes.INSUFFICIENT_STORAGE, notWritten.getMessage());
        }
    }

    private static Optional<String> asked(HttpServerExchange exchange, String name) {
        return Optional.ofNullable(exchange.getQueryParameters().get(name)).map(Deque::peekFirst);
    }

    private void send(HttpServerExchange exchange, Object answer) {
        try {
            String text = json.writeValueAsString(answer);
            exchange.getResponseHeaders().put(Headers.CONTENT_TYPE, "application/json");
            exchange.getResponseSender().send(text);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException(e);
        }
    }

    private void say(HttpServerExchange exchange, int status, String words) {
        exchange.setStatusCode(status);
        send(exchange, json.createObjectNode().put("says", words));
    }
}

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
import java.util.Optional;
import java.util.concurrent.Executor;
import java.util.function.Consumer;
import java.util.function.Supplier;
import lookstep.server.live.Live;
import lookstep.server.live.NotPossible;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What the crew can press. The answer comes when it is in the journal, and is the crew's newest
 * message.
 */
final class Presses {
    private static final Logger LOG = LoggerFactory.getLogger(Presses.class);

    private final Live live;
    private final Supplier<LightPresses> lightPresses;
    private final FramePresses framePresses;
    private final WindowPresses windowPresses;
    private final PlatePresses platePresses;
    private final PlanDesk desk;
    private final Optional<Runnable> shutter;
    private final ObjectMapper json;
    private final Supplier<String> newest;
    private final Executor one;

    /**
     * Nothing is pressed yet.
     *
     * @param lightPresses what presses about the light mean
     * @param framePresses what presses about frames mean
     * @param windowPresses what presses about the window mean
     * @param platePresses what presses about plates mean
     * @param desk the plan file
     * @param shutter releases the camera, where that can be done from here
     * @param newest the crew's message as it is now
     * @param one runs one thing after the other; writing the journal takes its time
     */
    Presses(
            Live live,
            Supplier<LightPresses> lightPresses,
            FramePresses framePresses,
            WindowPresses windowPresses,
            PlatePresses platePresses,
            PlanDesk desk,
            Optional<Runnable> shutter,
            ObjectMapper json,
            Supplier<String> newest,
            Executor one) {
        this.one = one;
        this.live = live;
        this.lightPresses = lightPresses;
        this.framePresses = framePresses;
        this.windowPresses = windowPresses;
        this.platePresses = platePresses;
        this.desk = desk;
        this.shutter = shutter;
        this.json = json;
        this.newest = newest;
    }

    private interface Change {
        void make() throws IOException, NotPossible;
    }

    private interface Move {
        void from(int position) throws IOException, NotPossible;
    }

    void step(HttpServerExchange exchange) {
        read(exchange, body -> at(exchange, body, at -> live.step(at)));
    }

    void back(HttpServerExchange exchange) {
        read(exchange, body -> at(exchange, body, at -> live.back(at)));
    }

    void jump(HttpServerExchange exchange) {
        read(exchange, body -> jump(exchange, body));
    }

    private void jump(HttpServerExchange exchange, JsonNode body) {
        if (body.path("to").isInt()) {
            at(exchange, body, at -> live.jump(at, body.path("to").intValue()));
        } else if (body.path("shot").isTextual()) {
            at(exchange, body, at -> live.jump(at, body.path("shot").asText()));
        } else {
            wrong(exchange, "say where to: {\"at\": position.at, \"to\": 1}");
        }
    }

    void again(HttpServerExchange exchange) {
        read(exchange, body -> at(exchange, body, at -> live.sameAgain(at)));
    }

    void light(HttpServerExchange exchange) {
        read(exchange, body -> change(exchange, body, lightPresses.get().change(body)));
    }

    void test(HttpServerExchange exchange) {
        read(exchange, body -> change(exchange, body, lightPresses.get().test(body)));
    }

    void flashing(HttpServerExchange exchange) {
        read(exchange, body -> change(exchange, body, lightPresses.get().flashing(body)));
    }

    private void change(HttpServerExchange exchange, JsonNode body, Optional<Live.Change> change) {
        if (change.isEmpty()) {
            wrong(exchange, "this is no press that is known here; reload the page");
        } else {
            at(exchange, body, at -> live.light(at, change.get()));
        }
    }

    /** Keep, leave out, say which shot: of one frame, wherever the running order is. */
    void frame(HttpServerExchange exchange) {
        read(exchange, body -> made(exchange, framePresses.frame(body)));
    }

    /** What the band gets to see. */
    void show(HttpServerExchange exchange) {
        read(exchange, body -> made(exchange, framePresses.show(body)));
    }

    private void made(HttpServerExchange exchange, Optional<FramePresses.Press> press) {
        if (press.isEmpty()) {
            wrong(exchange, "this is no press that is known here; reload the page");
        } else {
            make(exchange, press.get()::make);
        }
    }

    /** Fits the running order to the time that is left. */
    void cut(HttpServerExchange exchange) {
        read(exchange, body -> window(exchange, windowPresses.cut(body)));
    }

    /** A round of solos comes next. */
    void solos(HttpServerExchange exchange) {
        read(exchange, body -> window(exchange, windowPresses.solos(body)));
    }

    /** Somebody else wants pictures too, or it is another client's turn. */
    void job(HttpServerExchange exchange) {
        read(exchange, body -> window(exchange, windowPresses.job(body)));
    }

    /** On to another place. */
    void place(HttpServerExchange exchange) {
        read(exchange, body -> window(exchange, windowPresses.place(body)));
    }

    private void window(HttpServerExchange exchange, Optional<WindowPresses.Press> press) {
        if (press.isEmpty()) {
            wrong(exchange, "this is no press that is known here; reload the page");
        } else {
            make(exchange, press.get()::make);
        }
    }

    /** Frames with known light. */
    void plates(HttpServerExchange exchange) {
        read(exchange, body -> plates(exchange, platePresses.plates(body)));
    }

    private void plates(HttpServerExchange exchange, Optional<PlatePresses.Press> press) {
        if (press.isEmpty()) {
            wrong(exchange, "this is no press that is known here; reload the page");
        } else {
            make(exchange, press.get()::make);
        }
    }

    /** The plan file as a document. */
    void plan(HttpServerExchange exchange) {
        exchange.dispatch(one, (HttpHandler) this::document);
    }

    private void document(HttpServerExchange exchange) {
        try {
            String text = json.writeValueAsString(desk.document());
            exchange.getResponseHeaders().put(Headers.CONTENT_TYPE, "application/json");
            exchange.getResponseSender().send(text);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException(e);
        }
    }

    /** Edits of the plan file; the answer is the document after them. */
    void editPlan(HttpServerExchange exchange) {
        read(exchange, body -> make(exchange, () -> desk.edit(body), this::document));
    }

    /** Mends what a finding is about. */
    void mend(HttpServerExchange exchange) {
        read(exchange, body -> make(exchange, () -> desk.mend(body.path("id").asText())));
    }

    void clock(HttpServerExchange exchange) {
        read(exchange, body -> clock(exchange, body));
    }

    private void clock(HttpServerExchange exchange, JsonNode body) {
        switch (body.path("do").asText()) {
            case "start" -> make(exchange, live::startClock);
            case "pause" -> make(exchange, live::pauseClock);
            default -> wrong(exchange, "say {\"do\": \"start\"} or {\"do\": \"pause\"}");
        }
    }

    void shutter(HttpServerExchange exchange) {
        read(exchange, body -> release(exchange));
    }

    private void release(HttpServerExchange exchange) {
        if (shutter.isEmpty()) {
            wrong(exchange, "this camera is released by hand");
            return;
        }
        make(exchange, shutter.get()::run);
    }

    private void at(HttpServerExchange exchange, JsonNode body, Move move) {
        JsonNode at = body.path("at");
        if (at.isInt()) {
            make(exchange, () -> move.from(at.intValue()));
        } else {
            wrong(exchange, "say where the press was made: {\"at\": position.at}");
        }
    }

    /** Reads the press without holding a thread, and carries it out on the one for presses. */
    private void read(HttpServerExchange exchange, Consumer<JsonNode> then) {
        exchange.getRequestReceiver()
                .receiveFullString(
                        (e, text) ->
                                e.dispatch(one, (HttpHandler) later -> then.accept(parsed(text))),
                        (e, tooLong) -> {
                            e.setStatusCode(StatusCodes.REQUEST_ENTITY_TOO_LARGE);
                            e.setPersistent(false);
                            e.endExchange();
                        },
                        StandardCharsets.UTF_8);
    }

    private JsonNode parsed(String text) {
        try {
            return json.readTree(text);
        } catch (JsonProcessingException notJson) {
            return json.missingNode();
        }
    }

    private void make(HttpServerExchange exchange, Change change) {
        make(exchange, change, this::newest);
    }

    private void newest(HttpServerExchange exchange) {
        exchange.getResponseHeaders().put(Headers.CONTENT_TYPE, "application/json");
        exchange.getResponseSender().send(newest.get());
    }

    private void make(
            HttpServerExchange exchange, Change change, Consumer<HttpServerExchange> answer) {
        try {
            change.make();
        } catch (IOException notDurable) {
            LOG.error("a press was not carried out: {}", notDurable.getMessage());
            exchange.setStatusCode(StatusCodes.INSUFFICIENT_STORAGE);
            says(exchange, notDurable.getMessage());
            return;
        } catch (NotPossible no) {
            exchange.setStatusCode(StatusCodes.UNPROCESSABLE_ENTITY);
            says(exchange, no.getMessage());
            return;
        }
        answer.accept(exchange);
    }

    private void wrong(HttpServerExchange exchange, String mend) {
        exchange.setStatusCode(StatusCodes.BAD_REQUEST);
        says(exchange, mend);
    }

    private void says(HttpServerExchange exchange, String words) {
        exchange.getResponseHeaders().put(Headers.CONTENT_TYPE, "application/json");
        exchange.getResponseSender().send(json.createObjectNode().put("says", words).toString());
    }
}

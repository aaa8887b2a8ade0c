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
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What the crew can press. The answer comes when it is in the journal, and is the crew's newest
 * message.
 */
final class Presses {
    private static final Logger LOG = LoggerFactory.getLogger(Presses.class);

    private final Live live;
    private final Optional<Runnable> shutter;
    private final ObjectMapper json;
    private final Supplier<String> newest;
    private final Executor one;

    /**
     * Nothing is pressed yet.
     *
     * @param shutter releases the camera, where that can be done from here
     * @param newest the crew's message as it is now
     * @param one runs one thing after the other; writing the journal takes its time
     */
    Presses(
            Live live,
            Optional<Runnable> shutter,
            ObjectMapper json,
            Supplier<String> newest,
            Executor one) {
        this.one = one;
        this.live = live;
        this.shutter = shutter;
        this.json = json;
        this.newest = newest;
    }

    private interface Change {
        void make() throws IOException;
    }

    private interface Move {
        void from(int position) throws IOException;
    }

    void step(HttpServerExchange exchange) {
        read(exchange, body -> at(exchange, body, at -> live.step(at)));
    }

    void back(HttpServerExchange exchange) {
        read(exchange, body -> at(exchange, body, at -> live.back(at)));
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
        try {
            change.make();
        } catch (IOException notDurable) {
            LOG.error("a press was not carried out: {}", notDurable.getMessage());
            exchange.setStatusCode(StatusCodes.INSUFFICIENT_STORAGE);
            says(exchange, notDurable.getMessage());
            return;
        }
        exchange.getResponseHeaders().put(Headers.CONTENT_TYPE, "application/json");
        exchange.getResponseSender().send(newest.get());
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

package lookstep.server.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.undertow.server.HttpServerExchange;
import io.undertow.util.Headers;
import io.undertow.util.StatusCodes;
import java.io.IOException;
import java.util.Optional;
import java.util.OptionalInt;
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

    Presses(Live live, Optional<Runnable> shutter, ObjectMapper json, Supplier<String> newest) {
        this.live = live;
        this.shutter = shutter;
        this.json = json;
        this.newest = newest;
    }

    private interface Change {
        void make() throws IOException;
    }

    void step(HttpServerExchange exchange) throws IOException {
        OptionalInt at = at(exchange);
        if (at.isPresent()) {
            make(exchange, () -> live.step(at.getAsInt()));
        }
    }

    void back(HttpServerExchange exchange) throws IOException {
        OptionalInt at = at(exchange);
        if (at.isPresent()) {
            make(exchange, () -> live.back(at.getAsInt()));
        }
    }

    void clock(HttpServerExchange exchange) throws IOException {
        String what = body(exchange).path("do").asText();
        switch (what) {
            case "start" -> make(exchange, live::startClock);
            case "pause" -> make(exchange, live::pauseClock);
            default -> wrong(exchange, "say {\"do\": \"start\"} or {\"do\": \"pause\"}");
        }
    }

    void shutter(HttpServerExchange exchange) {
        if (shutter.isEmpty()) {
            wrong(exchange, "this camera is released by hand");
            return;
        }
        make(exchange, shutter.get()::run);
    }

    private OptionalInt at(HttpServerExchange exchange) throws IOException {
        JsonNode at = body(exchange).path("at");
        if (at.isInt()) {
            return OptionalInt.of(at.intValue());
        }
        wrong(exchange, "say where the press was made: {\"at\": position.at}");
        return OptionalInt.empty();
    }

    private JsonNode body(HttpServerExchange exchange) throws IOException {
        try {
            return json.readTree(exchange.getInputStream());
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

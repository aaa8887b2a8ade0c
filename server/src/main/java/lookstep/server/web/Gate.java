package lookstep.server.web;

import io.undertow.server.HttpHandler;
import io.undertow.server.HttpServerExchange;
import io.undertow.util.HeaderMap;
import io.undertow.util.Headers;
import io.undertow.util.HttpString;
import io.undertow.util.Methods;
import io.undertow.util.PathTemplateMatch;
import io.undertow.util.StatusCodes;
import java.net.URI;
import java.util.Deque;
import java.util.Map;
import java.util.Optional;
import lookstep.server.web.Keys.Who;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Lets in who holds the key, and tells the others where it is to be had. */
final class Gate {
    private static final Logger LOG = LoggerFactory.getLogger(Gate.class);
    private static final String NO_KEY =
            "This page needs its key. Open the link that Lookstep prints in the terminal where it was"
                    + " started, or scan the code there.\n";

    /**
     * A page of another site cannot set this on a press without asking first (Fetch standard,
     * CORS).
     */
    private static final HttpString OWN_PAGE = new HttpString("X-Lookstep");

    private final Keys keys;

    Gate(Keys keys) {
        this.keys = keys;
    }

    /**
     * {@code /open/KEY}, and for the crew {@code ?page=set}: keeps the key and goes on to the page.
     */
    void open(HttpServerExchange exchange) {
        String key =
                exchange.getAttachment(PathTemplateMatch.ATTACHMENT_KEY).getParameters().get("key");
        Optional<Who> who = keys.who(key);
        if (who.isEmpty()) {
            refuse(exchange);
            return;
        }
        // The band's link opened in a crew's browser shows what the band sees, and takes nothing
        // away.
        if (who.get() == Who.CREW || keys.who(exchange).isEmpty()) {
            keys.remember(exchange, key);
        }
        redirect(
                exchange,
                who.get() == Who.BAND ? "/band" : crewPage(exchange.getQueryParameters()));
    }

    private static String crewPage(Map<String, Deque<String>> query) {
        Deque<String> page = query.get("page");
        String wanted = page == null ? "" : page.peekFirst();
        return "set".equals(wanted) ? "/set" : "band".equals(wanted) ? "/band" : "/next";
    }

    void home(HttpServerExchange exchange) {
        Optional<Who> who = keys.who(exchange);
        if (who.isEmpty()) {
            refuse(exchange);
        } else {
            redirect(exchange, who.get() == Who.CREW ? "/set" : "/band");
        }
    }

    /** The crew may do all that the band may. */
    HttpHandler only(Who least, HttpHandler then) {
        return exchange -> {
            Optional<Who> who = keys.who(exchange);
            if (who.isPresent() && who.get().compareTo(least) >= 0) {
                then.handleRequest(exchange);
            } else {
                refuse(exchange);
            }
        };
    }

    /** The crew gets one answer, the band another, and nobody else any. */
    HttpHandler each(HttpHandler crew, HttpHandler band) {
        return only(
                Who.BAND,
                exchange ->
                        (keys.who(exchange).filter(Who.CREW::equals).isPresent() ? crew : band)
                                .handleRequest(exchange));
    }

    /** Turns away what another site's page sends with our cookie. */
    HttpHandler ownPage(HttpHandler then) {
        return exchange -> {
            String origin = exchange.getRequestHeaders().getFirst(Headers.ORIGIN);
            String host = exchange.getRequestHeaders().getFirst(Headers.HOST);
            boolean post = exchange.getRequestMethod().equals(Methods.POST);
            boolean marked = exchange.getRequestHeaders().contains(OWN_PAGE);
            if ((origin != null && !authority(origin).equals(host)) || (post && !marked)) {
                exchange.setStatusCode(StatusCodes.FORBIDDEN);
                say(exchange, "Only Lookstep's own pages may do this.\n");
            } else {
                then.handleRequest(exchange);
            }
        };
    }

    private static String authority(String origin) {
        try {
            String authority = URI.create(origin).getAuthority();
            return authority == null ? "" : authority;
        } catch (IllegalArgumentException notAnAddress) {
            return "";
        }
    }

    /**
     * For every answer: nothing from elsewhere runs in our pages, no address with a key leaves
     * them.
     */
    HttpHandler guarded(HttpHandler then) {
        return exchange -> {
            HeaderMap headers = exchange.getResponseHeaders();
            headers.put(
                    new HttpString("Content-Security-Policy"),
                    "default-src 'self'; img-src 'self' blob: data:; connect-src 'self' ws: wss:;"
                            + " frame-ancestors 'none'; base-uri 'none'");
            headers.put(new HttpString("X-Content-Type-Options"), "nosniff");
            headers.put(new HttpString("Referrer-Policy"), "no-referrer");
            headers.put(Headers.CACHE_CONTROL, "no-store");
            try {
                then.handleRequest(exchange);
            } catch (RuntimeException e) {
                // One line and no trace: whoever sends nonsense shall not fill the terminal.
                LOG.warn("a request could not be answered: {}", e.toString());
                exchange.setStatusCode(StatusCodes.BAD_REQUEST);
                exchange.endExchange();
            }
        };
    }

    private static void refuse(HttpServerExchange exchange) {
        exchange.setStatusCode(StatusCodes.FORBIDDEN);
        say(exchange, NO_KEY);
    }

    private static void redirect(HttpServerExchange exchange, String to) {
        exchange.setStatusCode(StatusCodes.SEE_OTHER);
        exchange.getResponseHeaders().put(Headers.LOCATION, to);
    }

    static void say(HttpServerExchange exchange, String words) {
        exchange.getResponseHeaders().put(Headers.CONTENT_TYPE, "text/plain; charset=utf-8");
        exchange.getResponseSender().send(words);
    }
}

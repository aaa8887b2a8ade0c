package lookstep.server.pages;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Route;
import com.microsoft.playwright.WebSocketRoute;
import com.microsoft.playwright.options.BoundingBox;
import com.microsoft.playwright.options.WaitForSelectorState;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.regex.Pattern;
import lookstep.server.pages.RecordingServer.Answer;
import lookstep.server.pages.RecordingServer.Call;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;

/** A page in Chromium, opened against a sample or against messages that the test sends. */
abstract class PageCase {
    static final ObjectMapper JSON = new ObjectMapper();

    RecordingServer server;
    Page page;
    final List<String> requests = new ArrayList<>();
    private BrowserContext context;
    private final List<String> complaints = new ArrayList<>();

    @BeforeEach
    void openPage() throws IOException {
        server = new RecordingServer();
        context =
                OneBrowser.chromium()
                        .newContext(new Browser.NewContextOptions().setViewportSize(390, 844));
        page = context.newPage();
        page.onPageError(complaints::add);
        page.onRequest(request -> requests.add(request.url()));
        // The server alone cannot prove that nothing more is on its way to it.
        page.addInitScript(
                """
                window.posts = 0;
                const plain = window.fetch;
                window.fetch = (where, what) => {
                  if (what?.method === 'POST') window.posts += 1;
                  return plain(where, what);
                };
                """);
    }

    @AfterEach
    void closePage() {
        context.close();
        server.close();
        assertEquals(List.of(), complaints, "errors on the page");
    }

    /** True if nobody has to scroll sideways. */
    static final String SPILLS_NOT = "() => document.documentElement.scrollWidth <= innerWidth";

    void open(String name, String sample) {
        open(name, sample, "");
    }

    /**
     * @param panel of the set page that is shown: light, frames, plot, test, links
     */
    void open(String name, String sample, String panel) {
        String behind = panel.isEmpty() ? "" : "#" + panel;
        page.navigate(server.url("/" + name + "?sample=" + sample + behind));
        String proof = name.equals("band") ? "#title:not(:empty)" : "step-key .name:not(:empty)";
        page.locator(proof)
                .waitFor(new Locator.WaitForOptions().setState(WaitForSelectorState.ATTACHED));
    }

    /** From here on the page's clock stands still until {@link #pass}. */
    void stopTime() {
        page.clock().install();
        page.clock().pauseAt(System.currentTimeMillis() + 60_000);
    }

    void pass(long millis) {
        page.clock().runFor(millis);
    }

    Locator key() {
        return page.locator("step-key button");
    }

    Locator said() {
        return page.locator("step-key .answer");
    }

    void fingerDown() {
        BoundingBox box = key().boundingBox();
        page.mouse().move(box.x + box.width / 2, box.y + box.height / 2);
        page.mouse().down();
    }

    void tap() {
        fingerDown();
        page.mouse().up();
    }

    void waitForCalls(int count) {
        page.waitForCondition(() -> server.calls.size() >= count);
        assertEquals(count, server.calls.size());
    }

    int posts() {
        return (Integer) page.evaluate("() => window.posts");
    }

    List<String> bodies() {
        return server.calls.stream().map(Call::body).toList();
    }

    /** The server answers a step from crew-long as the real one does. */
    void stepsOn() {
        server.answer(
                call -> {
                    try {
                        int seen = JSON.readTree(call.body()).get("at").asInt();
                        return new Answer(200, at(seen + 1).toString());
                    } catch (IOException e) {
                        throw new UncheckedIOException(e);
                    }
                });
    }

    /** The message of crew-long at another position. */
    static ObjectNode at(int position) {
        ObjectNode message = sample("crew-long");
        JsonNode shots = message.get("shots");
        message.put("revision", 100 + position);
        message.withObject("/position").put("at", position);
        message.set("current", shots.get(position - 1).get("id"));
        message.set("coming", shots.get(position).get("id"));
        return message;
    }

    /** A sample that a test may change before it is shown. */
    static ObjectNode sample(String name) {
        try {
            return (ObjectNode) JSON.readTree(RecordingServer.sample(name));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Opens the page on a line of the test's own. */
    WebSocketRoute live(String name, JsonNode first) {
        List<WebSocketRoute> lines = push("crew");
        page.navigate(server.url("/" + name));
        page.waitForCondition(() -> lines.size() == 1);
        lines.get(0).send(first.toString());
        page.locator("step-key .name:not(:empty)").waitFor();
        return lines.get(0);
    }

    List<WebSocketRoute> push(String channel) {
        List<WebSocketRoute> lines = new CopyOnWriteArrayList<>();
        page.routeWebSocket(Pattern.compile(".*/push/" + channel), lines::add);
        return lines;
    }

    void fulfil(String sample, JsonNode message) {
        page.route(
                "**/samples/" + sample + ".json",
                route ->
                        route.fulfill(
                                new Route.FulfillOptions()
                                        .setContentType("application/json")
                                        .setBody(message.toString())));
    }
}

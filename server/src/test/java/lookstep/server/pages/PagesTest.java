package lookstep.server.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Route;
import com.microsoft.playwright.WebSocketRoute;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.BoundingBox;
import com.microsoft.playwright.options.LoadState;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import java.util.regex.Pattern;
import lookstep.server.pages.RecordingServer.Answer;
import lookstep.server.pages.RecordingServer.Call;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The pages in Chromium: what a press does, what is seen, what can never happen. */
@Tag("wide")
class PagesTest extends PageCase {
    private static final String NOW_COLOUR = "rgb(185, 198, 77)";

    // ---- the big key -----------------------------------------------------------------------

    @Test
    void aPressIsSentWhenTheFingerGoesDownAndNamesThePositionThatWasSeen() {
        open("next", "crew");
        CountDownLatch held = server.hold();
        fingerDown();
        waitForCalls(1);
        assertEquals(new Call("/step", "{\"at\":2}", "1"), server.calls.get(0));
        held.countDown();
        page.mouse().up();
        assertEquals(1, posts());
    }

    @Test
    void theKeyIsFeltBeforeTheAnswer() {
        open("next", "crew");
        stopTime();
        CountDownLatch held = server.hold();
        fingerDown();
        Locator tape = page.locator("step-key .tape");
        assertThat(tape).hasCSS("background-color", NOW_COLOUR);
        page.mouse().up();
        held.countDown();
    }

    @Test
    void autoRepeatIsNoPress() {
        open("next", "crew-long");
        stopTime();
        for (int i = 0; i < 5; i++) {
            page.keyboard().down("Space");
            pass(300);
        }
        page.keyboard().up("Space");
        waitForCalls(1);
        assertEquals(1, posts());
    }

    @Test
    void aHurriedDoubleTapIsOneStep() {
        stepsOn();
        open("next", "crew-long");
        stopTime();
        tap();
        waitForCalls(1);
        assertThat(key()).containsText("Solo: Petra");
        pass(120);
        tap();
        assertEquals(1, posts());
    }

    @Test
    void aSecondPressAQuarterOfASecondLaterIsASecondStep() {
        stepsOn();
        open("next", "crew-long");
        stopTime();
        tap();
        assertThat(key()).containsText("Solo: Petra");
        pass(250);
        tap();
        assertThat(key()).containsText("Cover, room above the heads");
        assertEquals(List.of("{\"at\":7}", "{\"at\":8}"), bodies());
    }

    @Test
    void aSecondPressThatComesBeforeTheAnswerIsKeptForIt() {
        stepsOn();
        open("next", "crew-long");
        stopTime();
        CountDownLatch held = server.hold();
        tap();
        waitForCalls(1);
        pass(250);
        tap();
        assertEquals(1, posts());
        held.countDown();
        assertThat(key()).containsText("Cover, room above the heads");
        assertEquals(List.of("{\"at\":7}", "{\"at\":8}"), bodies());
    }

    @Test
    void aPressOfImpatienceIsNotKept() {
        stepsOn();
        open("next", "crew-long");
        stopTime();
        CountDownLatch held = server.hold();
        tap();
        waitForCalls(1);
        pass(900);
        assertThat(said()).containsText("Still sending");
        tap();
        held.countDown();
        assertThat(key()).containsText("Solo: Petra");
        assertThat(said()).isEmpty();
        assertEquals(1, posts());
    }

    @ParameterizedTest
    @CsvSource({
        "Space, /step",
        "Enter, /step",
        "PageDown, /step",
        "ArrowRight, /step",
        "PageUp, /back",
        "ArrowLeft, /back",
        "Backspace, /back"
    })
    void keysOfAKeyboardAndAClicker(String keyName, String path) {
        open("next", "crew");
        page.keyboard().press(keyName);
        waitForCalls(1);
        assertEquals(new Call(path, "{\"at\":2}", "1"), server.calls.get(0));
        assertEquals(1, posts());
    }

    @Test
    void theStepKeyWithTheFocusIsPressedOnceByTheSpaceBar() {
        open("next", "crew");
        page.locator("step-key button").focus();
        page.keyboard().press("Space");
        waitForCalls(1);
        assertEquals(1, posts());
    }

    @Test
    void aSwitchOrAScreenReaderClicksWithoutAPointer() {
        open("next", "crew");
        page.locator("step-key button").evaluate("button => button.click()");
        waitForCalls(1);
        assertEquals(1, posts());
    }

    @ParameterizedTest
    @CsvSource({
        "500, '', Not done: the computer answered 500",
        "403, '', open the link printed in the terminal",
        "401, '', open the link printed in the terminal",
    })
    void aPressThatIsTurnedDownIsSaid(int status, String body, String words) {
        server.answer(call -> new Answer(status, body));
        open("next", "crew");
        tap();
        assertThat(said()).containsText(words);
    }

    @Test
    void aPressThatFindsNobodyIsSaidAndTheNextOneIsSent() {
        stepsOn();
        open("next", "crew-long");
        stopTime();
        page.route("**/step", Route::abort);
        tap();
        assertThat(said()).containsText("Not delivered: no connection to the computer");
        page.unroute("**/step");
        pass(300);
        tap();
        assertThat(key()).containsText("Solo: Petra");
        assertThat(said()).isEmpty();
    }

    @Test
    void whenSomebodyElseWasFirstTheAnswerShowsWhereTheShootIs() throws IOException {
        String elsewhere = RecordingServer.sample("crew-done");
        server.answer(call -> new Answer(409, elsewhere));
        open("next", "crew");
        tap();
        assertThat(key()).containsText("That was the last one");
        assertThat(said()).isEmpty();
    }

    @Test
    void aPressRightAfterSomebodyElsesStepDoesNotStepTwice() {
        List<WebSocketRoute> lines = push("crew");
        page.navigate(server.url("/next"));
        page.waitForCondition(() -> lines.size() == 1);
        lines.get(0).send(at(7).toString());
        assertThat(key()).containsText("Solo: Marlo");
        stopTime();
        lines.get(0).send(at(8).toString());
        assertThat(key()).containsText("Solo: Petra");
        tap();
        assertThat(said()).containsText("Somebody else has just stepped");
        assertEquals(0, posts());
        pass(400);
        tap();
        waitForCalls(1);
        assertEquals("{\"at\":8}", server.calls.get(0).body());
    }

    @ParameterizedTest
    @CsvSource({"390, 844", "360, 640", "1180, 820", "1440, 900", "844, 390"})
    void theKeyTakesTheLowerHalfAndNothingSpills(int width, int height) {
        page.setViewportSize(width, height);
        for (String sample : List.of("crew", "crew-ready", "crew-line-down", "crew-long")) {
            open("next", sample);
            BoundingBox box = page.locator("step-key button").boundingBox();
            assertTrue(box.height >= height * 0.5 - 1, sample + ": " + box.height);
            assertTrue(box.y <= height * 0.5 + 1, sample + ": " + box.y);
            assertEquals(height, box.y + box.height, 1, sample);
            assertEquals(width, box.width, 1, sample);
            assertThat(page.locator("shoot-clock .figures")).isVisible();
            assertEquals(true, page.evaluate(SPILLS_NOT), sample);
        }
    }

    // ---- what next shows -------------------------------------------------------------------

    @Test
    void nextBeforeTheFirstShot() {
        open("next", "crew-ready");
        assertThat(key()).containsText("Press when the band walks in");
        assertThat(key()).containsText("Start with: All five, safe");
        assertThat(page.locator("shoot-clock")).containsText("8:00");
        assertThat(page.locator("trouble-strip")).containsText("The light line is down");
        page.keyboard().press("PageUp");
        assertThat(said()).containsText("nothing before");
        assertEquals(0, posts());
    }

    @Test
    void nextDuringAShot() {
        open("next", "crew");
        assertThat(key()).containsText("Rim only");
        assertThat(page.locator("now-shot .name")).hasText("Warm front, cold back");
        assertThat(page.locator("now-shot .say li"))
                .hasText(new String[] {"Half a step back, Ines", "Look past me, left"});
        assertThat(page.locator("now-shot .who")).hasText("W: Ines, Marlo, Petra, Quill, Tovah");
        assertThat(page.locator("trouble-strip")).isEmpty();
        assertThat(page.getByText("rehearsal")).isVisible();
    }

    @Test
    void nextWhenTheLightLineIsDown() {
        open("next", "crew-line-down");
        assertThat(page.getByRole(AriaRole.ALERT))
                .containsText("The light line is down: the adapter at /dev/ttyUSB0 is gone");
        assertThat(page.getByText("rehearsal")).isHidden();
    }

    @Test
    void nextAfterTheLastShotSendsNothing() {
        open("next", "crew-done");
        assertThat(key()).containsText("That was the last one");
        tap();
        assertThat(said()).containsText("No shot comes after");
        assertEquals(0, posts());
        assertThat(page.locator("shoot-clock")).containsText("0:41");
        assertThat(page.locator("shoot-clock")).containsText("paused");
    }

    @Test
    void theClockRunsDownAndOver() {
        stopTime();
        open("next", "crew");
        Locator figures = page.locator("shoot-clock .figures");
        assertThat(figures).hasText("5:24");
        pass(4000);
        assertThat(figures).hasText("5:20");
        // 323.5 s were left, 4 s are gone; 60.5 s past the end
        pass(319_500 + 60_500);
        assertThat(figures).hasText("1:00");
        assertThat(page.locator("shoot-clock .word")).hasText("over by");
        open("next", "crew-over-time");
        assertThat(figures).hasText("1:12");
        assertThat(page.locator("shoot-clock .word")).hasText("over by");
    }

    @Test
    void anOldMessageDoesNotReplaceANewerOneAndALostLineIsSaid() {
        List<WebSocketRoute> lines = push("crew");
        page.navigate(server.url("/next"));
        page.waitForCondition(() -> lines.size() == 1);
        lines.get(0).send(at(8).toString());
        assertThat(key()).containsText("Solo: Petra");
        page.evaluate(NOTE_THE_NAMES);
        lines.get(0).send(at(7).toString());
        lines.get(0).send(at(9).toString());
        assertThat(key()).containsText("Cover, room above the heads");
        assertEquals(List.of("Cover, room above the heads"), page.evaluate("() => window.names"));
        lines.get(0).close();
        page.waitForCondition(() -> lines.size() == 2);
        // A server that was started afresh may count from a lower number.
        lines.get(1).send(at(7).toString());
        assertThat(key()).containsText("Solo: Marlo");
        assertThat(page.locator("trouble-strip")).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"404, No connection to the computer", "403, Open the link printed in the terminal"})
    void withoutALineThePageSaysWhy(int status, String words) {
        server.pushStatus(status);
        page.navigate(server.url("/next"));
        assertThat(page.locator("trouble-strip")).containsText(words);
    }

    @Test
    void aLineThatFellSilentIsOpenedAnewIfTheServerWasHeardToBeAlive() throws IOException {
        List<WebSocketRoute> lines = push("crew");
        page.navigate(server.url("/next"));
        page.waitForCondition(() -> lines.size() == 1);
        lines.get(0).send(at(8).toString());
        assertThat(key()).containsText("Solo: Petra");
        stopTime();
        pass(60_000);
        assertEquals(1, lines.size());
        lines.get(0).send(RecordingServer.sample("alive"));
        lines.get(0).send(at(9).toString());
        assertThat(key()).containsText("Cover, room above the heads");
        pass(6_900);
        assertEquals(1, lines.size());
        pass(500);
        page.waitForCondition(() -> lines.size() == 2);
    }

    // ---- band ------------------------------------------------------------------------------

    @Test
    void theBandsPageCanChangeNothing() {
        open("band", "band");
        assertThat(page.locator("live-picture img")).hasAttribute("alt", "Picture 3");
        assertThat(page.getByText("rehearsal")).isVisible();
        String controls =
                "button, input, a, select, textarea, summary, form, iframe, [onclick], [tabindex],"
                        + " [contenteditable], [role=button]";
        assertThat(page.locator(controls)).hasCount(0);
        for (String name : List.of("Space", "Enter", "PageDown", "PageUp", "ArrowRight")) {
            page.keyboard().press(name);
        }
        page.mouse().click(200, 400);
        page.mouse().dblclick(200, 700);
        assertEquals(0, posts());
        assertEquals(List.of(), server.calls);
    }

    @Test
    void theBandWaitsQuietly() {
        open("band", "band-waiting");
        assertThat(page.getByText("The Tin Meridians at the Brine Loft")).isVisible();
        assertThat(page.getByText("The first picture comes here")).isVisible();
        assertThat(page.getByText("rehearsal")).isHidden();
    }

    @Test
    void theBandsPictureStaysUntilTheNextCanBeDrawnAndWhenTheLineIsLost() {
        List<WebSocketRoute> lines = push("band");
        CountDownLatch held = server.hold();
        page.navigate(server.url("/band"));
        page.waitForCondition(() -> lines.size() == 1);
        Locator image = page.locator("live-picture img");
        lines.get(0).send(frame(1, "/frames/1.jpg"));
        assertThat(image).hasAttribute("alt", "Picture 1");
        lines.get(0).send(frame(2, "/frames/held-2.jpg"));
        page.waitForCondition(() -> requests.stream().anyMatch(url -> url.contains("held-2")));
        assertThat(image).hasCount(1);
        assertThat(image).hasAttribute("alt", "Picture 1");
        held.countDown();
        assertThat(image).hasAttribute("alt", "Picture 2");
        assertThat(page.locator("#link")).isHidden();

        page.clock().install();
        stopTime();
        lines.get(0).close();
        assertThat(page.locator("#link")).containsText("no connection");
        assertThat(image).hasAttribute("alt", "Picture 2");
        page.clock().resume();
        page.waitForCondition(() -> lines.size() == 2);
        assertThat(page.locator("#link")).isHidden();
    }

    // ---- set -------------------------------------------------------------------------------

    @Test
    void setShowsTheShoot() {
        page.setViewportSize(1440, 900);
        open("set", "crew", "plot");
        assertThat(page.locator("figcaption"))
                .hasText("Warm front, cold back, photograph 3 f/8, 1/125 s, ISO 3200, 3000 K");
        assertThat(page.locator("#swap")).containsText("computed, not photographed");
        page.locator("#swap").click();
        assertThat(page.locator("figcaption")).containsText("computed, not photographed");
        assertThat(page.locator("#swap")).containsText("Photograph 3");
        assertThat(page.locator("set-list li")).hasCount(3);
        assertThat(page.locator("set-list [aria-current=step] .name"))
                .hasText("Warm front, cold back");
        assertThat(page.locator("set-list s")).hasText("All five, safe");
        assertThat(page.locator("rig-plot .person")).hasCount(5);
        assertThat(page.locator("rig-plot .lamp")).hasCount(4);
        assertThat(page.locator("rig-plot .beam")).hasCount(3);
        assertThat(page.locator("rig-plot text.light").nth(2)).containsText("a stop over, 5600 K");
        assertThat(page.locator("link-states"))
                .containsText("simulated line, a packet every 30 ms");
        assertThat(page.locator("link-states .notes")).containsText("The plan was edited");
        assertThat(page.locator("work-cautions details")).not().hasAttribute("open", "");
    }

    @Test
    void theLensSeesTheAngleOfItsFocalLength() {
        page.setViewportSize(1440, 900);
        open("set", "crew", "plot");
        // Angle of view 2 atan(d / 2f), d = 36 mm, f = 35 mm: 54.43 degrees (textbook optics).
        assertEquals(54.43, drawnAngleDegrees(), 0.05);
        open("set", "crew-long", "plot");
        // Upright framing: d = 24 mm, f = 85 mm: 16.07 degrees.
        assertEquals(16.07, drawnAngleDegrees(), 0.05);
    }

    @Test
    void wordsOnThePlotDoNotLieOnEachOther() {
        for (int[] size : new int[][] {{1440, 900}, {1180, 820}, {390, 844}}) {
            page.setViewportSize(size[0], size[1]);
            for (String sample : List.of("crew", "crew-done", "crew-long")) {
                open("set", sample, "plot");
                assertThat(page.locator("rig-plot text.light")).hasCount(4);
                assertEquals(List.of(), page.evaluate(NAMES_THAT_OVERLAP), sample);
            }
        }
    }

    @Test
    void setBeforeTheWindow() {
        page.setViewportSize(1440, 900);
        open("set", "crew-ready");
        assertThat(page.locator("work-cautions dl")).isVisible();
        for (String word : List.of("Mains", "Rigging", "Heat", "flashing", "DMX", "Local codes")) {
            assertThat(page.locator("work-cautions")).containsText(word);
        }
        assertThat(page.locator("#shutter")).isHidden();
        assertThat(page.locator("figcaption")).containsText("computed, not photographed");
        page.getByText("Start the clock").click();
        waitForCalls(1);
        assertEquals(new Call("/clock", "{\"do\":\"start\"}", "1"), server.calls.get(0));
    }

    @Test
    void setStepsPausesAndTakesAPictureAndTheSpaceBarStaysTheStep() {
        page.setViewportSize(1440, 900);
        open("set", "crew");
        page.getByText("Pause").click();
        waitForCalls(1);
        page.getByText("Take a picture").click();
        waitForCalls(2);
        page.keyboard().press("Space");
        waitForCalls(3);
        page.getByText("One back").click();
        waitForCalls(4);
        assertEquals(
                List.of(
                        new Call("/clock", "{\"do\":\"pause\"}", "1"),
                        new Call("/shutter", "{}", "1"),
                        new Call("/step", "{\"at\":2}", "1"),
                        new Call("/back", "{\"at\":2}", "1")),
                server.calls);
    }

    @Test
    void aFocusedButtonKeepsItsSpaceBar() {
        page.setViewportSize(1440, 900);
        open("set", "crew");
        page.locator("shoot-clock button").focus();
        page.keyboard().press("Space");
        waitForCalls(1);
        assertEquals("/clock", server.calls.get(0).path());
        assertEquals(1, posts());
    }

    @ParameterizedTest
    @CsvSource({"390, 844", "360, 640", "1180, 820", "1440, 900"})
    void setNeverSpillsSideways(int width, int height) {
        page.setViewportSize(width, height);
        for (String sample : List.of("crew", "crew-ready", "crew-line-down", "crew-long")) {
            open("set", sample, "plot");
            assertThat(page.locator("rig-plot text.light").first()).isVisible();
            assertEquals(true, page.evaluate(SPILLS_NOT), sample);
            assertThat(page.locator("step-key button")).isInViewport();
        }
    }

    // ---- every page ------------------------------------------------------------------------

    @ParameterizedTest
    @ValueSource(strings = {"next", "set"})
    void wordsFromThePlanStayWords(String name) throws IOException {
        String evil = "<img src=x onerror=window.harmed=1>\"><script>window.harmed=1</script>";
        ObjectNode message = sample("crew-changed");
        message.set("test", sample("crew-test").get("test"));
        poison(message, evil);
        fulfil("crew-changed", message);
        JsonNode rig = sample("rig");
        poison(rig, evil);
        fulfil("rig", rig);
        open(name, "crew-changed", name.equals("set") ? "plot" : "");
        assertThat(key()).containsText(evil);
        assertThat(page.locator("now-shot .name")).hasText(evil);
        if (name.equals("set")) {
            assertThat(page.locator("set-list .name").first()).hasText(evil);
            assertThat(page.locator("rig-plot text.light .name").first()).hasText(evil);
            assertThat(page.locator("link-states .notes")).containsText(evil);
            assertThat(page.locator("light-board .words").first()).containsText(evil);
            assertThat(page.locator("light-board .changes")).containsText(evil);
            assertThat(page.locator("test-banner")).containsText(evil);
            assertThat(page.locator("rig-test .others dd").first()).containsText(evil);
        }
        if (name.equals("set")) {
            page.locator("#switches button[value=test]").click();
            assertThat(page.locator("rig-test .light").first()).containsText(evil);
            assertThat(page.locator("rig-test .spans")).containsText(evil);
        }
        assertThat(page.locator("img[src=x], main script")).hasCount(0);
        assertNull(page.evaluate("() => window.harmed ?? null"));
    }

    @Test
    void wordsFromThePlanStayWordsForTheBand() throws IOException {
        String evil = "<img src=x onerror=window.harmed=1>";
        JsonNode message = JSON.readTree(RecordingServer.sample("band-waiting"));
        ((ObjectNode) message).put("title", evil);
        fulfil("band-waiting", message);
        open("band", "band-waiting");
        assertThat(page.locator("#title")).hasText(evil);
        assertThat(page.locator("img")).hasCount(0);
        assertNull(page.evaluate("() => window.harmed ?? null"));
    }

    @ParameterizedTest
    @CsvSource({"next, crew", "set, crew", "band, band"})
    void nothingIsAskedOfAnyOtherPlace(String name, String sample) {
        List<String> errors = new ArrayList<>();
        page.onConsoleMessage(
                message -> {
                    if (!message.type().equals("log")) {
                        errors.add(message.text());
                    }
                });
        open(name, sample);
        page.waitForLoadState(LoadState.NETWORKIDLE);
        assertTrue(requests.size() > 5, "requests seen: " + requests);
        assertEquals(
                List.of(),
                requests.stream().filter(url -> !url.startsWith(server.url("/"))).toList());
        assertEquals(List.of(), errors);
    }

    /** WCAG 2.2, 1.4.3: 4.5 to 1 for text of any size; relative luminance as defined there. */
    @ParameterizedTest
    @CsvSource({
        "--chalk, --floor",
        "--chalk-dim, --floor",
        "--chalk, --floor-raised",
        "--chalk-dim, --floor-raised",
        "--ink, --tape",
        "--ink, --tape-sent",
        "--ink, --now",
        "--ink, --chalk",
        "--now, --floor-raised",
        "--ink, --trouble",
        "--trouble, --floor",
        "--now, --floor"
    })
    void inkStandsOutFromTape(String front, String back) {
        open("next", "crew");
        double a = luminance(colour(front));
        double b = luminance(colour(back));
        double contrast = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
        assertTrue(contrast >= 4.5, front + " on " + back + ": " + contrast);
    }

    // ---- steps of these tests --------------------------------------------------------------

    /** Every name that the key shows from now on, also if it is there for a moment only. */
    private static final String NOTE_THE_NAMES =
            """
            () => {
              window.names = [];
              const name = document.querySelector('step-key .name');
              new MutationObserver(() => window.names.push(name.textContent))
                .observe(name, {childList: true, characterData: true, subtree: true});
            }
            """;

    private static final String NAMES_THAT_OVERLAP =
            """
            () => {
              const words = [...document.querySelectorAll('rig-plot text:not(.quiet)')];
              const boxes = words.map((w) => [w.textContent, w.getBBox()]);
              const bad = [];
              boxes.forEach(([a, p], i) => boxes.slice(i + 1).forEach(([b, q]) => {
                const w = Math.min(p.x + p.width, q.x + q.width) - Math.max(p.x, q.x);
                const h = Math.min(p.y + p.height, q.y + q.height) - Math.max(p.y, q.y);
                if (w > 2 && h > 3) bad.push(`${a} / ${b}`);
              }));
              return bad;
            }
            """;

    private static String frame(int number, String url) {
        return "{\"kind\":\"band\",\"simulated\":false,\"title\":\"T\",\"frame\":{\"number\":"
                + number
                + ",\"url\":\""
                + url
                + "\"}}";
    }

    /** Puts the words in place of every text that a plan can bring in. */
    private static void poison(JsonNode node, String words) {
        List<String> ours = List.of("kind", "state", "id", "current", "coming", "shot", "url");
        if (node instanceof ObjectNode object) {
            for (Map.Entry<String, JsonNode> field : object.properties()) {
                boolean text = field.getValue().isTextual();
                if (text
                        && !ours.contains(field.getKey())
                        && !field.getKey().equals("prediction")) {
                    object.put(field.getKey(), words);
                } else {
                    poison(field.getValue(), words);
                }
            }
        } else if (node instanceof ArrayNode array) {
            for (int i = 0; i < array.size(); i++) {
                if (array.get(i).isTextual()) {
                    array.set(i, words);
                } else {
                    poison(array.get(i), words);
                }
            }
        }
    }

    private double drawnAngleDegrees() {
        String path = page.locator("rig-plot .view").getAttribute("d");
        double[] n =
                Pattern.compile("-?[0-9.]+")
                        .matcher(path)
                        .results()
                        .mapToDouble(found -> Double.parseDouble(found.group()))
                        .toArray();
        assertEquals(6, n.length, path);
        double left = Math.atan2(n[3] - n[1], n[0] - n[2]);
        double right = Math.atan2(n[3] - n[5], n[4] - n[2]);
        return Math.toDegrees(left - right);
    }

    private String colour(String property) {
        String value =
                (String)
                        page.evaluate(
                                "name => getComputedStyle(document.documentElement)"
                                        + ".getPropertyValue(name).trim()",
                                property);
        assertFalse(value.isEmpty(), property);
        return value;
    }

    private static double luminance(String colour) {
        double[] weights = {0.2126, 0.7152, 0.0722};
        double sum = 0;
        for (int i = 0; i < 3; i++) {
            double c = Integer.parseInt(colour.substring(1 + 2 * i, 3 + 2 * i), 16) / 255.0;
            sum += weights[i] * (c <= 0.04045 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4));
        }
        return sum;
    }
}

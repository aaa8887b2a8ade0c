package lookstep.server.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.WebSocketRoute;
import com.microsoft.playwright.options.BoundingBox;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.regex.Pattern;
import lookstep.server.pages.RecordingServer.Call;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** One light or one slot alone, from the set page and from next; said on both. */
@Tag("wide")
class RigTestTest extends PageCase {
    @BeforeEach
    void onATablet() {
        page.setViewportSize(1024, 768);
    }

    @Test
    void oneTapIsThatLightAlone() {
        open("set", "crew", "test");
        lights().nth(2).click();
        waitForCalls(1);
        assertEquals(
                new Call("/test", "{\"at\":2,\"do\":\"light\",\"light\":\"rim left\"}", "1"),
                server.calls.get(0));
        page.keyboard().press("Space");
        waitForCalls(2);
        assertEquals("/step", server.calls.get(1).path());
    }

    @Test
    void theWalkGoesForthAndBackAndEnds() {
        openTesting("set");
        page.locator("rig-test .walk button").nth(1).click();
        waitForCalls(1);
        page.locator("rig-test .walk button").nth(0).click();
        waitForCalls(2);
        page.locator("test-banner button").click();
        waitForCalls(3);
        assertEquals(
                List.of(
                        new Call("/test", "{\"at\":0,\"do\":\"next\"}", "1"),
                        new Call("/test", "{\"at\":0,\"do\":\"previous\"}", "1"),
                        new Call("/test", "{\"at\":0,\"do\":\"end\"}", "1")),
                server.calls);
        assertEquals(3, posts());
    }

    @Test
    void theTestedLightShowsItsSlotsAndEachCanBeTriedAlone() {
        openTesting("set");
        Locator slots = page.locator("rig-test .tested .slot");
        assertThat(slots)
                .hasText(
                        new String[] {
                            "1 warm, coarse", "2 warm, fine", "3 cool, coarse", "4 cool, fine"
                        });
        assertThat(slots.nth(1)).hasAttribute("aria-pressed", "true");
        assertThat(page.locator("rig-test .slot[aria-pressed=true]")).hasCount(1);
        slots.nth(2).click();
        waitForCalls(1);
        assertEquals(
                "{\"at\":0,\"do\":\"slot\",\"universe\":1,\"slot\":3}", server.calls.get(0).body());
    }

    @Test
    void whatShouldBeSeenAndWhatIsWrongIfNot() {
        openTesting("set");
        Locator on = page.locator("rig-test .on");
        assertThat(on.locator(".head")).hasText("key, slot 2 alone: warm, fine");
        assertThat(on.locator(".expect")).containsText("Almost nothing");
        assertThat(on.locator("dt")).hasText(new String[] {"Bright white", "Another light"});
        assertThat(on.locator("dd").first()).containsText("The light is set to 8 bit");
    }

    @Test
    void anySlotCanBeTriedAloneByItsNumber() {
        open("set", "crew", "test");
        page.locator("rig-test input[name=slot]").fill("513");
        page.locator("rig-test .single button").click();
        assertEquals(0, posts());
        page.locator("rig-test input[name=slot]").fill("35");
        page.locator("rig-test input[name=slot]").press("Enter");
        waitForCalls(1);
        assertEquals(
                "{\"at\":2,\"do\":\"slot\",\"universe\":1,\"slot\":35}",
                server.calls.get(0).body());
        assertEquals(1, posts());
    }

    @Test
    void theSlotsOfAUniverseAreDrawnWhereTheyAre() {
        openTesting("set");
        Locator strip = page.locator("rig-test .strip");
        assertThat(strip).hasAttribute("aria-label", aria("1–4 key, 5–10 free, 11–12 fill"));
        BoundingBox row = strip.locator(".slots").first().boundingBox();
        // Slots 11 and 12 of a row of 32.
        BoundingBox fill = strip.locator(".piece").nth(1).boundingBox();
        assertEquals(10.0 / 32, (fill.x - row.x) / row.width, 0.005);
        assertEquals(2.0 / 32, fill.width / row.width, 0.005);
        // Top goes over the end of the row: 31 and 32, then 33 and 34.
        assertThat(strip.locator(".piece[data-light=top]")).hasCount(2);
        BoundingBox rest = strip.locator(".piece[data-light=top]").nth(1).boundingBox();
        assertEquals(row.x, rest.x, 0.5);
        assertEquals(2.0 / 32, rest.width / row.width, 0.005);
        assertThat(strip.locator(".row")).hasCount(3);
        assertThat(strip.locator(".row").last()).containsText("free to 512");
        assertThat(strip.locator(".piece.tested")).hasText("key");
        BoundingBox mark = strip.locator(".slot-mark").boundingBox();
        assertEquals(1.0 / 32, (mark.x - row.x) / row.width, 0.005);
        assertThat(page.locator("rig-test .spans li").nth(3)).hasText("13–20 free");
    }

    @Test
    void warningsAreSaidAndWhatCarriesAUniverse() {
        ObjectNode rig = sample("rig");
        ((ArrayNode) rig.at("/universes/0/carriedBy")).removeAll().add("the line").add("sACN");
        ((ArrayNode) rig.get("warnings")).removeAll().add("Two lights answer at 31: set top to 41");
        fulfil("rig", rig);
        open("set", "crew", "test");
        assertThat(page.locator("rig-test .warnings li"))
                .hasText("Two lights answer at 31: set top to 41");
        assertThat(page.locator("rig-test .carried")).hasText("goes out by the line and sACN");
    }

    @Test
    void aUniverseThatNothingCarriesIsSaid() {
        ObjectNode rig = sample("rig");
        ((ArrayNode) rig.at("/universes/0/carriedBy")).removeAll();
        fulfil("rig", rig);
        open("set", "crew", "test");
        assertThat(page.locator("rig-test .carried")).hasText("✕ no output carries it");
    }

    @Test
    void theRigIsAskedForOnceAndOnlyWhenItIsLookedAt() {
        live("set", at(7));
        assertEquals(0, server.rigsAsked.get());
        panel("test").click();
        assertThat(lights()).hasCount(4);
        panel("plot").click();
        assertThat(lights().first()).isHidden();
        panel("test").click();
        assertThat(lights().first()).isVisible();
        assertEquals(1, server.rigsAsked.get());
    }

    @Test
    void aRigThatCouldNotBeHadIsAskedForAnew() {
        server.rig(500, "");
        live("set", at(7));
        panel("test").click();
        assertThat(page.locator("rig-test .none")).containsText("the computer answered 500");
        server.rig(200, sample("rig").toString());
        panel("plot").click();
        panel("test").click();
        assertThat(lights()).hasCount(4);
        assertThat(page.locator("rig-test .none")).isEmpty();
    }

    @Test
    void afterABreakOfTheLineTheRigMayBeAnother() {
        List<WebSocketRoute> lines = push("crew");
        page.navigate(server.url("/set#test"));
        page.waitForCondition(() -> lines.size() == 1);
        lines.get(0).send(at(7).toString());
        assertThat(lights()).hasCount(4);
        ObjectNode rig = sample("rig");
        ((ArrayNode) rig.get("lights")).remove(3);
        server.rig(200, rig.toString());
        lines.get(0).close();
        assertThat(lights()).hasCount(3);
        assertEquals(2, server.rigsAsked.get());
    }

    // ---- next ------------------------------------------------------------------------------

    @Test
    void nextTestsTheRigBeforeTheFirstShotAndTheBigKeyStepsAllTheSame() {
        page.setViewportSize(360, 740);
        openTesting("next");
        assertThat(lights()).hasCount(0);
        page.locator("#look-through").click();
        assertThat(page.locator("#look-through")).hasAttribute("aria-expanded", "true");
        lights().nth(1).click();
        waitForCalls(1);
        assertEquals("{\"at\":0,\"do\":\"light\",\"light\":\"fill\"}", server.calls.get(0).body());
        assertThat(key()).isInViewport();
        assertThat(key()).containsText("Ends the test");
        tap();
        waitForCalls(2);
        assertEquals(new Call("/step", "{\"at\":0}", "1"), server.calls.get(1));
        page.locator("#look-through").click();
        assertThat(page.locator("rig-test")).isHidden();
        assertThat(page.locator("now-shot")).isVisible();
    }

    @Test
    void whenTheFirstShotComesTheRigTestGivesWayOnNext() {
        WebSocketRoute line = live("next", testing());
        page.locator("#look-through").click();
        assertThat(page.locator("rig-test")).isVisible();
        line.send(sample("crew").toString());
        assertThat(page.locator("rig-test")).isHidden();
        assertThat(page.locator("#look-through")).isHidden();
        assertThat(page.locator("now-shot .name")).hasText("Warm front, cold back");
        assertThat(page.locator("test-banner")).isHidden();
    }

    @ParameterizedTest
    @ValueSource(strings = {"next", "set"})
    void aTestIsSaidOnEveryPageOfTheCrewAndCanBeEndedThere(String name) {
        openTesting(name);
        assertThat(page.locator("test-banner p")).hasText("Test: key, slot 2 alone: warm, fine");
        assertThat(page.locator("test-banner p")).isInViewport();
        assertThat(key()).containsText("Ends the test");
        page.locator("test-banner button").dblclick();
        waitForCalls(1);
        assertEquals(new Call("/test", "{\"at\":0,\"do\":\"end\"}", "1"), server.calls.get(0));
        assertEquals(1, posts());
        open(name, "crew");
        assertThat(page.locator("test-banner")).isHidden();
    }

    @Test
    void atTheLastShotTheKeyDoesNotPromiseToEndTheTest() {
        ObjectNode done = sample("crew-done");
        done.set("test", testing().get("test"));
        fulfil("crew-done", done);
        open("next", "crew-done");
        assertThat(key()).containsText("‘End the test’ puts the look back on");
        tap();
        assertEquals(0, posts());
        assertThat(page.locator("test-banner button")).isVisible();
    }

    // ---- work light, flashing, troubles ----------------------------------------------------

    @Test
    void nextSaysThatWorkLightIsOnAndWhatTheFirstPressDoes() {
        open("next", "crew-work-light");
        assertThat(page.locator("now-shot .say"))
                .hasText("Work light is on, until the first press");
        assertThat(key()).containsText("Work light off, look “safe” on");
        ObjectNode without = sample("crew-work-light");
        without.withObject("/light").put("what", "look").put("look", "safe");
        fulfil("crew-work-light", without);
        open("next", "crew-work-light");
        assertThat(page.locator("now-shot .say")).hasText("The first look is on: test it");
        assertThat(key()).not().containsText("Work light");
    }

    @ParameterizedTest
    @ValueSource(strings = {"next", "set"})
    void flashingIsHeldBackAndThatIsSaid(String name) {
        fulfil("crew-ready", flashing("crew-ready", false, false));
        open(name, "crew-ready");
        Locator caution = caution();
        assertThat(caution).hasCount(1);
        assertThat(caution).containsText("at most three opposing changes a second");
        assertThat(caution.locator("button")).isHidden();
    }

    @ParameterizedTest
    @CsvSource({"next, crew-work-light", "set, crew-work-light", "set, crew-changed"})
    void thatEverybodyWasToldTakesTwoTaps(String name, String sample) {
        fulfil(sample, flashing(sample, true, false));
        open(name, sample);
        stopTime();
        Locator caution = caution();
        assertThat(caution).containsText("can set off seizures");
        assertThat(caution).containsText("until everybody was told");
        Locator button = caution.locator("button");
        assertThat(button).hasText("Everybody was told");
        button.dblclick();
        assertThat(button).containsText("all of them? Tap again");
        assertEquals(0, posts());
        pass(3100);
        assertThat(button).hasText("Everybody was told");
        button.click();
        pass(600);
        button.click();
        waitForCalls(1);
        assertEquals(new Call("/flashing", "{\"acknowledged\":true}", "1"), server.calls.get(0));
        assertEquals(1, posts());
    }

    @ParameterizedTest
    @ValueSource(strings = {"next", "set"})
    void thatTheLimitIsOffIsSaidAllTheTimeAndOneTapPutsItBack(String name) {
        fulfil("crew-long", flashing("crew-long", true, true));
        open(name, "crew-long");
        assertThat(caution()).containsText("The limit on flashing is off: everybody was told");
        caution().locator("button").click();
        waitForCalls(1);
        assertEquals(new Call("/flashing", "{\"acknowledged\":false}", "1"), server.calls.get(0));
        assertEquals(1, posts());
    }

    @ParameterizedTest
    @ValueSource(strings = {"next", "set"})
    void theNetworkOutputIsMissedLikeTheLine(String name) {
        ObjectNode message = sample("crew-changed");
        ((ObjectNode) message.at("/links/1")).put("state", "down").put("says", "no route");
        fulfil("crew-changed", message);
        open(name, "crew-changed");
        assertThat(page.locator("trouble-strip")).hasText("The network output is down: no route");
        if (name.equals("set")) {
            assertThat(panel("links")).hasText("Links ✕");
        }
    }

    // ---- steps of these tests --------------------------------------------------------------

    private static final String SLOT_ALONE =
            """
            {"light": "key", "universe": 1, "slot": 2, "says": "key, slot 2 alone: warm, fine",
             "expect": "Almost nothing.",
             "others": [
               {"seen": "Bright white", "why": "The light is set to 8 bit."},
               {"seen": "Another light", "why": "Its address is one too low."}]}
            """;

    /** Before the first shot, slot 2 of the key is on alone. */
    private static ObjectNode testing() {
        try {
            ObjectNode message = sample("crew-work-light");
            message.set("test", JSON.readTree(SLOT_ALONE));
            message.withObject("/light").put("what", "test");
            return message;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void openTesting(String name) {
        fulfil("crew-test", testing());
        open(name, "crew-test", name.equals("set") ? "test" : "");
    }

    private static ObjectNode flashing(String sample, boolean allowed, boolean acknowledged) {
        ObjectNode message = sample(sample);
        message.withObject("/flashing").put("allowed", allowed).put("acknowledged", acknowledged);
        return message;
    }

    private Locator lights() {
        return page.locator("rig-test .lights .light");
    }

    private Locator panel(String name) {
        return page.locator("#switches button[value=" + name + "]");
    }

    private Locator caution() {
        return page.locator("flashing-caution:visible");
    }

    private static Pattern aria(String words) {
        return Pattern.compile("^Universe 1: " + words + ".*35–512 free$");
    }
}

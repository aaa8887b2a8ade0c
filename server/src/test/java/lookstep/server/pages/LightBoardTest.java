package lookstep.server.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.WebSocketRoute;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import lookstep.server.pages.RecordingServer.Answer;
import lookstep.server.pages.RecordingServer.Call;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The light changed on the set: by finger and by keyboard, what is sent and what is not. */
@Tag("wide")
class LightBoardTest extends PageCase {
    @BeforeEach
    void onALaptop() {
        page.setViewportSize(1366, 768);
    }

    // ---- what it shows ---------------------------------------------------------------------

    @Test
    void everyLightHasALineWithWhatItDoesAndHowItDiffersFromThePlan() {
        open("set", "crew-changed");
        assertThat(page.locator("light-board .lamps li")).hasCount(4);
        assertThat(line(2)).containsText("fill");
        assertThat(line(2)).containsText("1.7 under, 3000 K");
        assertThat(line(2)).containsText("192 lx, 1.7 under the key");
        assertThat(line(2).locator(".changed")).hasText("a third brighter");
        assertThat(line(2).locator(".limits")).isEmpty();
        // It is at its end, so the end is said.
        assertThat(line(3).locator(".limits")).hasText("goes from 4.2 under to 1.3 over the key");
        assertThat(page.locator("light-board .changes li"))
                .hasText(
                        new String[] {
                            "fill a third brighter",
                            "rim left a third brighter, 20 mired colder",
                            "top off",
                            "the camera stays at 4300 K"
                        });
        assertThat(page.locator("light-board .notes")).containsText("key cannot be as warm");
        assertThat(whole("undo")).hasText("Undo: rim left 10 mired colder");
    }

    @Test
    void workLightAndATestAreSaidOnTheBoard() {
        open("set", "crew-work-light");
        assertThat(page.locator("light-board .says")).containsText("work light");
        open("set", "crew-test");
        assertThat(page.locator("light-board .says")).containsText("test");
        open("set", "crew-long");
        assertThat(page.locator("light-board .says")).isEmpty();
    }

    @Test
    void whatTheCameraIsToBeSetToIsBigAndSaysWhatBecameOther() {
        ObjectNode first = sample("crew-changed");
        first.put("revision", 10);
        first.withObject("/light").put("cameraStays", false);
        first.withObject("/light/camera").put("kelvin", 3000);
        WebSocketRoute line = live("set", first);
        Locator kelvin = page.locator("camera-settings .kelvin");
        assertThat(kelvin).hasText("3000 K");
        assertThat(kelvin).not().hasClass("kelvin new");
        assertThat(page.locator("camera-settings"))
                .containsText("Camera to 3000 K f/8 1/125 s ISO 3200");
        double size =
                ((Number) kelvin.evaluate("e => parseFloat(getComputedStyle(e).fontSize)"))
                        .doubleValue();
        assertTrue(size >= 32, "pixels: " + size);
        line.send(sample("crew-changed").toString());
        assertThat(kelvin).hasText("4300 K");
        assertThat(kelvin).hasClass("kelvin new");
        assertThat(page.locator("camera-settings .aside"))
                .hasText("was 3000 K; stays, the lights make up for it");
        // The next shot with the same settings: there is nothing to turn.
        ObjectNode next = sample("crew-changed");
        next.put("revision", 20).put("current", "rim-only").putNull("coming");
        next.withObject("/light").put("cameraStays", false);
        line.send(next.toString());
        assertThat(kelvin).hasClass("kelvin");
        assertThat(page.locator("camera-settings .aside")).isEmpty();
    }

    // ---- presses ---------------------------------------------------------------------------

    @ParameterizedTest
    @CsvSource({
        "2, brighter, fill",
        "2, darker, fill",
        "2, warmer, fill",
        "2, colder, fill",
        "2, off, fill",
        "1, darker, key",
        "4, on, top"
    })
    void aKeyOfALineIsSentOnce(int number, String what, String name) {
        open("set", "crew-changed");
        press(number, what);
        waitForCalls(1);
        assertEquals(
                new Call(
                        "/light",
                        "{\"at\":2,\"do\":\"" + what + "\",\"light\":\"" + name + "\"}",
                        "1"),
                server.calls.get(0));
        assertEquals(1, posts());
    }

    @ParameterizedTest
    @ValueSource(strings = {"undo", "swap", "keep", "forget"})
    void aKeyOfTheWholeLookIsSentOnce(String what) {
        open("set", "crew-changed");
        whole(what).click();
        waitForCalls(1);
        assertEquals(
                new Call("/light", "{\"at\":2,\"do\":\"" + what + "\"}", "1"), server.calls.get(0));
        assertEquals(1, posts());
    }

    @Test
    void theCameraStaysOrIsAsPlanned() {
        open("set", "crew-changed");
        Locator keys = page.locator("light-board .steady button");
        assertThat(keys)
                .hasText(new String[] {"Camera stays at 5600 K", "Camera as planned, 3000 K"});
        keys.nth(0).click();
        waitForCalls(1);
        keys.nth(1).click();
        waitForCalls(2);
        assertEquals(
                List.of(
                        "{\"at\":2,\"do\":\"steady\",\"kelvin\":5600}",
                        "{\"at\":2,\"do\":\"unsteady\"}"),
                bodies());
    }

    @ParameterizedTest
    @CsvSource({
        "crew-changed, 1, brighter, goes no brighter. It goes from 5 under",
        "crew-changed, 4, brighter, top is off: switch it on first",
        "crew-long, 4, off, top is not in this look",
        "crew-work-light, 1, darker, Work light is on",
        "crew-test, 1, darker, A test is on: end it first"
    })
    void whatCanNotBeDoneIsNotSentAndSaysWhy(String sample, int number, String what, String words) {
        open("set", sample);
        // The off key of a light that is out says on.
        Locator key = line(number).locator("button").nth(ORDER.indexOf(what));
        assertThat(key).hasAttribute("aria-disabled", "true");
        key.focus();
        assertThat(key).isFocused();
        page.keyboard().press("Enter");
        assertThat(page.locator("light-board .why")).containsText(words);
        assertEquals(0, posts());
    }

    @ParameterizedTest
    @CsvSource({
        "crew-long, undo, nothing to undo",
        "crew-long, keep, Nothing is changed",
        "crew-long, forget, Nothing is changed",
        "crew-work-light, swap, Work light is on",
        "crew-test, keep, A test is on"
    })
    void aKeyOfTheWholeLookThatDoesNothingSaysWhy(String sample, String what, String words) {
        open("set", sample);
        assertThat(whole(what)).hasAttribute("aria-disabled", "true");
        whole(what).click(new Locator.ClickOptions().setForce(true));
        assertThat(page.locator("light-board .why")).containsText(words);
        assertEquals(0, posts());
    }

    @Test
    void whatWasKeptCanBeForgottenToo() {
        ObjectNode message = sample("crew-long");
        message.withObject("/light").put("kept", true);
        fulfil("crew-long", message);
        open("set", "crew-long");
        assertThat(whole("forget")).hasText("Forget what is kept");
        whole("forget").click();
        waitForCalls(1);
        assertEquals("{\"at\":7,\"do\":\"forget\"}", server.calls.get(0).body());
    }

    @Test
    void aRefusalIsSaidInTheServersWordsAndGoesWhenAPressIsTaken() {
        server.answer(call -> new Answer(400, "{\"says\":\"fill is at its end\"}"));
        open("set", "crew-long");
        press(2, "brighter");
        assertThat(page.locator("#refused")).hasText("✕ Not done: fill is at its end");
        server.answer(call -> new Answer(204, ""));
        press(2, "brighter");
        assertThat(page.locator("#refused")).isEmpty();
        assertEquals(2, posts());
    }

    @Test
    void theAnswerIsShown() {
        String changed = sample("crew-changed").toString();
        server.answer(call -> new Answer(200, changed));
        open("set", "crew-long");
        press(2, "brighter");
        assertThat(line(2)).containsText("1.7 under, 3000 K");
    }

    // ---- hurry -----------------------------------------------------------------------------

    @Test
    void hammeringKeepsThreePressesAtMost() {
        open("set", "crew-long");
        CountDownLatch held = server.hold();
        for (int i = 0; i < 9; i++) {
            press(2, "brighter");
        }
        waitForCalls(1);
        assertEquals(1, posts());
        held.countDown();
        waitForCalls(4);
        assertEquals(4, posts());
    }

    @Test
    void aPressThatDoesNothingAnyMoreIsLetGo() {
        ObjectNode atItsEnd = sample("crew-long");
        atItsEnd.put("revision", 45);
        ((ArrayNode) atItsEnd.at("/light/lights/1/can")).removeAll().add("darker").add("off");
        String answer = atItsEnd.toString();
        server.answer(call -> new Answer(200, answer));
        open("set", "crew-long");
        CountDownLatch held = server.hold();
        press(2, "brighter");
        press(2, "brighter");
        press(2, "darker");
        held.countDown();
        waitForCalls(2);
        assertEquals(
                List.of(
                        "{\"at\":7,\"do\":\"brighter\",\"light\":\"fill\"}",
                        "{\"at\":7,\"do\":\"darker\",\"light\":\"fill\"}"),
                bodies());
        assertEquals(2, posts());
    }

    @Test
    void aPressThatWasMeantForAnotherShotIsLetGo() {
        WebSocketRoute line = live("set", at(7));
        CountDownLatch held = server.hold();
        press(2, "brighter");
        press(2, "brighter");
        waitForCalls(1);
        line.send(at(8).toString());
        assertThat(key()).containsText("Solo: Petra");
        held.countDown();
        // Were the kept press still alive it would go out before this one.
        press(2, "darker");
        waitForCalls(2);
        assertEquals(
                List.of(
                        "{\"at\":7,\"do\":\"brighter\",\"light\":\"fill\"}",
                        "{\"at\":8,\"do\":\"darker\",\"light\":\"fill\"}"),
                bodies());
    }

    @Test
    void aHurriedDoubleTapOnOffDoesNotSwitchTwice() {
        ObjectNode dark = sample("crew-long");
        dark.put("revision", 45);
        ((ObjectNode) dark.at("/light/lights/1")).put("on", false).put("level", "off");
        ((ArrayNode) dark.at("/light/lights/1/can")).removeAll().add("on");
        String answer = dark.toString();
        server.answer(call -> new Answer(200, answer));
        open("set", "crew-long");
        stopTime();
        press(2, "off");
        assertThat(line(2).locator("[data-what=on]")).isVisible();
        press(2, "on");
        waitForCalls(2);
        whole("swap").click();
        whole("swap").click();
        waitForCalls(3);
        assertEquals(
                List.of(
                        "{\"at\":7,\"do\":\"off\",\"light\":\"fill\"}",
                        "{\"at\":7,\"do\":\"on\",\"light\":\"fill\"}",
                        "{\"at\":7,\"do\":\"swap\"}"),
                bodies());
        assertEquals(3, posts());
    }

    // ---- keyboard --------------------------------------------------------------------------

    @ParameterizedTest
    @CsvSource({
        "ArrowUp, brighter",
        "ArrowDown, darker",
        "ArrowLeft, colder",
        "ArrowRight, warmer",
        "o, 'off'",
        "O, 'off'"
    })
    void aDigitChoosesTheLightAndAKeyChangesIt(String keyName, String what) {
        open("set", "crew-long");
        page.keyboard().press("3");
        assertThat(line(3)).hasAttribute("aria-current", "true");
        page.keyboard().press(keyName);
        waitForCalls(1);
        assertEquals(
                new Call(
                        "/light", "{\"at\":7,\"do\":\"" + what + "\",\"light\":\"rim left\"}", "1"),
                server.calls.get(0));
        assertEquals(1, posts());
    }

    @Test
    void withoutAChosenLightTheArrowsDoNothingNotEvenStep() {
        open("set", "crew-long");
        for (String keyName : List.of("ArrowRight", "ArrowLeft", "ArrowUp", "ArrowDown", "o")) {
            page.keyboard().press(keyName);
        }
        page.keyboard().press("3");
        page.keyboard().press("Escape");
        page.keyboard().press("ArrowRight");
        page.keyboard().press("7");
        page.keyboard().press("Control+ArrowRight");
        assertEquals(0, posts());
        page.keyboard().press("u");
        assertThat(page.locator("light-board .why")).containsText("nothing to undo");
        assertEquals(0, posts());
    }

    @Test
    void undoIsU() {
        open("set", "crew-changed");
        page.keyboard().press("u");
        waitForCalls(1);
        assertEquals("{\"at\":2,\"do\":\"undo\"}", server.calls.get(0).body());
    }

    @ParameterizedTest
    @CsvSource({
        "Space, /step",
        "Enter, /step",
        "PageDown, /step",
        "PageUp, /back",
        "Backspace, /back"
    })
    void theStepKeepsItsKeysWithALightChosen(String keyName, String path) {
        open("set", "crew-long");
        page.keyboard().press("2");
        page.keyboard().press(keyName);
        waitForCalls(1);
        assertEquals(new Call(path, "{\"at\":7}", "1"), server.calls.get(0));
    }

    @Test
    void afterATouchOfALightTheSpaceBarIsTheStepAgain() {
        open("set", "crew-long");
        press(2, "brighter");
        waitForCalls(1);
        page.keyboard().press("Space");
        waitForCalls(2);
        assertEquals("/step", server.calls.get(1).path());
    }

    @Test
    void aFocusedKeyOfALightKeepsTheFocusWhenTheLightChanges() {
        String changed = sample("crew-changed").toString();
        server.answer(call -> new Answer(200, changed));
        open("set", "crew-long");
        Locator key = line(2).locator("[data-what=brighter]");
        key.focus();
        page.keyboard().press("Space");
        assertThat(line(2)).containsText("1.7 under, 3000 K");
        assertThat(key).isFocused();
        assertEquals("/light", server.calls.get(0).path());
        assertEquals(1, posts());
    }

    @Test
    void aHeldKeyRepeatsFourTimesASecondAtMost() {
        open("set", "crew-long");
        stopTime();
        page.keyboard().press("2");
        for (int i = 0; i < 11; i++) {
            page.keyboard().down("ArrowUp");
            page.waitForCondition(() -> server.calls.size() == posts());
            pass(100);
        }
        page.keyboard().up("ArrowUp");
        // At 0, 300, 600 and 900 of 1000 ms: every 100 ms, but 250 ms apart.
        assertEquals(4, posts());
        page.keyboard().press("3");
        page.keyboard().down("o");
        page.keyboard().down("o");
        waitForCalls(5);
        assertEquals(5, posts());
    }

    @Test
    void aKeyForALightBringsTheLightsFirst() {
        open("set", "crew-changed", "plot");
        assertThat(page.locator("light-board")).isHidden();
        page.keyboard().press("ArrowUp");
        page.keyboard().press("o");
        assertThat(page.locator("light-board")).isHidden();
        page.keyboard().press("u");
        assertThat(page.locator("light-board")).isVisible();
        assertEquals(0, posts());
        page.keyboard().press("u");
        waitForCalls(1);
    }

    @Test
    void whatIsTypedIntoAFieldIsNoPress() {
        open("set", "crew-long", "test");
        Locator slot = page.locator("rig-test input[name=slot]");
        slot.fill("");
        slot.pressSequentially("21");
        assertThat(slot).hasValue("21");
        slot.press("ArrowRight");
        slot.press("Backspace");
        assertThat(slot).hasValue("2");
        assertThat(page.locator("rig-test")).isVisible();
        assertEquals(0, posts());
        // A clicker in somebody's hand steps all the same.
        slot.press("PageDown");
        waitForCalls(1);
        assertEquals("/step", server.calls.get(0).path());
    }

    @Test
    void theKeysOfTheKeyboardAreListed() {
        open("set", "crew-long");
        page.getByText("On the keyboard").click();
        for (String words : List.of("choose a light", "undo", "same again", "the next shot")) {
            assertThat(page.locator("light-board .help")).containsText(words);
        }
    }

    // ---- steps of these tests --------------------------------------------------------------

    private static final List<String> ORDER =
            List.of("darker", "brighter", "colder", "warmer", "off");

    private Locator line(int number) {
        return page.locator("light-board .lamps li").nth(number - 1);
    }

    private Locator whole(String what) {
        return page.locator("light-board .whole [data-what=" + what + "]");
    }

    private void press(int number, String what) {
        line(number).locator("[data-what=" + what + "]").click();
    }
}

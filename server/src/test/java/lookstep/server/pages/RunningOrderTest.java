package lookstep.server.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.node.ObjectNode;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.WebSocketRoute;
import java.util.List;
import lookstep.server.pages.RecordingServer.Answer;
import lookstep.server.pages.RecordingServer.Call;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** To any shot by two taps, and the same shot again. */
class RunningOrderTest extends PageCase {
    @BeforeEach
    void onATablet() {
        page.setViewportSize(1024, 768);
    }

    @Test
    void aJumpNeedsTwoTaps() {
        open("set", "crew-long");
        stopTime();
        shot(10).click();
        assertThat(shot(10)).containsText("Go here? Tap again");
        assertEquals(0, posts());
        pass(800);
        shot(10).click();
        waitForCalls(1);
        assertEquals(new Call("/jump", "{\"at\":7,\"to\":10}", "1"), server.calls.get(0));
        assertThat(shot(10)).not().containsText("Go here?");
        assertEquals(1, posts());
    }

    @Test
    void aHandThatDrumsOnTheListDoesNotJump() {
        open("set", "crew-long");
        stopTime();
        for (int i = 0; i < 12; i++) {
            shot(3).click();
            pass(200);
        }
        assertEquals(0, posts());
    }

    @Test
    void aSecondTapThatComesTooLateAsksAgain() {
        open("set", "crew-long");
        stopTime();
        shot(3).click();
        pass(2900);
        assertThat(shot(3)).containsText("Go here?");
        pass(200);
        assertThat(shot(3)).not().containsText("Go here?");
        shot(3).click();
        assertThat(shot(3)).containsText("Go here?");
        assertEquals(0, posts());
    }

    @Test
    void theQuestionMovesWithTheFinger() {
        open("set", "crew-long");
        stopTime();
        shot(3).click();
        pass(500);
        shot(4).click();
        assertThat(shot(3)).not().containsText("Go here?");
        assertThat(shot(4)).containsText("Go here?");
        pass(500);
        shot(3).click();
        assertEquals(0, posts());
        pass(500);
        shot(3).click();
        waitForCalls(1);
        assertEquals("{\"at\":7,\"to\":3}", server.calls.get(0).body());
    }

    @Test
    void thePresentShotIsNoPlaceToGoTo() {
        open("set", "crew-long");
        stopTime();
        assertThat(shot(7)).hasAttribute("aria-disabled", "true");
        for (int i = 0; i < 3; i++) {
            shot(7).click(new Locator.ClickOptions().setForce(true));
            pass(500);
        }
        assertThat(shot(7)).not().containsText("Go here?");
        assertEquals(0, posts());
    }

    @Test
    void theKeyboardJumpsByTwoPressesAndNotByAHeldKey() {
        open("set", "crew-long");
        stopTime();
        shot(9).focus();
        for (int i = 0; i < 5; i++) {
            page.keyboard().down("Enter");
            pass(500);
        }
        page.keyboard().up("Enter");
        assertEquals(0, posts());
        page.keyboard().press("Enter");
        waitForCalls(1);
        assertEquals("{\"at\":7,\"to\":9}", server.calls.get(0).body());
        shot(8).focus();
        page.keyboard().press("Enter");
        assertThat(shot(8)).containsText("Go here?");
        page.keyboard().press("Escape");
        assertThat(shot(8)).not().containsText("Go here?");
        assertEquals(1, posts());
    }

    @Test
    void afterATouchOfTheListTheSpaceBarIsTheStep() {
        open("set", "crew-long");
        stopTime();
        shot(9).click();
        pass(500);
        page.keyboard().press("Space");
        waitForCalls(1);
        assertEquals("/step", server.calls.get(0).path());
    }

    @Test
    void aFrameThatComesInLeavesTheQuestionAndAStepTakesItBack() {
        WebSocketRoute line = live("set", at(7));
        stopTime();
        shot(3).click();
        ObjectNode more = at(7);
        more.put("revision", 108);
        ((ObjectNode) more.at("/shots/6")).put("frames", 2);
        line.send(more.toString());
        assertThat(shot(7)).containsText("2 frames");
        assertThat(shot(3)).containsText("Go here?");
        line.send(at(8).put("revision", 109).toString());
        assertThat(key()).containsText("Solo: Petra");
        assertThat(shot(3)).not().containsText("Go here?");
        pass(500);
        shot(3).click();
        assertEquals(0, posts());
    }

    @Test
    void aStepRightAfterOnesOwnJumpCounts() {
        server.answer(call -> new Answer(200, at(3).put("revision", 200).toString()));
        live("set", at(7));
        stopTime();
        shot(3).click();
        pass(500);
        shot(3).click();
        assertThat(page.locator("set-list [aria-current=step] .name"))
                .hasText("Warm front, cold back");
        page.keyboard().press("Space");
        waitForCalls(2);
        assertEquals(new Call("/step", "{\"at\":3}", "1"), server.calls.get(1));
    }

    @Test
    void aJumpThatIsTurnedDownIsSaidOnTheKey() {
        server.answer(call -> new Answer(400, "{\"says\":\"there is no such shot\"}"));
        open("set", "crew-long");
        stopTime();
        shot(3).click();
        pass(500);
        shot(3).click();
        assertThat(said()).hasText("Not done: there is no such shot");
    }

    // ---- same again ------------------------------------------------------------------------

    @ParameterizedTest
    @ValueSource(strings = {"next", "set"})
    void sameAgainIsSentOnceByFingerAndByKey(String name) {
        open(name, "crew");
        stopTime();
        page.locator("#again").click();
        page.locator("#again").click();
        waitForCalls(1);
        pass(500);
        page.keyboard().press("a");
        waitForCalls(2);
        assertEquals(new Call("/again", "{\"at\":2}", "1"), server.calls.get(0));
        assertEquals(new Call("/again", "{\"at\":2}", "1"), server.calls.get(1));
        assertEquals(2, posts());
        // The button gave the focus back.
        page.keyboard().press("Space");
        waitForCalls(3);
        assertEquals("/step", server.calls.get(2).path());
    }

    @Test
    void thereIsNothingToMakeAgainBeforeTheFirst() {
        open("next", "crew-work-light");
        assertThat(page.locator("#again")).isHidden();
        page.keyboard().press("a");
        open("set", "crew-work-light");
        assertThat(page.locator("#again")).hasAttribute("aria-disabled", "true");
        page.locator("#again").click(new Locator.ClickOptions().setForce(true));
        page.keyboard().press("a");
        assertEquals(0, posts());
        assertEquals(List.of(), server.calls);
    }

    @Test
    void theTakeIsShown() {
        open("next", "crew-long");
        assertThat(page.locator("now-shot .count")).hasText("7 of 10, take 3");
        open("set", "crew-changed");
        assertThat(page.locator("now-shot .count")).hasText("2 of 3, take 2");
        assertThat(page.locator("set-list .now")).containsText("now, take 2");
        open("set", "crew");
        assertThat(page.locator("now-shot .count")).hasText("2 of 3");
    }

    private Locator shot(int place) {
        return page.locator("set-list li").nth(place - 1).locator("button");
    }
}

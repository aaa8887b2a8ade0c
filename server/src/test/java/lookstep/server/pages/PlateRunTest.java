package lookstep.server.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.node.ObjectNode;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.options.BoundingBox;
import java.util.List;
import lookstep.server.pages.RecordingServer.Call;
import org.junit.jupiter.api.Test;

/** The panel for plates. */
class PlateRunTest extends PageCase {
    private Locator part(String selector) {
        return page.locator("plate-run " + selector);
    }

    private void press(String words) {
        part("button").filter(new Locator.FilterOptions().setHasText(words)).first().click();
    }

    @Test
    void oneKeyBeginsThemWithAStandInOrThePeople() {
        open("set", "crew", "plates");
        assertThat(part(".begin"))
                .containsText("17 frames for ‘Warm front, cold back’, about 50 s");
        press("Take plates");
        waitForCalls(1);
        page.locator("plate-run input[value=people]").check();
        press("Take plates");
        waitForCalls(2);
        assertEquals(
                List.of(
                        new Call("/plates", "{\"do\":\"begin\",\"standIn\":true}", "1"),
                        new Call("/plates", "{\"do\":\"begin\",\"standIn\":false}", "1")),
                server.calls);
    }

    @Test
    void whatIsLitIsLargeAndThePhotographerIsCountedThrough() {
        open("set", "crew-plates", "plates");
        assertThat(part(".lit").first()).hasText("‘key’ warm alone");
        assertThat(part(".now")).containsText("take a frame now: 2 of 4, ‘key’ warm alone");
        assertThat(part(".steps li")).hasCount(4);
        assertThat(part(".steps li.lit .says")).containsText("it shows the house only");
        assertThat(page.locator("#switches [value=plates]")).containsText("●");
        press("Give up");
        waitForCalls(1);
        assertEquals(
                new Call("/plates", "{\"do\":\"give up\",\"id\":\"plates-1\"}", "1"),
                server.calls.get(0));
    }

    @Test
    void whatWaitsForSomebodyCanBeTakenAgainOrUsed() {
        ObjectNode message = sample("crew-plates");
        message.withObject("/plates").put("waits", true);
        fulfil("crew-plates", message);
        open("set", "crew-plates", "plates");
        press("Take it again");
        waitForCalls(1);
        press("Use it all the same");
        waitForCalls(2);
        assertEquals(
                List.of(
                        "{\"do\":\"again\",\"id\":\"plates-1\",\"step\":2}",
                        "{\"do\":\"use\",\"id\":\"plates-1\"}"),
                bodies());
    }

    @Test
    void theQuestionIsAnsweredWithOnePress() {
        open("set", "crew-plates-ready", "plates");
        assertThat(part(".asked")).containsText("Has anything moved since?");
        assertThat(part(".doubts")).containsText("even at full it brings little");
        press("Nothing moved");
        waitForCalls(1);
        part(".steps button").nth(2).click();
        waitForCalls(2);
        assertEquals(
                List.of(
                        "{\"do\":\"nothing moved\",\"id\":\"plates-1\"}",
                        "{\"do\":\"again\",\"id\":\"plates-1\",\"step\":3}"),
                bodies());
    }

    @Test
    void everyKeyIsLargeEnoughAndReachedByTheKeyboard() {
        for (String sample : List.of("crew", "crew-plates", "crew-plates-ready")) {
            open("set", sample, "plates");
            assertTrue((Boolean) page.evaluate(SPILLS_NOT), sample);
            for (Locator key : part("button").all()) {
                BoundingBox box = key.boundingBox();
                assertTrue(box.height >= 44 && box.width >= 44, sample + " " + key.textContent());
                key.focus();
                assertThat(key).isFocused();
            }
        }
    }
}

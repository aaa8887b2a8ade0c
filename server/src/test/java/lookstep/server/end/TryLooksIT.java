package lookstep.server.end;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.microsoft.playwright.Browser.NewContextOptions;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import java.io.IOException;
import java.nio.file.Path;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A photographer who takes plates of a simulated set and tries looks on them, with the program as
 * it is packaged and Chromium before its pages.
 */
class TryLooksIT {
    private static final double PATIENCE_MILLIS = 120_000;

    @TempDir Path dir;

    private Lookstep lookstep;
    private Playwright playwright;
    private com.microsoft.playwright.Browser chromium;
    private Page set;

    @BeforeEach
    void rehearse() throws IOException {
        PlaywrightAssertions.setDefaultAssertionTimeout(PATIENCE_MILLIS);
        playwright = Browser.playwright();
        chromium = Browser.chromium(playwright);
        start();
    }

    private void start() throws IOException {
        lookstep = Lookstep.start(dir, "rehearse", "--http", "127.0.0.1:0");
        set = chromium.newContext(new NewContextOptions().setViewportSize(1366, 768)).newPage();
        set.setDefaultTimeout(PATIENCE_MILLIS);
        set.navigate(lookstep.link(1));
        set.locator("step-key .name:not(:empty)").waitFor();
    }

    @AfterEach
    void takeDown() {
        lookstep.close();
        chromium.close();
        playwright.close();
    }

    @Test
    void platesAreTakenLooksAreTriedOnThemAndOneGoesIntoTheOrder() throws IOException {
        Locator first = set.locator("set-list img").first();
        assertThat(first).not().hasClass("plates");

        set.locator("#switches button[value='plates']").click();
        set.locator("plate-run input[type='radio']").last().check();
        set.getByText("Take plates", new Page.GetByTextOptions().setExact(false)).first().click();
        assertThat(set.locator("plate-run")).containsText("Taken");
        assertThat(first).hasClass("plates");
        assertThat(set.locator("plate-run")).containsText("house only");

        set.locator("#try-looks").click();
        Locator picture = set.locator("look-mixer .picture-frame img");
        assertThat(picture).hasAttribute("alt", "The mix, from plates");
        assertThat(set.locator("look-mixer .counted li").first()).containsText("mid grey");
        String before = counted();
        Locator off = lamp("key").getByText("off");
        off.click();
        assertThat(off).hasAttribute("aria-pressed", "true");
        assertThat(set.locator("look-mixer .counted")).not().hasText(before);
        assertNotEquals(before, counted());

        set.locator("look-mixer .keep input").fill("Key off");
        set.getByText("Put into the order").click();
        assertThat(set.locator("look-mixer .said"))
                .containsText("‘Key off’ is in the running order");

        set.locator("look-cards > button").click();
        Locator cards = set.locator("look-cards li");
        assertThat(set.locator("look-cards > p")).containsText("From plates");
        assertTrue(cards.count() >= 6, cards.count() + " suggestions");
        assertThat(cards.first().locator("img")).hasClass("plates");
        String name = cards.first().locator("h3").textContent();
        cards.first().getByText("Into the order").click();
        assertThat(set.locator("look-mixer .said")).containsText("‘" + name + "’");
        set.locator("look-mixer .back").click();
        assertThat(line("Key off").locator("img")).hasClass("plates");
        assertThat(line(name).locator("img")).hasClass("plates");

        // What was taken is there again after a power cut, and the looks that were put in.
        lookstep.kill();
        set.close();
        start();
        assertThat(set.locator("set-list img").first()).hasClass("plates");
        assertThat(line("Key off")).isVisible();

        // A light that is moved in the plan makes them stale, and it is said.
        set.locator("#edit-plan").click();
        set.getByRole(
                        com.microsoft.playwright.options.AriaRole.TAB,
                        new Page.GetByRoleOptions().setName("Lights"))
                .click();
        Locator metres = set.locator("plan-desk .point input").first();
        metres.fill("-1.2");
        metres.press("Enter");
        set.locator("plan-desk .back").click();
        assertThat(set.locator("set-list img").first()).not().hasClass("plates");
        set.locator("#switches button[value='plates']").click();
        assertThat(set.locator("plate-run"))
                .containsText("the rig was edited since they were taken");
        assertEquals(" ✕", set.locator("#switches button[value='plates'] .mark").textContent());
    }

    private String counted() {
        return set.locator("look-mixer .counted").textContent();
    }

    private Locator lamp(String name) {
        return set.locator("look-mixer .lamp")
                .filter(
                        new Locator.FilterOptions()
                                .setHas(
                                        set.locator(
                                                "h3",
                                                new Page.LocatorOptions()
                                                        .setHasText(
                                                                Pattern.compile(
                                                                        "^" + name + "$")))));
    }

    /** Its name begins with a capital there; text is found in any case. */
    private Locator line(String name) {
        return set.locator("set-list li")
                .filter(new Locator.FilterOptions().setHasText(name))
                .first();
    }
}

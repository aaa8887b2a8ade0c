package lookstep.server.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.microsoft.playwright.options.BoundingBox;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Nothing spills, nothing is too small for a finger, and the picture stays large. */
@Tag("wide")
class RoomTest extends PageCase {
    /** CSS pixels: the enhanced target size of WCAG 2.2, 2.5.5. */
    private static final int FINGER = 44;

    private static final List<String> PANELS =
            List.of("light", "frames", "plot", "shoot", "checks", "test", "links");

    @ParameterizedTest
    @CsvSource({"360, 740", "1024, 768", "1366, 768"})
    void onTheSetPage(int width, int height) {
        page.setViewportSize(width, height);
        for (String sample :
                List.of("crew-changed", "crew-test", "crew-long", "crew-over-time", "crew-cut")) {
            for (String panel : PANELS) {
                open("set", sample, panel);
                assertThat(page.locator("#" + panel)).isVisible();
                assertRoom(sample + " " + panel);
                assertThat(key()).isInViewport();
            }
        }
    }

    @ParameterizedTest
    @CsvSource({"360, 740", "1024, 768", "1366, 768", "844, 390"})
    void onTheNextPage(int width, int height) {
        page.setViewportSize(width, height);
        for (String sample :
                List.of("crew", "crew-work-light", "crew-test", "crew-long", "crew-cut")) {
            for (boolean testing : new boolean[] {false, true}) {
                open("next", sample);
                if (testing && page.locator("#look-through").isHidden()) {
                    continue;
                }
                if (testing) {
                    page.locator("#look-through").click();
                    assertThat(page.locator("rig-test .light").first()).isVisible();
                }
                String where = sample + (testing ? " testing" : "");
                assertRoom(where);
                assertThat(page.locator("#back")).isInViewport();
                BoundingBox box = key().boundingBox();
                assertEquals(height, box.y + box.height, 1, where);
                assertTrue(box.height >= (testing ? 110 : height * 0.5 - 1), where);
            }
        }
    }

    @ParameterizedTest
    @CsvSource({"1024, 768, 0.38", "1366, 768, 0.42"})
    void thePictureStaysLargeWhateverIsBesideIt(int width, int height, double share) {
        page.setViewportSize(width, height);
        for (String panel : PANELS) {
            open("set", "crew-changed", panel);
            page.locator("#large img").waitFor();
            BoundingBox box = page.locator("#large live-picture").boundingBox();
            assertTrue(box.width >= width * share, panel + ": " + box.width);
            assertTrue(box.y + box.height <= height, panel);
        }
    }

    @ParameterizedTest
    @CsvSource({"360, 740", "1024, 768", "1366, 768"})
    void whatIsOpenedForTheTimeAndForASecondJobHasRoomToo(int width, int height) {
        page.setViewportSize(width, height);
        open("set", "crew-cut", "shoot");
        page.locator("job-switch .hire").click();
        assertThat(page.locator("job-switch input[name=client]")).isVisible();
        assertRoom("the form of a second job");
        page.locator("job-switch .hire").click();
        page.locator("order-cut .open").click();
        assertThat(page.locator("order-cut .sheet")).isVisible();
        assertEquals(true, page.evaluate(SPILLS_NOT));
        assertEquals(List.of(), page.evaluate(TOO_SMALL, FINGER));
        assertEquals(List.of(), page.evaluate(WORDS_CUT));
    }

    @Test
    void theKeysOfFourLightsAndOfTheWholeLookAreInReachOnALaptop() {
        page.setViewportSize(1366, 768);
        open("set", "crew");
        for (int i = 0; i < 4; i++) {
            assertThat(page.locator("light-board .keys").nth(i)).isInViewport();
        }
        assertThat(page.locator("light-board .whole")).isInViewport();
        assertThat(page.locator("flashing-caution:visible")).isInViewport();
    }

    @Test
    void theAddressBringsThePanelBack() {
        page.setViewportSize(1024, 768);
        open("set", "crew");
        assertThat(page.locator("light-board")).isVisible();
        assertThat(page.locator("rig-plot")).isHidden();
        page.locator("#switches button[value=plot]").click();
        assertThat(page.locator("rig-plot .lamp")).hasCount(4);
        assertThat(page.locator("light-board")).isHidden();
        page.reload();
        assertThat(page.locator("rig-plot .lamp")).hasCount(4);
        assertThat(page.locator("#switches [aria-pressed=true]")).hasText("Plot");
    }

    // ---- steps of these tests --------------------------------------------------------------

    private void assertRoom(String where) {
        assertEquals(true, page.evaluate(SPILLS_NOT), where);
        assertEquals(List.of(), page.evaluate(TOO_SMALL, FINGER), where);
        assertEquals(List.of(), page.evaluate(OVER_EACH_OTHER), where);
        assertEquals(List.of(), page.evaluate(WORDS_CUT), where);
    }

    private static final String TOO_SMALL =
            """
            (least) => [...document.querySelectorAll('button, summary, input, select, textarea')]
              .map((one) => [one, one.getBoundingClientRect()])
              .filter(([, box]) => box.width > 0)
              .filter(([, box]) => box.width < least - 0.1 || box.height < least - 0.1)
              .map(([one, box]) => `${one.textContent} ${box.width} x ${box.height}`)
            """;

    /**
     * Keys of which a corner lies on another key, as far as both are seen: a box that rolls cuts
     * off what is rolled away, and beneath what sticks to its edge the rest may pass.
     */
    private static final String OVER_EACH_OTHER =
            """
            () => {
              const keys = [...document.querySelectorAll('button, summary, input, select, textarea')]
                .filter((key) => key.closest('step-key') === null)
                .map((key) => [key, seen(key)])
                .filter(([, box]) => box.right > box.left && box.bottom > box.top);
              const bad = [];
              keys.forEach(([a, p], i) => keys.slice(i + 1).forEach(([b, q]) => {
                const w = Math.min(p.right, q.right) - Math.max(p.left, q.left);
                const h = Math.min(p.bottom, q.bottom) - Math.max(p.top, q.top);
                if (w > 1 && h > 1 && sticking(a) === sticking(b)) bad.push(`${a.textContent} / ${b.textContent}`);
              }));
              return bad;
              function seen(one) {
                let { left, top, right, bottom } = one.getBoundingClientRect();
                for (let up = one.parentElement; up !== document.body; up = up.parentElement) {
                  if (getComputedStyle(up).overflow === 'visible') continue;
                  const box = up.getBoundingClientRect();
                  left = Math.max(left, box.left);
                  top = Math.max(top, box.top);
                  right = Math.min(right, box.right);
                  bottom = Math.min(bottom, box.bottom);
                }
                return { left, top, right, bottom };
              }
              function sticking(one) {
                for (let up = one; up !== document.body; up = up.parentElement) {
                  if (getComputedStyle(up).position === 'sticky') return up;
                }
                return null;
              }
            }
            """;

    /** Keys and words that are wider than the room they have. */
    private static final String WORDS_CUT =
            """
            () => [...document.querySelectorAll(
                'button, .top, header, header > *, #switches, light-board, rig-test, now-shot, .aside')]
              .filter((one) => one.clientWidth > 0 && one.scrollWidth > one.clientWidth + 1)
              .map((one) => `${one.tagName} ${one.className} ${one.textContent.trim()}`)
            """;
}

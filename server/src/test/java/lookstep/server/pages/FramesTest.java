package lookstep.server.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.WebSocketRoute;
import java.util.List;
import lookstep.server.pages.RecordingServer.Answer;
import lookstep.server.pages.RecordingServer.Call;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Keep it or not, what the band sees, which shot it is of, at full size. */
class FramesTest extends PageCase {
    @BeforeEach
    void onALaptop() {
        page.setViewportSize(1280, 800);
    }

    private Locator judge() {
        return page.locator("frame-judge");
    }

    private Locator facts() {
        return page.locator("frame-facts");
    }

    private Locator inTheRow(int number) {
        return page.locator("frame-strip [data-number='" + number + "'] button");
    }

    @Test
    void whatIsWrongWithTheNewestFrameStandsBesideIt() {
        open("set", "crew-long");
        assertThat(judge().locator(".wrong")).containsText("0.25 m is sharp; f/8 holds them");
        assertThat(judge().locator(".look")).containsText("much like frame 2 (difference 1.8)");
    }

    @Test
    void oneKeyKeepsAndTheSameKeyTakesItBack() {
        ObjectNode message = sample("crew-long");
        ((ObjectNode) message.get("frame")).put("mark", "none");
        ObjectNode first = (ObjectNode) message.get("frames").get(0);
        first.put("mark", "none");
        server.answer(
                call -> {
                    boolean kept = call.body().contains("keep");
                    ((ObjectNode) message.get("frame")).put("mark", kept ? "kept" : "none");
                    first.put("mark", kept ? "kept" : "none");
                    message.put("revision", message.get("revision").asLong() + 1);
                    return new Answer(200, message.toString());
                });
        live("set", message);
        page.keyboard().press("k");
        waitForCalls(1);
        assertEquals(
                new Call("/frame", "{\"number\":9,\"do\":\"keep\"}", "1"), server.calls.get(0));
        Locator keep = judge().getByText("Keep");
        assertThat(keep).hasAttribute("aria-pressed", "true");
        page.keyboard().press("k");
        waitForCalls(2);
        assertEquals("{\"number\":9,\"do\":\"unmark\"}", server.calls.get(1).body());
        assertThat(keep).hasAttribute("aria-pressed", "false");
        page.keyboard().press("x");
        waitForCalls(3);
        assertEquals("{\"number\":9,\"do\":\"out\"}", server.calls.get(2).body());
    }

    @Test
    void aHeldKeyIsOnePress() {
        open("set", "crew-long");
        page.keyboard().down("x");
        page.keyboard().down("x");
        page.keyboard().down("x");
        page.keyboard().up("x");
        waitForCalls(1);
        assertEquals(1, posts());
    }

    @Test
    void anotherFrameIsLookedAtWhileNewOnesCome() {
        ObjectNode message = sample("crew-long");
        WebSocketRoute line = live("set", message);
        page.locator("#switches [value=frames]").click();
        inTheRow(4).click();
        assertThat(page.locator("figcaption")).containsText("photograph 4");
        assertThat(inTheRow(4)).hasAttribute("aria-pressed", "true");

        ObjectNode next = message.deepCopy();
        next.put("revision", message.get("revision").asLong() + 1);
        ObjectNode tenth = next.withObject("/frame").deepCopy();
        tenth.put("number", 10);
        next.set("frame", tenth);
        ((ArrayNode) next.get("frames")).insert(0, tenth);
        line.send(next.toString());
        inTheRow(10).waitFor();
        assertThat(page.locator("figcaption")).containsText("photograph 4");
        page.keyboard().press("k");
        waitForCalls(1);
        assertTrue(server.calls.get(0).body().startsWith("{\"number\":4,"), bodies().toString());

        judge().getByText("To the newest").click();
        assertThat(page.locator("figcaption")).containsText("photograph 10");
        assertThat(judge().getByText("To the newest")).isHidden();
    }

    @Test
    void theBandSeesAllOrKeptOrWhatItSaw() {
        open("set", "crew-over-time", "frames");
        assertThat(facts().getByText("Hold", new Locator.GetByTextOptions().setExact(true)))
                .hasAttribute("aria-pressed", "true");
        assertThat(page.locator("#switches [value=frames]")).hasText("Frames ‖");
        facts().getByText("Kept", new Locator.GetByTextOptions().setExact(true)).click();
        waitForCalls(1);
        assertEquals(new Call("/show", "{\"show\":\"kept\"}", "1"), server.calls.get(0));
    }

    @Test
    void aFrameIsMovedToAnotherShot() {
        open("set", "crew-long", "frames");
        List<String> options = facts().locator("option").allTextContents();
        assertEquals("no shot", options.get(0));
        assertEquals(11, options.size());
        facts().locator("select").selectOption(options.get(2));
        waitForCalls(1);
        assertTrue(
                server.calls.get(0).body().startsWith("{\"number\":9,\"do\":\"belongs\",\"shot\":"),
                bodies().toString());
        // the keys of the set are not the select's from then on
        page.keyboard().press("k");
        waitForCalls(2);
    }

    @Test
    void atFullSizeTheKeysMoveThePictureAndNotTheLights() {
        live("set", sample("crew-long"));
        page.keyboard().press("z");
        Locator dialog = page.locator("full-size dialog");
        assertThat(dialog).isVisible();
        page.keyboard().press("ArrowRight");
        page.keyboard().press("ArrowUp");
        page.waitForCondition(
                () ->
                        requests.stream()
                                .anyMatch(
                                        r ->
                                                r.endsWith(
                                                        "/originals/9.jpg?x=0.6200&y=0.3800&w=1280&h=800")));
        page.keyboard().press("1");
        page.keyboard().press("k");
        page.keyboard().press(" ");
        assertEquals(0, posts());
        page.keyboard().press("Escape");
        assertThat(dialog).isHidden();
    }

    @Test
    void aTapOnThePictureOpensThatPlaceAtFullSize() {
        live("set", sample("crew-long"));
        Locator picture = page.locator("#large live-picture img");
        picture.waitFor();
        var box = picture.boundingBox();
        // the picture is 3:2 and stands in the middle of its box, or fills it
        double width = Math.min(box.width, box.height * 1.5);
        double left = box.x + (box.width - width) / 2;
        page.mouse().click(left + width / 4, box.y + box.height / 2);
        page.waitForCondition(
                () -> requests.stream().anyMatch(r -> r.contains("/originals/9.jpg?x=0.2")));
        page.mouse().click(640, 400);
        assertThat(page.locator("full-size dialog")).isHidden();
    }

    @Test
    void whatTheCameraRefusesIsToBeDoneByHandAndSaidOnBothPages() {
        open("set", "crew-long");
        assertThat(page.locator("camera-settings")).containsText("set 3000 K on the camera");
        open("next", "crew-long");
        assertThat(page.locator("#by-hand")).containsText("set 3000 K on the camera");
    }

    @Test
    void whatACamerasClockIsOffByStandsAmongTheLinks() {
        open("set", "crew-long", "links");
        assertThat(page.locator("link-states")).containsText("its clock is 2 h 3 min ahead");
    }

    /** A burst pushes the frame out of the message while the photographer looks at it. */
    @Test
    void aFrameThatIsLookedAtStaysUnderTheKeyWhenTheMessageHasNoRoomForIt() {
        ObjectNode message = sample("crew-long");
        WebSocketRoute line = live("set", message);
        page.locator("#switches [value=frames]").click();
        inTheRow(2).click();
        ObjectNode next = message.deepCopy();
        next.put("revision", message.get("revision").asLong() + 1);
        ArrayNode all = (ArrayNode) next.get("frames");
        while (all.size() > 3) {
            all.remove(all.size() - 1);
        }
        line.send(next.toString());
        page.locator("frame-strip .all").waitFor();
        assertThat(page.locator("figcaption")).containsText("photograph 2");
        page.keyboard().press("x");
        waitForCalls(1);
        assertTrue(server.calls.get(0).body().startsWith("{\"number\":2,"), bodies().toString());
    }

    @Test
    void aHeldArrowAsksForOnePartAtATime() {
        live("set", sample("crew-long"));
        java.util.concurrent.CountDownLatch held = server.holdOriginals();
        page.keyboard().press("z");
        for (int i = 0; i < 6; i++) {
            page.keyboard().press("ArrowRight");
        }
        assertEquals(1, requests.stream().filter(r -> r.contains("/originals/")).count());
        held.countDown();
        page.waitForCondition(
                () -> requests.stream().anyMatch(r -> r.contains("/originals/9.jpg?x=1.0000")));
        assertEquals(2, requests.stream().filter(r -> r.contains("/originals/")).count());
    }
}

package lookstep.server.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Route;
import com.microsoft.playwright.WebSocketRoute;
import com.microsoft.playwright.options.BoundingBox;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicReference;
import lookstep.server.pages.RecordingServer.Answer;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The plan changed on the desk over the set page: what is sent, and what is shown meanwhile. */
class PlanDeskTest extends PageCase {
    /** CSS pixels: the enhanced target size of WCAG 2.2, 2.5.5. */
    private static final int FINGER = 44;

    @BeforeEach
    void onALaptop() {
        page.setViewportSize(1366, 768);
    }

    // ---- room --------------------------------------------------------------------------------

    @ParameterizedTest
    @CsvSource({"390, 844", "1024, 768", "1366, 768"})
    void everyTabHasRoomForFingersAndWords(int width, int height) {
        page.setViewportSize(width, height);
        openDesk();
        for (String tab : List.of("People", "Place", "Lights", "Looks", "Shots")) {
            tab(tab);
            int entries = page.locator("plan-desk .choose").count();
            assertTrue(entries > 0, tab);
            for (int i = 0; i < entries; i++) {
                page.locator("plan-desk .choose").nth(i).click();
                String where = tab + " " + i;
                assertEquals(List.of(), page.evaluate(TOO_SMALL, FINGER), where);
                assertEquals(List.of(), page.evaluate(OVER_EACH_OTHER), where);
                assertEquals(List.of(), page.evaluate(WORDS_CUT), where);
            }
        }
    }

    @Test
    void thereIsAVisibleWayBack() {
        openDesk();
        page.locator("plan-desk .back").click();
        assertThat(page.locator("plan-desk dialog")).isHidden();
        assertThat(page.locator("light-board")).isVisible();
    }

    // ---- what is sent --------------------------------------------------------------------------

    @Test
    void pressesWhileOneIsOnItsWayAddUpToOneEdit() {
        openDesk();
        tab("Looks");
        Locator rim = page.locator("plan-desk .lamp").nth(2);
        CountDownLatch gate = server.hold();
        for (int i = 0; i < 4; i++) {
            rim.getByLabel("Stops against the key more").click();
        }
        assertThat(exactly(rim, "Stops against the key")).hasValue("+1.7");
        waitForCalls(1);
        gate.countDown();
        waitForCalls(2);
        String path = "['looks',{'name':'safe'},'lights','rim','stops']";
        assertSent(0, "[{'op':'set','path':" + path + ",'was':0.5,'value':0.7}]");
        assertSent(1, "[{'op':'set','path':" + path + ",'was':0.7,'value':1.7}]");
        assertEquals("safe, rim, stops: 0.7 is now 1.7", sent(1).get("says").asText());
    }

    @Test
    void aFieldIsSentWhenItIsLeftAndNotBefore() {
        openDesk();
        Locator plays = exactly(form(), "Plays");
        plays.fill("congas");
        assertEquals(0, posts());
        plays.press("Tab");
        waitForCalls(1);
        assertSent(
                0,
                "[{'op':'set','path':['people',{'name':'Ines'},'plays'],'was':'drums','value':'congas'}]");
    }

    @Test
    void aLightIsRenamedWhereverItIsNamed() {
        openDesk();
        tab("Lights");
        page.locator("plan-desk .choose").nth(3).click();
        write("Name", "sky");
        waitForCalls(1);
        StringBuilder renames = new StringBuilder();
        for (String look : List.of("safe", "warm front, cold back", "colour", "top only")) {
            renames.append("{'op':'rename','path':['looks',{'name':'").append(look);
            renames.append("'},'lights','top'],'value':'sky'},");
        }
        assertSent(
                0,
                "["
                        + renames
                        + "{'op':'set','path':['place','circuits',{'name':'wall right'},'lights'],"
                        + "'was':['fill','top'],'value':['fill','sky']},"
                        + "{'op':'set','path':['rig',{'name':'top'},'name'],'was':'top','value':'sky'}]");
    }

    @Test
    void aLampIsWrittenOnceWhenItIsLetGoAndLiesOnTenths() {
        openDesk();
        tab("Lights");
        BoundingBox box = lamp("key").boundingBox();
        double x = box.x + box.width / 2;
        double y = box.y + box.height / 2;
        page.mouse().move(x, y);
        page.mouse().down();
        page.mouse().move(x - 30, y - 11);
        page.mouse().move(x - 47, y + 23);
        assertEquals(0, posts());
        page.mouse().up();
        waitForCalls(1);
        JsonNode edit = sent(0).get("edits").get(0);
        assertEquals(json("['rig',{'name':'key'},'position']"), edit.get("path"));
        assertEquals(json("[-1.9,-1.7,2.3]"), edit.get("was"));
        double toX = edit.get("value").get(0).asDouble();
        double toY = edit.get("value").get(1).asDouble();
        assertTrue(toX < -2.4 && toY < -1.8, edit.toString());
        assertEquals(Math.round(toX * 10) / 10.0, toX);
        assertEquals(Math.round(toY * 10) / 10.0, toY);
        assertEquals(2.3, edit.get("value").get(2).asDouble());
    }

    @Test
    void arrowsMoveALampByATenthAndItKeepsTheFocus() {
        openDesk();
        tab("Lights");
        lamp("rim").focus();
        page.keyboard().press("ArrowUp");
        waitForCalls(1);
        assertSent(
                0,
                "[{'op':'set','path':['rig',{'name':'rim'},'position'],'was':[-3.2,1.6,2.7],'value':[-3.2,1.7,2.7]}]");
        assertThat(lamp("rim")).isFocused();
    }

    @Test
    void peopleAreTappedInOrderAndTheRowsFitThem() {
        openDesk();
        tab("Shots");
        page.locator("plan-desk .choose").nth(3).click();
        form().getByText("Tap anew").click();
        for (String name : List.of("Petra", "Ines", "Quill")) {
            form().locator(".names .row").first().getByText(name).click();
        }
        assertEquals(0, posts());
        form().getByText("Use these").click();
        waitForCalls(1);
        String shot = "'path':['shots',{'id':'tight-five'},";
        assertSent(
                0,
                "[{'op':'set',"
                        + shot
                        + "'people'],'was':['Ines','Tovah','Quill','Marlo','Petra'],'value':['Petra','Ines','Quill']},"
                        + "{'op':'set',"
                        + shot
                        + "'arrangement'],'was':'rows 2-3','value':'rows 1-2'}]");
    }

    @Test
    void shotsAreMovedByKeysAndByTheirGrip() {
        openDesk();
        tab("Shots");
        page.locator("plan-desk .choose").nth(2).press("Alt+ArrowDown");
        waitForCalls(1);
        assertSent(0, "[{'op':'move','path':['shots',{'id':'warm-front'}],'index':3}]");
        BoundingBox grip = page.locator("plan-desk .grip").nth(1).boundingBox();
        BoundingBox to = page.locator("plan-desk .entries li").nth(4).boundingBox();
        page.mouse().move(grip.x + 20, grip.y + 20);
        page.mouse().down();
        page.mouse().move(grip.x + 20, to.y + 20);
        page.mouse().up();
        waitForCalls(2);
        assertSent(1, "[{'op':'move','path':['shots',{'id':'two-off'}],'index':4}]");
    }

    @Test
    void aSecondPlaceMakesOnePlaceAListOfThem() {
        openDesk();
        tab("Place");
        page.locator("plan-desk [data-what=add]").click();
        waitForCalls(1);
        JsonNode edits = sent(0).get("edits");
        assertEquals(json("['places']"), edits.get(0).get("path"));
        assertEquals("the Brine Loft", edits.get(0).get("value").get(0).get("name").asText());
        assertEquals(2, edits.get(0).get("value").size());
        assertEquals(json("['place']"), edits.get(1).get("path"));
        assertEquals("remove", edits.get(1).get("op").asText());
    }

    @Test
    void undoAndRedoAreKeysAndTheirWordsAreOnThem() {
        ObjectNode plan = sample("plan");
        plan.put("undo", "two lights off, rim: stops 1 is now 1.3");
        plan.put("redo", "fill removed");
        fulfil("plan", plan);
        openDesk();
        assertThat(page.locator("plan-desk header"))
                .containsText("Undo: two lights off, rim: stops 1");
        page.keyboard().press("Control+z");
        page.keyboard().press("Control+Shift+Z");
        waitForCalls(2);
        assertEquals(List.of("{\"undo\":true}", "{\"redo\":true}"), bodies());
        assertEquals("1", server.calls.get(0).mark());
    }

    // ---- what is shown meanwhile
    // ------------------------------------------------------------------

    @Test
    void whatIsRefusedIsSaidAtTheFieldAndAtTheTopAndTheFieldGoesBack() {
        server.answer(
                call -> new Answer(422, "{\"says\":\"two lights are called key: name one anew\"}"));
        openDesk();
        tab("Lights");
        page.locator("plan-desk .choose").nth(1).click();
        write("Name", "key");
        String words = "Not done: two lights are called key: name one anew";
        assertThat(page.locator("plan-desk .plan-says")).containsText(words);
        assertThat(form().locator(".refusal:not(:empty)")).hasText(words);
        assertThat(exactly(form(), "Name")).hasValue("fill");
        assertThat(page.locator("plan-desk .chosen .name")).hasText("fill");
    }

    @Test
    void whatIsBeingTypedStaysWhenThePlanIsChangedElsewhere() {
        AtomicReference<ObjectNode> plan = new AtomicReference<>(sample("plan"));
        page.route(
                "**/plan",
                route ->
                        route.fulfill(
                                new Route.FulfillOptions()
                                        .setContentType("application/json")
                                        .setBody(plan.get().toString())));
        ObjectNode message = sample("crew");
        message.putObject("plan").put("revision", 12);
        WebSocketRoute line = live("set", message);
        page.locator("#edit-plan").click();
        Locator plays = exactly(form(), "Plays");
        plays.fill("con");
        ObjectNode changed = sample("plan");
        changed.put("revision", 13);
        ObjectNode ines = (ObjectNode) changed.at("/document/people/0");
        ines.put("height", 1.5).put("plays", "cowbell");
        plan.set(changed);
        message.put("revision", 100);
        message.withObject("/plan").put("revision", 13);
        line.send(message.toString());
        assertThat(exactly(form(), "Height, metres")).hasValue("1.5");
        assertThat(plays).hasValue("con");
        plays.press("Escape");
        assertThat(plays).hasValue("cowbell");
        assertThat(page.locator("plan-desk dialog")).isVisible();
    }

    @Test
    void thePictureIsThatOfTheShotAndOfTheRevision() {
        page.route(
                "**/plan",
                route ->
                        route.fulfill(
                                new Route.FulfillOptions()
                                        .setContentType("application/json")
                                        .setBody(sample("plan").toString())));
        live("set", sample("crew"));
        page.locator("#edit-plan").click();
        tab("Shots");
        page.locator("plan-desk .choose").nth(8).click();
        page.waitForCondition(
                () ->
                        requests.stream()
                                .anyMatch(r -> r.contains("/prediction/solo-ines.jpg?v=1-")));
        page.locator("plan-desk .choose").nth(1).click();
        page.waitForCondition(
                () -> requests.stream().anyMatch(r -> r.contains("/prediction/two-off.jpg?v=1-")));
        // No picture comes here, and that is to be seen.
        assertThat(page.locator("plan-desk .computing")).isVisible();
    }

    @Test
    void theKeysOfThePageBelowRest() {
        openDesk();
        page.locator("plan-desk h2").click();
        for (String key : List.of("PageDown", "a", "u", "1", "ArrowUp", "Backspace")) {
            page.keyboard().press(key);
        }
        tab("Shots");
        for (String key : List.of("PageDown", "a", "PageUp", "Backspace")) {
            page.keyboard().press(key);
        }
        assertEquals(0, posts());
        page.locator("plan-desk .back").click();
        page.keyboard().press("PageDown");
        waitForCalls(1);
        assertFalse(server.calls.get(0).path().equals("/plan"));
    }

    // ---- steps of these tests ------------------------------------------------------------------

    private void openDesk() {
        open("set", "crew");
        page.locator("#edit-plan").click();
        page.locator("plan-desk .choose").first().waitFor();
    }

    private void tab(String words) {
        page.locator("plan-desk [role=tab]")
                .filter(new Locator.FilterOptions().setHasText(words))
                .click();
    }

    private Locator form() {
        return page.locator("plan-desk .form-room");
    }

    private static Locator exactly(Locator inside, String label) {
        return inside.getByLabel(label, new Locator.GetByLabelOptions().setExact(true)).first();
    }

    private void write(String label, String text) {
        Locator field = exactly(form(), label);
        field.fill(text);
        field.press("Enter");
    }

    private Locator lamp(String name) {
        return page.locator("plan-plot .hold[aria-label^='" + name + " stands']");
    }

    private JsonNode sent(int index) {
        assertEquals("/plan", server.calls.get(index).path());
        return json(server.calls.get(index).body());
    }

    /** Single quotes stand for double ones. */
    private void assertSent(int index, String edits) {
        assertEquals(json(edits), sent(index).get("edits"));
    }

    private static JsonNode json(String text) {
        try {
            return JSON.readTree(text.indexOf('"') >= 0 ? text : text.replace('\'', '"'));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static final String TOO_SMALL =
            """
            (least) => [...document.querySelectorAll('plan-desk :is(button, input, select, textarea)')]
              .map((one) => [one, one.getBoundingClientRect()])
              .filter(([, box]) => box.width > 0)
              .filter(([, box]) => box.width < least - 0.1 || box.height < least - 0.1)
              .map(([one, box]) => `${one.textContent} ${box.width} x ${box.height}`)
            """;

    private static final String OVER_EACH_OTHER =
            """
            () => {
              const keys = [...document.querySelectorAll('plan-desk :is(button, input, select, textarea)')]
                .map((key) => [key, key.getBoundingClientRect()])
                .filter(([, box]) => box.width > 0);
              const bad = [];
              keys.forEach(([a, p], i) => keys.slice(i + 1).forEach(([b, q]) => {
                const w = Math.min(p.right, q.right) - Math.max(p.left, q.left);
                const h = Math.min(p.bottom, q.bottom) - Math.max(p.top, q.top);
                if (w > 1 && h > 1 && roll(a) === roll(b)) bad.push(`${a.textContent} / ${b.textContent}`);
              }));
              return bad;
              function roll(one) {
                return one.closest('.entries ol, .form-room, .tab-line');
              }
            }
            """;

    /** Boxes that are narrower than what is in them; what is chosen in a list, by its letters. */
    private static final String WORDS_CUT =
            """
            () => {
              const boxes = [...document.querySelectorAll('plan-desk :is(button, header, .tab-line, '
                  + '.form-room, .fields, .field, .lamp, ol, aside, dialog)')]
                .filter((one) => one.clientWidth > 0 && one.scrollWidth > one.clientWidth + 1)
                .map((one) => `${one.tagName} ${one.className} ${one.textContent.trim()}`);
              const pen = document.createElement('canvas').getContext('2d');
              const choices = [...document.querySelectorAll('plan-desk .form-room select')]
                .filter((one) => one.clientWidth > 0)
                .filter((one) => {
                  const { font, paddingLeft } = getComputedStyle(one);
                  pen.font = font;
                  const words = one.selectedOptions[0]?.textContent ?? '';
                  // The arrow takes about twice as much as the padding.
                  return pen.measureText(words).width + parseFloat(paddingLeft) * 3 > one.clientWidth;
                })
                .map((one) => `choice ${one.selectedOptions[0].textContent}`);
              return [...boxes, ...choices];
            }
            """;
}

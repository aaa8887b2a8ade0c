package lookstep.server.end;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static lookstep.server.end.Lookstep.until;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.microsoft.playwright.Browser.NewContextOptions;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Person;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.file.NewPlan;
import lookstep.server.plan.file.PlanReader;
import lookstep.server.plan.file.PlanReading;
import lookstep.simulator.model.scene.Arrangement;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A photographer who writes no YAML: from the least plan there is to a shoot that is cut short,
 * with the program as it is packaged and Chromium before its pages.
 */
class ShootFromNothingIT {
    private static final double NOT_A_DOUBLE_TAP_MILLIS = 300;
    private static final double PATIENCE_MILLIS = 30_000;
    private static final String PHOTOGRAPH = "#large img[alt^='Photograph %d,']";

    @TempDir Path dir;

    private Path plan;
    private Lookstep lookstep;
    private Playwright playwright;
    private com.microsoft.playwright.Browser chromium;
    private Page set;
    private Page next;

    @BeforeEach
    void rehearseTheLeastPlan() throws IOException {
        plan = Files.writeString(dir.resolve("evening.shoot.yaml"), NewPlan.text());
        PlaywrightAssertions.setDefaultAssertionTimeout(PATIENCE_MILLIS);
        playwright = Browser.playwright();
        chromium = Browser.chromium(playwright);
        start();
    }

    @AfterEach
    void takeDown() {
        lookstep.close();
        chromium.close();
        playwright.close();
    }

    private void start() throws IOException {
        lookstep = Lookstep.start(dir, "rehearse", plan.toString(), "--http", "127.0.0.1:0");
        set = open(lookstep.link(1), 1366, 768);
        next = open(lookstep.link(0), 390, 844);
    }

    private Page open(String link, int width, int height) {
        Page page =
                chromium.newContext(new NewContextOptions().setViewportSize(width, height))
                        .newPage();
        page.setDefaultTimeout(PATIENCE_MILLIS);
        page.navigate(link);
        page.locator("step-key .name:not(:empty)").waitFor();
        return page;
    }

    @Test
    void aPlanIsEnteredRehearsedCutShortAndThereAgainAfterAPowerCut() throws IOException {
        set.locator("#edit-plan").click();
        enterPeople();
        enterLights();
        enterLooks();
        enterShots();
        set.locator("plan-desk .back").click();
        assertEquals(
                List.of("Ines alone", "All in a V", "All in a W", "Two and two", "Edges"), order());

        step(1, "Ines alone");
        set.keyboard().press("k");
        assertThat(line("Ines alone")).containsText("in the bag, 1 frame");
        assertLightAndDark(1);

        List<String> out = lessTime();
        solos(out);
        secondJob();

        assertWritten();
        assertAllIsThereAfterAPowerCut();
    }

    // ---- the plan -----------------------------------------------------------------------------

    private void enterPeople() {
        tab("People");
        write("Name", "Ines");
        done("First is now Ines");
        write("Plays", "drums");
        done("Ines, plays");
        for (String name : List.of("Marlo", "Petra", "Quill")) {
            add("a person more");
            write("Name", name);
            done("is now " + name);
        }
        write("Height, metres", "1.88");
        done("Quill, height");
    }

    private void enterLights() {
        tab("Lights");
        for (String name : List.of("fill", "rim")) {
            add("a light more");
            write("Name", name);
            done("is now " + name);
        }
        Locator place = desk().locator(".point").first();
        write(place, "to the right", "1.8");
        done("is now 1.8, -2, 2.3");
        write(place, "behind the front row", "1.4");
        done("is now 1.8, 1.4, 2.3");
    }

    private void enterLooks() {
        tab("Looks");
        lamp("fill").locator("button[value=stops]").click();
        done("safe, fill: not there is now stops 0");
        write(lamp("fill"), "Stops against the key", "-1");
        done("safe, fill, stops: 0 is now -1");
        add("a look more");
        write("Name", "rim only");
        done("look is now rim only");
        lamp("rim").locator("button[value='percent']").click();
        done("rim only, rim: not there is now percent 100");
        lamp("key").locator("button[value='off']").click();
        done("rim only, key: percent 100 is now not there");
        lamp("rim").locator("button[value=hue]").click();
        done("hue 240");
    }

    private void enterShots() {
        tab("Shots");
        write("Name", "Ines alone");
        done("Safe solo is now Ines alone");
        shot("All in a V", "v near");
        write("To the nearest face, m", "4.2");
        done("distance: 3 is now 4.2");
        write("Lens, mm", "35");
        done("lens: 85 is now 35");
        shot("All in a W", "w");
        write("Seconds it takes", "150");
        done("seconds: not there is now 150");
        shot("Two and two", "rows");
        write("What to say to them, a line each", "Two in front\nBreathe out");
        done("Two and two, say");
        shot("Edges", "line");
        exactly(form(), "Look").selectOption("rim only");
        done("look: safe is now rim only");
    }

    private void shot(String name, String shape) {
        add("a shot more");
        write("Name", name);
        done("is now " + name);
        Locator key = form().locator(".shapes button[value='" + shape + "']");
        if (!"true".equals(key.getAttribute("aria-pressed"))) {
            key.click();
            done(name + ", arrangement");
        }
        assertThat(key).hasAttribute("aria-pressed", "true");
    }

    private Locator desk() {
        return set.locator("plan-desk");
    }

    private Locator form() {
        return desk().locator(".form-room");
    }

    private void tab(String words) {
        desk().locator("[role=tab]").filter(new Locator.FilterOptions().setHasText(words)).click();
        assertThat(desk().locator("[role=tab][aria-selected=true]")).hasText(words);
    }

    private void add(String says) {
        desk().locator("[data-what=add]").click();
        done(says);
    }

    private static Locator exactly(Locator inside, String label) {
        return inside.getByLabel(label, new Locator.GetByLabelOptions().setExact(true)).first();
    }

    private void write(String label, String text) {
        write(form(), label, text);
    }

    /** A field is sent when it is left. */
    private static void write(Locator inside, String label, String text) {
        Locator field = exactly(inside, label);
        field.fill(text);
        field.blur();
    }

    private Locator lamp(String name) {
        return form().locator(".lamp")
                .filter(
                        new Locator.FilterOptions()
                                .setHas(set.locator("h4:text-is('" + name + "')")));
    }

    /** The server has written it: only it knows what can be undone. */
    private void done(String says) {
        Locator undo = desk().locator("header button:text-matches('^Undo')");
        until(
                "this can be undone: " + says,
                () -> undo.getAttribute("title").contains(says),
                () -> "It is " + undo.getAttribute("title") + "; " + refusals());
        assertThat(desk().locator(".plan-says.failed")).hasCount(0);
    }

    private String refusals() {
        return desk().locator(".plan-says").innerText();
    }

    // ---- the shoot ----------------------------------------------------------------------------

    /** A person's press: not so soon after the one before that the page takes it for the same. */
    private void step(int photograph, String shot) {
        set.waitForTimeout(NOT_A_DOUBLE_TAP_MILLIS);
        set.keyboard().press("PageDown");
        assertThat(set.locator("now-shot .name")).hasText(shot);
        assertThat(next.locator("now-shot .name")).hasText(shot);
        set.locator(PHOTOGRAPH.formatted(photograph)).waitFor();
        assertThat(set.locator("#large figcaption")).containsText(shot);
    }

    /** It is a photograph: neither grey all over nor a stand-in. */
    private void assertLightAndDark(int photograph) throws IOException {
        Object spread =
                set.locator(PHOTOGRAPH.formatted(photograph))
                        .evaluate(
                                """
                                (img) => {
                                  const c = document.createElement('canvas');
                                  c.width = img.naturalWidth; c.height = img.naturalHeight;
                                  const g = c.getContext('2d');
                                  g.drawImage(img, 0, 0);
                                  const d = g.getImageData(0, 0, c.width, c.height).data;
                                  let least = 255, most = 0;
                                  for (let i = 0; i < d.length; i += 4) {
                                    least = Math.min(least, d[i + 1]);
                                    most = Math.max(most, d[i + 1]);
                                  }
                                  return most - least;
                                }
                                """);
        assertTrue(((Number) spread).intValue() > 60, "levels of green: " + spread);
        assertEquals(photograph, originals());
    }

    private long originals() throws IOException {
        try (Stream<Path> files = Files.list(dir.resolve("evening.rehearsal").resolve("frames"))) {
            return files.filter(f -> f.toString().endsWith(".JPG")).count();
        }
    }

    /** Two minutes are left: returns what is left out. */
    private List<String> lessTime() {
        set.keyboard().press("t");
        set.locator("order-cut .spans button:has-text('2 min')").click();
        assertThat(set.locator("order-cut .brief")).containsText("Re-cut to 2 min");
        assertThat(set.locator("order-cut .fit")).containsText("fits");
        set.keyboard().press("t");
        List<String> out = leftOut();
        List<String> in = order();
        assertFalse(out.isEmpty(), "all of " + in + " in two minutes");
        assertTrue(out.contains("All in a W"), "the one that takes longer alone: " + out);
        List<String> all = new ArrayList<>(in);
        all.addAll(out);
        assertEquals(5, all.size());
        assertEquals("Ines alone", in.get(0));
        String of = "1 of " + in.size();
        assertThat(set.locator("now-shot .count")).hasText(of);
        assertThat(next.locator("now-shot .count")).hasText(of);
        assertThat(next.locator("step-key .name")).hasText(in.get(1));
        String clock = set.locator("shoot-clock").innerText();
        assertTrue(clock.matches("(?s)(2:00|1:[3-5]\\d).*"), clock);
        return out;
    }

    private void solos(List<String> out) {
        assertThat(set.locator("solo-round .who")).hasText("no solo: Marlo, Petra, Quill");
        set.keyboard().press("s");
        assertThat(set.locator("step-key .name")).hasText("Solo, Marlo");
        assertThat(next.locator("step-key .name")).hasText("Solo, Marlo");
        assertEquals(
                List.of("Ines alone", "Solo, Marlo", "Solo, Petra", "Solo, Quill"),
                order().subList(0, 4));
        assertEquals(out, leftOut());
        step(2, "Solo, Marlo");
        assertThat(set.locator("solo-round .who")).hasText("no solo: Petra, Quill");
    }

    /** Ten minutes after all: with them a second client's shot fits where it is wanted. */
    private void moreTime() {
        set.keyboard().press("t");
        set.locator("order-cut .spans button:has-text('10 min')").click();
        assertThat(set.locator("order-cut .brief")).containsText("Re-cut to 10 min");
        set.keyboard().press("t");
        assertEquals(List.of(), leftOut());
    }

    private void secondJob() {
        moreTime();
        set.locator("#switches button[value=shoot]").click();
        set.locator("job-switch .hire").click();
        set.locator("job-switch input[name=client]").fill("the Harbour Weekly");
        set.locator("job-switch input[name=promised]").fill("a cover");
        set.locator("job-switch .go").click();
        assertThat(set.locator("job-switch[brief]")).containsText("For the Harbour Weekly");
        assertThat(set.locator("step-key .name")).hasText("Ines alone, for the Harbour Weekly");
        step(3, "Ines alone, for the Harbour Weekly");
        assertThat(theirs()).containsText("a cover; 0 of 1 in the bag, 1 frame");
        set.keyboard().press("k");
        assertThat(theirs()).containsText("1 of 1 in the bag, 1 frame");
    }

    private Locator theirs() {
        return set.locator("#shoot job-switch li:has-text('the Harbour Weekly')");
    }

    private Locator line(String shot) {
        return set.locator("set-list li")
                .filter(
                        new Locator.FilterOptions()
                                .setHas(set.locator(".name:text-is('" + shot + "')")));
    }

    private List<String> order() {
        return set.locator("set-list > ol .name").allInnerTexts();
    }

    private List<String> leftOut() {
        return set.locator("set-list section .name").allInnerTexts();
    }

    // ---- what stays ---------------------------------------------------------------------------

    private void assertWritten() throws IOException {
        String text = Files.readString(plan);
        String head = NewPlan.text().substring(0, NewPlan.text().indexOf("people:"));
        assertEquals(head, text.substring(0, text.indexOf("people:")), "nobody touched that");
        for (String comment :
                List.of(
                        "# Set the light to this mode and to its first slot, as on its own display.",
                        "   # front left",
                        "# In the order to be made. The safe shot must exist before any other.")) {
            assertTrue(text.contains(comment), comment + " in\n" + text);
        }
        ShootPlan read =
                ((PlanReading.Good) new PlanReader(GenericFixtures.all()).read(plan)).plan();
        assertEquals(
                List.of("Ines", "Marlo", "Petra", "Quill"),
                read.people().stream().map(Person::name).toList());
        assertEquals("drums", read.people().get(0).part());
        assertEquals(1.88, read.people().get(3).heightMetres());
        assertEquals(List.of("key", "fill", "rim"), read.rig().stream().map(Light::name).toList());
        assertEquals(1.8, read.rig().get(2).position().x());
        assertEquals(1.4, read.rig().get(2).position().y());
        assertEquals(List.of("safe", "rim only"), read.looks().stream().map(Look::name).toList());
        assertEquals(
                List.of("Ines alone", "All in a V", "All in a W", "Two and two", "Edges"),
                read.shots().stream().map(Shot::name).toList());
        assertEquals(
                List.of(
                        Arrangement.Kind.SOLO,
                        Arrangement.Kind.WEDGE,
                        Arrangement.Kind.ZIGZAG,
                        Arrangement.Kind.ROWS,
                        Arrangement.Kind.LINE),
                read.shots().stream().map(s -> s.arrangement().kind()).toList());
        assertTrue(read.shots().get(0).safe());
        assertEquals(List.of("Ines"), read.shots().get(0).people());
        assertEquals(4, read.shots().get(1).people().size());
        assertEquals(150, read.shots().get(2).use().seconds());
        assertEquals(List.of("Two in front", "Breathe out"), read.shots().get(3).say());
        assertEquals("rim only", read.shots().get(4).look());
    }

    private void assertAllIsThereAfterAPowerCut() throws IOException {
        List<String> order = order();
        List<String> out = leftOut();
        String count = set.locator("now-shot .count").innerText();
        String cut = set.locator("order-cut .brief").innerText();
        lookstep.kill();
        set.context().close();
        next.context().close();
        start();
        set.locator("#switches button[value=shoot]").click();
        assertThat(set.locator("now-shot .name")).hasText("Ines alone, for the Harbour Weekly");
        assertThat(set.locator("now-shot .count")).hasText(count);
        assertEquals(order, order());
        assertEquals(out, leftOut());
        assertEquals(cut, set.locator("order-cut .brief").innerText());
        assertThat(line("Ines alone")).containsText("in the bag, 1 frame");
        assertThat(theirs()).containsText("1 of 1 in the bag, 1 frame");
        assertThat(set.locator("solo-round .who")).hasText("no solo: Petra, Quill");
        set.locator(PHOTOGRAPH.formatted(3)).waitFor();
        assertEquals(3, originals());
    }
}

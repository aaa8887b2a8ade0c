package lookstep.server.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.checks.MeasuredLight;
import lookstep.server.lighting.Lightings;
import lookstep.server.live.Journal;
import lookstep.server.live.Live;
import lookstep.server.live.NotPossible;
import lookstep.server.plan.PlanHash;
import lookstep.server.plan.edit.EditRefused;
import lookstep.server.plan.edit.PlanKeeper;
import lookstep.server.plan.file.DemoShoot;
import lookstep.server.plan.file.PlanReader;
import lookstep.server.web.ChecksPart;
import lookstep.server.web.ChecksPart.FindingPart;
import lookstep.server.window.SolosRound;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The plan file is edited, from the pages and from outside, while the shoot goes on. */
class DeskTest {
    private static final ObjectMapper JSON = JsonMapper.builder().build();
    private static final Path SAMPLE = Path.of("..", "viewer", "samples", "plan.json");

    @TempDir Path dir;
    private Path file;
    private Journal journal;
    private Live live;
    private Lightings lightings;
    private PlanChecking checking;
    private Desk desk;
    private final Semaphore checked = new Semaphore(0);

    @BeforeEach
    void open() throws IOException, EditRefused {
        file = dir.resolve(DemoShoot.NAME);
        Files.writeString(file, DemoShoot.text());
        PlanKeeper keeper = PlanKeeper.of(file, new PlanReader(GenericFixtures.all())::read);
        lightings = new Lightings(keeper.current().plan());
        journal = Journal.open(dir.resolve("journal"));
        live = new Live(journal, lightings::possible, PlanHash.of(lightings.read()), () -> 0);
        checking = new PlanChecking(lightings, () -> "", p -> MeasuredLight.NONE, checked::release);
        desk = new Desk(keeper, GenericFixtures.all(), lightings, live, checking, () -> {});
    }

    @AfterEach
    void close() {
        checking.close();
        journal.close();
    }

    private void press(String body) throws NotPossible, IOException {
        desk.edit(JSON.readTree(body.replace('\'', '"')));
    }

    private JsonNode document() {
        return JSON.valueToTree(desk.document());
    }

    @Test
    void anEditIsInTheFileAndInTheLightAndKeepsTheComments() throws NotPossible, IOException {
        press(
                "{'says': 'rim down', 'edits': [{'op': 'set', 'path': ['looks', {'name': 'safe'},"
                        + " 'lights', 'rim', 'stops'], 'was': 0.5, 'value': -0.5}]}");
        String text = Files.readString(file);
        assertEquals(
                DemoShoot.text().replaceFirst("rim: \\{stops: \\+0\\.5\\}", "rim: {stops: -0.5}"),
                text);
        assertTrue(lightings.read().look("safe").lights().get("rim").toString().contains("-0.5"));
        assertEquals("rim down", document().path("undo").asText());
        press("{'undo': true}");
        assertEquals(DemoShoot.text(), Files.readString(file));
        press("{'redo': true}");
        assertEquals(text, Files.readString(file));
    }

    @Test
    void theOrderFollowsAndTheCurrentShotStays() throws NotPossible, IOException {
        live.step(0);
        live.step(1);
        press(
                "{'edits': [{'op': 'duplicate', 'path': ['shots', {'id': 'colour'}], 'changes':"
                        + " {'id': 'colour-2', 'name': 'Blue again'}}, {'op': 'move', 'path':"
                        + " ['shots', {'id': 'colour-2'}], 'index': 2}]}");
        assertEquals("two-off", live.state().shot());
        assertEquals("colour-2", live.state().course().order().get(2));
    }

    @Test
    void aNewNameOfALightIsOneBatch() throws NotPossible, IOException {
        press(
                "{'says': 'fill is side', 'edits': [{'op': 'rename', 'path': ['looks', {'name':"
                        + " 'safe'}, 'lights', 'fill'], 'value': 'side'}, {'op': 'rename', 'path':"
                        + " ['looks', {'name': 'warm front, cold back'}, 'lights', 'fill'],"
                        + " 'value': 'side'}, {'op': 'set', 'path': ['place', 'circuits', 1,"
                        + " 'lights', 0], 'was': 'fill', 'value': 'side'}, {'op': 'set', 'path':"
                        + " ['rig', {'name': 'fill'},"
                        + " 'name'], 'was': 'fill', 'value': 'side'}]}");
        assertEquals("side", lightings.read().rig().get(1).name());
    }

    @Test
    void aKeyThatIsCalledOtherwiseStaysWhereItIsWithItsComment() throws NotPossible, IOException {
        String before = Files.readString(file);
        isRefused(
                "{'edits': [{'op': 'rename', 'path': ['looks', {'name': 'colour'}, 'lights',"
                        + " 'rim'], 'value': 'top'}]}");
        assertEquals(before, Files.readString(file));
        press(
                "{'edits': [{'op': 'set', 'path': ['rig', {'name': 'rim'}, 'name'], 'was': 'rim',"
                        + " 'value': 'edge'}, {'op': 'set', 'path': ['place', 'circuits', 0,"
                        + " 'lights', 1], 'was': 'rim', 'value': 'edge'}"
                        + rename("safe")
                        + rename("two lights off")
                        + rename("warm front, cold back")
                        + rename("colour")
                        + rename("rim only")
                        + "]}");
        assertEquals(
                before.replace("      rim: {", "      edge: {")
                        .replace("- name: rim  ", "- name: edge  ")
                        .replace("lights: [key, rim]", "lights: [key, edge]"),
                Files.readString(file));
    }

    private static String rename(String look) {
        return ", {'op': 'rename', 'path': ['looks', {'name': '"
                + look
                + "'}, 'lights', 'rim'], 'value': 'edge'}";
    }

    private void isRefused(String body) {
        assertThrows(NotPossible.class, () -> press(body));
    }

    @Test
    void aLookThatIsCalledOtherwiseKeepsWhatTheSetMadeUp() throws NotPossible, IOException {
        live.step(0);
        SolosRound round =
                SolosRound.of(lightings.of(live.state()).plan(), live.state(), List.of());
        live.next(1, round.ids(), round.added(), "");
        int shots = live.state().course().order().size();
        StringBuilder uses = new StringBuilder();
        for (String id : List.of("safe", "tight-five", "spread")) {
            uses.append(
                    ", {'op': 'set', 'path': ['shots', {'id': '"
                            + id
                            + "'}, 'look'], 'was': 'safe', 'value': 'sure'}");
        }
        press(
                "{'edits': [{'op': 'set', 'path': ['looks', {'name': 'safe'}, 'name'], 'was':"
                        + " 'safe', 'value': 'sure'}"
                        + uses
                        + "]}");
        assertEquals(shots, live.state().course().order().size());
        assertTrue(live.state().added().stream().allMatch(s -> s.look().equals("sure")));
        press("{'undo': true}");
        assertTrue(live.state().added().stream().allMatch(s -> s.look().equals("safe")));
    }

    @Test
    void whatTheReaderRefusesIsNotWritten() throws IOException {
        NotPossible no =
                assertThrows(
                        NotPossible.class,
                        () ->
                                press(
                                        "{'edits': [{'op': 'set', 'path': ['rig', {'name': 'rim'},"
                                                + " 'slot'], 'was': 21, 'value': 2}]}"));
        assertTrue(no.getMessage().contains("slot"), no.getMessage());
        assertEquals(DemoShoot.text(), Files.readString(file));
        assertThrows(NotPossible.class, () -> press("{'edits': 3}"));
        assertThrows(
                NotPossible.class,
                () -> press("{'edits': [{'op': 'set', 'path': ['looks', {}], 'value': 1}]}"));
    }

    @Test
    void whatWasWrittenOutsideIsTakenInToldAndNotWrittenOver() throws NotPossible, IOException {
        Files.writeString(file, DemoShoot.text().replace("window: 8 min", "window: 9 min"));
        press("{'edits': [{'op': 'set', 'path': ['house', 'lux'], 'was': 2, 'value': 5}]}");
        String text = Files.readString(file);
        assertTrue(text.contains("window: 9 min") && text.contains("house: {lux: 5"), text);
        assertEquals(540, lightings.read().windowSeconds());
        assertTrue(desk.standing().says().contains("window"), desk.standing().says());
    }

    @Test
    void theSamePlaceChangedOutsideIsRefusedInWords() throws IOException {
        Files.writeString(file, DemoShoot.text().replace("lux: 2,", "lux: 3,"));
        NotPossible no =
                assertThrows(
                        NotPossible.class,
                        () ->
                                press(
                                        "{'edits': [{'op': 'set', 'path': ['house', 'lux'],"
                                                + " 'was': 2, 'value': 5}]}"));
        assertTrue(no.getMessage().contains("3"), no.getMessage());
        assertTrue(Files.readString(file).contains("lux: 3,"));
        assertEquals(3, lightings.read().house().lux(), "what stands in the file counts");
    }

    @Test
    void aFileThatIsBrokenOutsideIsToldAndTheShootGoesOnWithThePlanBefore() throws IOException {
        Files.writeString(file, "title: [\n");
        desk.doWork(0);
        assertFalse(desk.standing().problem().isEmpty());
        assertEquals(8, lightings.read().shots().size() - 5);
        Files.writeString(file, DemoShoot.text().replace("window: 8 min", "window: 9 min"));
        desk.doWork(0);
        desk.doWork(0);
        assertEquals("", desk.standing().problem());
        assertEquals(540, lightings.read().windowSeconds());
    }

    @Test
    void theChecksAreWorkedOutAndOneThatCanBeIsMended()
            throws InterruptedException, NotPossible, IOException {
        press(
                "{'edits': [{'op': 'set', 'path': ['looks', {'name': 'safe'}, 'camera'], 'was':"
                        + " null, 'value': {'f': 1}}]}");
        ChecksPart part = ready();
        FindingPart depth =
                part.findings().stream()
                        .filter(f -> f.kind().equals("Depth of field"))
                        .filter(f -> f.shot().equals("safe") && f.canMend())
                        .findFirst()
                        .orElseThrow();
        assertEquals("wrong", depth.weight());
        int before = part.wrong();
        desk.mend(depth.id());
        ChecksPart after = ready();
        assertTrue(after.wrong() < before, before + " then " + after.wrong());
        assertTrue(
                after.findings().stream()
                        .noneMatch(f -> f.id().equals(depth.id()) && f.weight().equals("wrong")));
        assertThrows(NotPossible.class, () -> desk.mend("nothing"));
    }

    private ChecksPart ready() throws InterruptedException {
        while (!desk.checks().ready()) {
            assertTrue(checked.tryAcquire(60, TimeUnit.SECONDS));
        }
        return desk.checks();
    }

    @Test
    void theSample() throws IOException {
        String now = JSON.writerWithDefaultPrettyPrinter().writeValueAsString(document()) + "\n";
        if (Boolean.getBoolean("lookstep.samples.write")) {
            Files.writeString(SAMPLE, now);
        }
        assertEquals(JSON.readTree(Files.readString(SAMPLE)), JSON.readTree(now));
    }
}

package lookstep.server.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import lookstep.server.plan.Job;
import lookstep.server.plan.Shot;
import lookstep.simulator.model.scene.Arrangement;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The order, the window and for whom it is: through presses, edits of the plan, and a restart. */
class CourseTest {
    @TempDir Path dir;
    private Journal journal;
    private Live live;
    private List<String> plan = List.of("safe", "a", "b", "c", "d");
    private long now = 1_000_000;

    @BeforeEach
    void open() throws IOException {
        journal = Journal.open(dir.resolve("journal"));
        live = new Live(journal, this::possible, "h", () -> now);
    }

    private List<String> possible(LiveState state) {
        List<String> ids = new ArrayList<>(plan);
        state.added().forEach(s -> ids.add(s.id()));
        return ids;
    }

    @AfterEach
    void close() {
        journal.close();
    }

    private LiveState again() throws IOException {
        journal.close();
        open();
        return live.state();
    }

    private static Event cut(List<String> order, List<String> out) {
        return new Event.Recut(order, out, 90_000, "Re-cut to 90 s");
    }

    private static Shot shot(String id) {
        return new Shot(
                id,
                id,
                false,
                "look",
                List.of("Ines"),
                new Arrangement(Arrangement.Kind.SOLO, false, 0.55, 0.6, List.of()),
                85,
                2,
                1.5,
                "square",
                List.of("look here"),
                5);
    }

    private static Shot solo(String id) {
        Shot like = shot(id);
        return new Shot(
                id,
                id,
                false,
                like.look(),
                like.people(),
                like.arrangement(),
                like.lensMillimetres(),
                like.distanceMetres(),
                like.cameraHeightMetres(),
                like.framing(),
                like.say(),
                like.importance(),
                new Shot.Use("", "solos on look", true, 0, ""));
    }

    @Test
    void aCutIsStillThereAfterARestartAndCanBeTakenBackBehindWhatWasMadeSince()
            throws IOException, NotPossible {
        live.step(0);
        live.recut(1, s -> cut(List.of("safe", "d", "b"), List.of("a", "c")));
        assertEquals(1, live.state().position());
        live.step(1);
        LiveState state = again();
        assertEquals(List.of("safe", "d", "b"), state.course().order());
        assertEquals(List.of("a", "c"), state.course().leftOut());
        assertEquals("d", state.shot());
        assertEquals(90_000, state.course().windowMillis());
        state = live.takeCutBack(2);
        assertEquals(List.of("safe", "d", "a", "b", "c"), state.course().order());
        assertEquals(2, state.position());
        assertEquals(0, state.course().windowMillis());
        assertFalse(state.course().cut());
        assertThrows(NotPossible.class, () -> live.takeCutBack(2));
    }

    @Test
    void severalCutsAreTakenBackOneByOne() throws IOException, NotPossible {
        live.recut(0, s -> cut(List.of("safe", "d"), List.of("a", "b", "c")));
        live.recut(0, s -> cut(List.of("safe", "c", "d"), List.of("a", "b")));
        assertEquals(List.of("safe", "d"), live.takeCutBack(0).course().order());
        assertTrue(live.state().course().cut());
        assertEquals(plan, live.takeCutBack(0).course().order());
    }

    @Test
    void aPressFromAnotherPlaceCutsNothing() throws IOException, NotPossible {
        live.step(0);
        LiveState before = live.state();
        assertEquals(before, live.recut(0, s -> cut(List.of("safe"), List.of())));
        assertEquals(before, live.takeCutBack(0));
    }

    @Test
    void whatIsNewInThePlanComesWhereThePlanHasItAndWhatItLostGoes()
            throws IOException, NotPossible {
        live.step(0);
        live.step(1);
        plan = List.of("safe", "new", "c", "d", "b");
        LiveState state = live.planChanged("h2");
        assertEquals(List.of("safe", "new", "c", "d", "b"), state.course().order());
        assertEquals("new", state.shot(), "the current one has gone: what stands there is current");
        assertEquals(2, state.position());
    }

    @Test
    void afterACutAnEditOfThePlanKeepsWhatTheCutChose() throws IOException, NotPossible {
        live.recut(0, s -> cut(List.of("safe", "d", "b"), List.of("a", "c")));
        plan = List.of("safe", "a", "b", "new", "c");
        LiveState state = live.planChanged("h2");
        assertEquals(List.of("safe", "b", "new"), state.course().order());
        assertEquals(List.of("a", "c"), state.course().leftOut());
    }

    @Test
    void oneThatWasLeftOutIsReachedAllTheSame() throws IOException, NotPossible {
        live.step(0);
        live.recut(1, s -> cut(List.of("safe", "d"), List.of("a", "b", "c")));
        LiveState state = live.jump(1, "b");
        assertEquals(List.of("safe", "b", "d"), state.course().order());
        assertEquals("b", state.shot());
        assertEquals(2, state.position());
        assertEquals(List.of("a", "c"), state.course().leftOut());
        assertThrows(NotPossible.class, () -> live.jump(2, "nowhere"));
    }

    @Test
    void whatIsAddedComesNextAndLivesInTheJournal() throws IOException, NotPossible {
        live.step(0);
        live.next(1, List.of("solo-ines"), List.of(shot("solo-ines")), "Solos: 1 comes next");
        LiveState state = again();
        assertEquals(List.of("safe", "solo-ines", "a", "b", "c", "d"), state.course().order());
        assertEquals(List.of(shot("solo-ines")), state.added());
        assertEquals("Solos: 1 comes next", state.course().says());
    }

    @Test
    void aRoundIsTakenBackLikeARecutAndWhatItAddedIsLeftOut() throws IOException, NotPossible {
        live.step(0);
        List<Shot> solos = List.of(solo("solo-ines"), solo("solo-marlo"));
        live.next(1, List.of("solo-ines", "solo-marlo"), solos, "Solos: 2 come next");
        live.step(1);
        live.takeCutBack(2);
        LiveState state = again();
        assertEquals(List.of("safe", "solo-ines", "a", "b", "c", "d"), state.course().order());
        assertEquals(List.of("solo-marlo"), state.course().leftOut());
        assertEquals("", state.course().says());
        assertEquals("solo-ines", state.shot());
        assertEquals("solo-marlo", live.jump(2, "solo-marlo").shot());
        assertEquals(List.of(), live.state().course().leftOut());
    }

    @Test
    void aRoundThatComesNextAlreadyIsNoNewOne() throws IOException, NotPossible {
        live.step(0);
        live.next(1, List.of("solo-ines"), List.of(solo("solo-ines")), "Solos: 1 comes next");
        LiveState once = live.state();
        live.next(1, List.of("solo-ines"), List.of(), "Solos: 1 comes next");
        assertEquals(once, live.state());
    }

    @Test
    void aSecondJobStaysWhenARoundBeforeItIsTakenBack() throws IOException, NotPossible {
        live.step(0);
        live.next(1, List.of("solo-ines"), List.of(solo("solo-ines")), "Solos: 1 comes next");
        live.open(new Job("the Harbour Weekly", List.of(), "", ""), List.of(shot("w-1")));
        live.takeCutBack(1);
        LiveState state = again();
        assertEquals(List.of("safe", "a", "b", "c", "d", "w-1"), state.course().order());
        assertEquals(List.of("solo-ines"), state.course().leftOut());
    }

    @Test
    void takenBackAfterItGrewNothingIsBothInAndOut() throws IOException, NotPossible {
        live.step(0);
        live.recut(1, s -> cut(List.of("safe", "d"), List.of("a", "b", "c")));
        live.recut(1, s -> cut(List.of("safe", "b", "d"), List.of("a", "c")));
        live.step(1);
        Course back = live.takeCutBack(2).course();
        assertEquals(List.of("safe", "b", "d"), back.order());
        assertEquals(List.of("a", "c"), back.leftOut());
    }

    @Test
    void ifTheCurrentShotAndOneBeforeItGoTheNextOneComesAndNoneIsSkipped() throws IOException {
        live.step(0);
        live.step(1);
        live.step(2);
        plan = List.of("safe", "c", "d");
        LiveState state = live.planChanged("h2");
        assertEquals("c", state.shot());
        assertEquals(2, state.position());
    }

    @Test
    void thereAndBackWhatWasMadeDoesNotComeAgain() throws IOException {
        live.step(0);
        live.step(1);
        live.step(2);
        plan = List.of("c", "d");
        live.moveTo("elsewhere");
        assertEquals("c", live.state().shot());
        plan = List.of("safe", "a", "b", "c", "d");
        LiveState state = live.moveTo("home");
        assertEquals("c", state.shot());
        assertEquals(4, state.position());
        assertEquals(List.of("safe", "a", "b", "c", "d"), state.course().order());
    }

    @Test
    void aLookThatIsCalledOtherwiseTakesItsShotsAndChangesAlong() throws IOException, NotPossible {
        live.step(0);
        live.next(1, List.of("solo-ines"), List.of(shot("solo-ines")), "");
        live.renamed("look", "look", "evening");
        live.renamed("person", "Ines", "Ina");
        Shot renamed = again().added().get(0);
        assertEquals("evening", renamed.look());
        assertEquals(List.of("Ina"), renamed.people());
    }

    @Test
    void framesBelongToTheJobThatWasOnWhenTheyWereExposed() throws IOException, NotPossible {
        live.step(0);
        Live.Arrival first = arrival("a.JPG");
        assertEquals("", live.frameTaken(first, s -> facts("")).newestFrame().orElseThrow().job());
        now += 5000;
        live.open(new Job("the Harbour Weekly", List.of("a cover"), "", ""), List.of(shot("w-1")));
        assertEquals("the Harbour Weekly", live.state().jobs().current());
        assertEquals("w-1", live.state().course().order().get(1));
        now += 5000;
        live.frameTaken(arrival("b.JPG"), s -> facts(""));
        now += 5000;
        live.switchTo("");
        now += 5000;
        live.frameTaken(arrival("c.JPG"), s -> facts(""));
        live.frameTaken(arrival("d.JPG"), s -> facts("the label"));
        LiveState state = again();
        assertEquals(
                List.of("", "the Harbour Weekly", "", "the label"),
                state.frames().stream().map(Frame::job).toList());
        assertEquals(List.of("a cover"), state.jobs().opened().get(0).promised());
    }

    @Test
    void aShotIsMadeWhenItHasAFrameThatIsNotLeftOut() throws IOException, NotPossible {
        live.step(0);
        assertTrue(live.state().made("safe"), "no frame comes in at all: stepping counts");
        live.frameTaken(arrival("a.JPG"), s -> facts(""));
        live.step(1);
        assertTrue(live.state().made("safe"));
        assertFalse(live.state().made("a"));
        live.mark(1, Frame.Mark.OUT);
        assertFalse(live.state().made("safe"));
    }

    private static ShotFacts facts(String job) {
        return new ShotFacts("look", List.of("Ines"), job);
    }

    private Live.Arrival arrival(String name) {
        return new Live.Arrival(new Event.FileMark(name, 1, 1), "", "", "", now);
    }
}

package lookstep.server.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import lookstep.server.live.Event.FileMark;
import lookstep.server.live.Event.PlateAsked;
import lookstep.server.live.Event.PlateTaken;
import lookstep.server.live.Event.PlatesBegun;
import lookstep.server.plan.CameraSettings;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Plates in the state, also after the program was killed. */
class PlatesOfLiveTest {
    /** 2026-11-25T21:00:00Z. */
    private static final long NINE = 1_795_640_400_000L;

    private static final PlatesBegun BEGUN =
            new PlatesBegun(
                    "plates-1",
                    "a",
                    "look of a",
                    new CameraSettings(8, 0.01, 6400, 4300),
                    "rig",
                    "",
                    true,
                    List.of(
                            new PlateStep("house only", "", 0, List.of(List.of(0.0, 0.0))),
                            new PlateStep("‘key’ warm alone", "key", 1, List.of(List.of(0.7, 0.0))),
                            new PlateStep(
                                    "‘key’ at 1/2", "key", 0.5, List.of(List.of(0.35, 0.0)))));

    @TempDir Path dir;

    private Journal journal;
    private Live live;
    private long now = NINE;
    private int files;

    @BeforeEach
    void open() throws IOException {
        journal = Journal.open(dir.resolve("journal"));
        live = new Live(journal, List.of("a", "b", "c"), "hash", () -> now);
    }

    @AfterEach
    void close() {
        journal.close();
    }

    private Frame arrive(String takenAt, long atMillis) throws IOException {
        now = NINE + atMillis;
        files++;
        return live.frameTaken(
                        new Live.Arrival(
                                new FileMark("LS_%04d.JPG".formatted(files), files, 1),
                                "body one",
                                takenAt,
                                "f/8",
                                now),
                        shot -> new ShotFacts("look of " + shot, List.of("Ines"), ""))
                .newestFrame()
                .orElseThrow();
    }

    private LiveState replayed() throws IOException {
        LiveState before = live.state();
        journal.close();
        open();
        assertEquals(before.frames(), live.state().frames());
        assertEquals(before.plates(), live.state().plates());
        assertEquals(before.timeline(), live.state().timeline());
        return live.state();
    }

    private PlateRun run() {
        return live.state().plates().run().orElseThrow();
    }

    @Test
    void aFrameOfARunIsOfNoShotAndNotInTheBag() throws Exception {
        live.step(0);
        arrive("", 1000);
        now = NINE + 2000;
        live.beginPlates(BEGUN);
        Frame plate = arrive("", 3000);
        assertEquals("", plate.shot());
        assertEquals(List.of(), plate.people());
        assertEquals("plates-1", plate.plates());
        live.mark(2, Frame.Mark.KEPT);
        LiveState state = replayed();
        assertEquals(1, state.framesOf("a"));
        assertFalse(state.inTheBag("a"));
        assertTrue(state.made("a"));
        assertTrue(state.frames().get(1).ofPlates());
        assertFalse(state.frames().get(0).ofPlates());
    }

    @Test
    void whereOnlyPlatesCameInWhatWasSteppedToCountsAsMade() throws Exception {
        live.beginPlates(BEGUN);
        arrive("", 1000);
        live.giveUpPlates("plates-1", "by hand");
        assertTrue(live.state().clock().fresh());
        live.step(0);
        live.step(1);
        assertTrue(live.state().made("a"));
        assertFalse(live.state().made("c"));
    }

    @Test
    void theRunEndsWithItsLastFrameAndTheShotGoesOn() throws Exception {
        live.step(0);
        live.beginPlates(BEGUN);
        assertEquals(0, run().at());
        for (int step = 0; step < 3; step++) {
            assertEquals(step, run().at());
            Frame frame = arrive("", 2000L + step * 1000L);
            live.plateTaken(new PlateTaken("plates-1", step, frame.number(), ""));
        }
        LiveState state = replayed();
        assertEquals(Optional.empty(), state.plates().run());
        PlateSet set = state.plates().set().orElseThrow();
        assertEquals(3, set.run().taken().size());
        assertEquals("", set.stale());
        assertEquals("a", arrive("", 9000).shot());
    }

    @Test
    void aStepThatIsAskedAgainIsLitAgainWithItsNewLevels() throws Exception {
        live.beginPlates(BEGUN);
        live.plateTaken(new PlateTaken("plates-1", 0, 1, ""));
        live.plateTaken(new PlateTaken("plates-1", 1, 2, ""));
        assertEquals(2, run().at());
        live.askPlate(new PlateAsked("plates-1", 1, "burnt", false, List.of(List.of(0.35, 0.0))));
        replayed();
        assertEquals(1, run().at());
        assertEquals(List.of(List.of(0.35, 0.0)), run().step().levels());
        assertEquals(1, run().askedByItself(1));
        assertEquals("burnt", run().newestAsked(1).orElseThrow().why());
        live.askPlate(new PlateAsked("plates-1", 1, "", true, List.of()));
        assertEquals(0, run().askedByItself(1));
        live.plateTaken(new PlateTaken("plates-1", 1, 3, ""));
        assertEquals(2, run().at());
        assertEquals(Optional.empty(), run().newestAsked(1));
    }

    @Test
    void oneStepOfAWholeSetCanBeTakenAgain() throws Exception {
        live.beginPlates(BEGUN);
        for (int step = 0; step < 3; step++) {
            live.plateTaken(new PlateTaken("plates-1", step, step + 1, ""));
        }
        live.askPlate(new PlateAsked("plates-1", 1, "", true, List.of()));
        assertEquals(1, run().at());
        assertTrue(replayed().plates().set().isPresent());
        live.plateTaken(new PlateTaken("plates-1", 1, 9, ""));
        PlateSet set = live.state().plates().set().orElseThrow();
        assertEquals(9, set.run().taken().get(1).number());
        assertEquals(Optional.empty(), live.state().plates().run());
    }

    @Test
    void aStepTakenAgainDoesNotMakeAStaleSetGood() throws Exception {
        live.beginPlates(BEGUN);
        for (int step = 0; step < 3; step++) {
            live.plateTaken(new PlateTaken("plates-1", step, step + 1, ""));
        }
        live.platesStale("plates-1", "‘key’ stands elsewhere");
        now = NINE + 60_000;
        live.askPlate(new PlateAsked("plates-1", 1, "", true, List.of()));
        live.plateTaken(new PlateTaken("plates-1", 1, 9, ""));
        PlateSet set = replayed().plates().set().orElseThrow();
        assertEquals("‘key’ stands elsewhere", set.stale());
        assertEquals(NINE, set.goodEpochMillis());
        assertEquals(NINE + 60_000, set.doneEpochMillis());
        live.platesGood("plates-1");
        assertEquals("", live.state().plates().set().orElseThrow().stale());
        live.platesStale("plates-1", "‘key’ stands elsewhere");
        live.beginPlates(anew("plates-2"));
        for (int step = 0; step < 3; step++) {
            live.plateTaken(new PlateTaken("plates-2", step, step + 10, ""));
        }
        assertEquals("", live.state().plates().set().orElseThrow().stale());
    }

    private static PlatesBegun anew(String id) {
        return new PlatesBegun(
                id,
                BEGUN.shot(),
                BEGUN.look(),
                BEGUN.camera(),
                BEGUN.hangsOn(),
                BEGUN.standsOn(),
                true,
                BEGUN.steps());
    }

    @Test
    void aLookThatIsCalledOtherwiseIsSoInThePlatesToo() throws Exception {
        live.beginPlates(BEGUN);
        live.renamed("person", "look of a", "Ines");
        assertEquals("look of a", run().begun().look());
        live.renamed("look", "look of a", "dusk");
        assertEquals("dusk", replayed().plates().run().orElseThrow().begun().look());
        for (int step = 0; step < 3; step++) {
            live.plateTaken(new PlateTaken("plates-1", step, step + 1, ""));
        }
        live.renamed("look", "dusk", "dawn");
        live.renamed("look", "another", "dusk");
        PlateSet set = replayed().plates().set().orElseThrow();
        assertEquals("dawn", set.run().begun().look());
        assertEquals("", set.stale());
    }

    /** As written before it was kept what of the shot they hang on. */
    @Test
    void anOlderJournalSaysNothingOfWhatPlatesStandOn() throws Exception {
        String now = JsonMapper.builder().build().writeValueAsString(BEGUN);
        String then = now.replace("\"standsOn\":\"\",", "");
        assertNotEquals(now, then);
        assertEquals(BEGUN, JsonMapper.builder().build().readValue(then, PlatesBegun.class));
    }

    @Test
    void goingOnGivesTheRunUpInWords() throws Exception {
        live.step(0);
        live.beginPlates(BEGUN);
        live.plateTaken(new PlateTaken("plates-1", 0, 1, ""));
        now = NINE + 5000;
        live.step(1);
        LiveState state = replayed();
        assertEquals(Optional.empty(), state.plates().run());
        assertEquals("given up at 2 of 3: the shoot went on", state.plates().gaveUp());
        assertEquals("b", state.shot());
        assertEquals("b", arrive("", 6000).shot());
    }

    @Test
    void sameAgainAndATestGiveItUpToo() throws Exception {
        live.step(0);
        live.beginPlates(BEGUN);
        live.sameAgain(1);
        assertEquals(
                "given up at 1 of 3: the shot was to be made once more",
                live.state().plates().gaveUp());
        assertEquals("a", arrive("", 1000).shot());
        live.beginPlates(BEGUN);
        assertEquals("", live.state().plates().gaveUp());
        live.light(1, at -> new Event.Testing(new RigTest("key", 1, 0)));
        assertEquals(Optional.empty(), replayed().plates().run());
        assertTrue(live.state().test().isPresent());
    }

    @Test
    void aSetIsOfItsPlaceOnlyAndSomebodyMaySayThatItIsStillGood() throws Exception {
        live.beginPlates(BEGUN);
        for (int step = 0; step < 3; step++) {
            live.plateTaken(new PlateTaken("plates-1", step, step + 1, ""));
        }
        live.moveTo("the roof");
        assertEquals(
                "the shoot went on at another place",
                live.state().plates().set().orElseThrow().stale());
        live.platesStale("plates-1", "the rig was edited");
        assertEquals(
                "the shoot went on at another place",
                replayed().plates().set().orElseThrow().stale());
        now = NINE + 60_000;
        live.platesGood("plates-0");
        assertFalse(live.state().plates().set().orElseThrow().stale().isEmpty());
        live.platesGood("plates-1");
        assertEquals("", live.state().plates().set().orElseThrow().stale());
        assertEquals(NINE + 60_000, replayed().plates().set().orElseThrow().goodEpochMillis());
        live.forgetPlates("plates-1");
        assertEquals(Optional.empty(), replayed().plates().set());
    }

    @Test
    void twoRunsAtOnceAreRefusedAndWhatIsSaidOfAnotherRunChangesNothing() throws Exception {
        live.beginPlates(BEGUN);
        assertThrows(NotPossible.class, () -> live.beginPlates(BEGUN));
        long revision = live.state().revision();
        live.plateTaken(new PlateTaken("plates-0", 0, 1, ""));
        live.askPlate(new PlateAsked("plates-0", 0, "", true, List.of()));
        live.giveUpPlates("plates-0", "by hand");
        live.platesStale("plates-0", "why");
        assertEquals(revision, live.state().revision());
    }

    @Test
    void theBandSeesNoPlateUnlessItIsKeptOrHeld() throws Exception {
        live.step(0);
        arrive("", 1000);
        live.beginPlates(BEGUN);
        arrive("", 2000);
        List<Frame> frames = live.state().frames();
        assertEquals(1, Showing.ALL.of(frames, n -> true).orElseThrow().number());
        assertFalse(Showing.ALL.shows(frames, 2));
        assertTrue(new Showing(Showing.Mode.HOLD, 2).shows(frames, 2));
        live.mark(2, Frame.Mark.KEPT);
        assertTrue(new Showing(Showing.Mode.KEPT, 0).shows(live.state().frames(), 2));
    }

    @Test
    void aPlateStaysOneWhenTheCamerasClockIsKnownBetter() throws Exception {
        live.step(0);
        now = NINE + 10_000;
        live.beginPlates(BEGUN);
        // 6 s on its way: its clock seems to be 6 s behind
        Frame plate = arrive("2026-11-25T21:00:08.000", 14_000);
        assertTrue(plate.ofPlates());
        live.plateTaken(new PlateTaken("plates-1", 0, 1, ""));
        arrive("2026-11-25T21:00:15.000", 15_100);
        assertTrue(live.state().frames().get(0).ofPlates());
        assertEquals("", live.state().frames().get(0).shot());
    }

    @Test
    void nothingIsLearnedFromAShotThatPlatesWereTakenIn() {
        Timeline timeline =
                Timeline.NONE.then(NINE, "a").thenPlates(NINE + 1000, "p").then(NINE + 5000, "a");
        assertEquals(List.of("a"), timeline.shots().stream().map(s -> s.shot()).toList());
        assertEquals(NINE, timeline.shots().get(0).atEpochMillis());
        assertTrue(timeline.platesBetween(NINE, NINE + 9000));
        assertFalse(timeline.platesBetween(NINE + 1001, NINE + 9000));
        Timeline on = timeline.then(NINE + 9000, "b");
        assertEquals(List.of("a", "b"), on.shots().stream().map(s -> s.shot()).toList());
    }

    @Test
    void aJournalFromBeforeThereWerePlatesReadsAsEver() throws IOException {
        live.step(0);
        arrive("", 1000);
        journal.close();
        // as written before plates: no event of theirs is in it
        String text = java.nio.file.Files.readString(dir.resolve("journal"));
        assertFalse(text.contains("plate"));
        open();
        assertEquals(TakenPlates.NONE, live.state().plates());
        assertEquals("", live.state().frames().get(0).plates());
    }
}

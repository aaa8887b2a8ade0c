package lookstep.server.plates;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lookstep.server.live.Event;
import lookstep.server.live.Event.PlateAsked;
import lookstep.server.live.PlateSet;
import lookstep.server.live.RigTest;
import lookstep.server.look.Adjustment;
import lookstep.server.look.Nudge;
import lookstep.server.plates.PlateBook.Standing;
import lookstep.server.plates.PlateWatch.Later;
import lookstep.simulator.gear.Fault;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What holds of the plates, and when it no longer does. The arithmetic is put in by hand. */
class PlateBookTest {
    private static final long MINUTE = 60_000;

    @TempDir Path dir;

    private SetWithPlates set;
    private PlateBook book;
    private PlateWatch watch;
    private final List<Map<Integer, SeenPlate>> measured = new ArrayList<>();
    private final List<Later> later = new ArrayList<>();
    private Optional<String> seenToHaveChanged = Optional.empty();
    private String fault = "";

    @BeforeEach
    void open() throws Exception {
        set = new SetWithPlates(dir);
        books();
    }

    private void books() {
        book = new PlateBook(set.live, set.lightings, set::seen, this::measure, () -> {});
        watch =
                new PlateWatch(
                        set.live,
                        set.lightings,
                        book,
                        set::seen,
                        one -> {
                            later.add(one);
                            return seenToHaveChanged;
                        },
                        set::epochMillis);
    }

    @AfterEach
    void close() {
        set.close();
    }

    /** In the place of response and stack: keeps what it was given. */
    private MeasuredSet measure(PlateSet of, Map<Integer, SeenPlate> frames) {
        if (!fault.isEmpty()) {
            throw new IllegalArgumentException(fault);
        }
        measured.add(frames);
        return MeasuredSet.of(
                of.run(),
                null,
                of.run().begun().camera(),
                of.doneEpochMillis(),
                PlateArithmetic.doubts(of.run()));
    }

    private void take() throws Exception {
        set.begin();
        set.passUntil(() -> set.live.state().plates().run().isEmpty());
    }

    /** The light is seen to change, and is there. */
    private void settle() throws Exception {
        work();
        set.pass(4);
    }

    private void work() {
        book.doWork(set.nowNanos);
        watch.doWork(set.nowNanos);
    }

    private Optional<String> question(long afterMillis) {
        return PlateQuestion.of(
                set.live.state(),
                set.lightings.of(set.live.state()),
                set.live.state().plates().set().orElseThrow().doneEpochMillis() + afterMillis);
    }

    @Test
    void fromNothingToReady() throws Exception {
        work();
        assertEquals(Standing.NONE, book.standing());
        set.begin();
        assertEquals(Standing.TAKING, book.standing());
        set.passUntil(() -> set.live.state().plates().run().isEmpty());
        assertEquals(Standing.WORKING, book.standing());
        assertEquals(Optional.empty(), book.current());
        work();
        assertEquals(Standing.READY, book.standing());
        MeasuredSet now = book.current().orElseThrow();
        assertEquals("safe", now.shot());
        assertEquals(17, now.steps().size());
        assertEquals(17, measured.get(0).size());
        assertEquals(5, measured.get(0).get(4).number());
        work();
        assertEquals(1, measured.size());
    }

    @Test
    void afterARestartTheSetIsReadAgainFromItsFrames() throws Exception {
        take();
        work();
        set.restart();
        books();
        assertEquals(Standing.WORKING, book.standing());
        work();
        assertEquals(Standing.READY, book.standing());
        assertEquals(2, measured.size());
    }

    @Test
    void aStepThatIsTakenAgainIsWorkedInAgain() throws Exception {
        take();
        work();
        set.live.askPlate(
                new PlateAsked(book.current().orElseThrow().id(), 3, "", true, List.of()));
        assertEquals(Standing.TAKING, book.standing());
        set.passUntil(() -> set.live.state().plates().run().isEmpty());
        work();
        assertEquals(18, measured.get(1).get(3).number());
    }

    @Test
    void whatDoesNotComeToPlatesSaysWhy() throws Exception {
        take();
        fault = "the frames do not tell red from blue of ‘top’";
        work();
        assertEquals(Standing.USELESS, book.standing());
        assertEquals(fault, book.trouble());
        assertEquals(Optional.empty(), book.current());
    }

    @Test
    void aFrameThatCannotBeReadIsTriedAgainEveryTwoSeconds() throws Exception {
        take();
        boolean[] away = {true};
        int[] reads = {0};
        book =
                new PlateBook(
                        set.live,
                        set.lightings,
                        frame -> {
                            reads[0]++;
                            return away[0] ? Optional.empty() : set.seen(frame);
                        },
                        this::measure,
                        () -> {});
        book.doWork(set.nowNanos);
        assertEquals(Standing.USELESS, book.standing());
        assertTrue(book.trouble().contains("is tried again every 2 s"), book.trouble());
        int once = reads[0];
        away[0] = false;
        book.doWork(set.nowNanos + 2_000_000_000L - 1);
        assertEquals(once, reads[0]);
        assertEquals(Standing.USELESS, book.standing());
        book.doWork(set.nowNanos + 2_000_000_000L);
        assertEquals(Standing.READY, book.standing());
        int all = reads[0];
        book.doWork(set.nowNanos + 9_000_000_000L);
        assertEquals(all, reads[0]);
        assertEquals("", book.trouble());
    }

    @Test
    void anotherDimmingCurveIsAnotherRig() throws Exception {
        take();
        work();
        set.lightings.read(EditedRig.curved("fill"));
        work();
        assertEquals(
                "the rig was edited since they were taken",
                set.live.state().plates().set().orElseThrow().stale());
    }

    @Test
    void anEditOfTheShotMakesThemStale() throws Exception {
        take();
        work();
        set.lightings.read(EditedRig.farther("safe"));
        work();
        assertEquals(Standing.STALE, book.standing());
        assertEquals(
                "the shot or the place was edited since they were taken",
                set.live.state().plates().set().orElseThrow().stale());
    }

    @Test
    void aLookThatIsCalledOtherwiseOrIsGoneTakesNothingFromThem() throws Exception {
        take();
        work();
        set.lightings.read(EditedRig.called("safe", "calm"));
        work();
        assertEquals("", set.live.state().plates().set().orElseThrow().stale());
        set.live.renamed("look", "safe", "calm");
        work();
        assertEquals(Standing.READY, book.standing());
        assertEquals("calm", book.current().orElseThrow().look());
        assertTrue(book.currentFor(set.lightings.of(set.live.state()), "calm").isPresent());
        set.lightings.read(EditedRig.moved("fill"));
        set.live.renamed("look", "calm", "gone");
        work();
        assertEquals(Standing.STALE, book.standing());
    }

    @Test
    void anEditOfTheRigMakesThemStaleAtOnceAndAnAddressDoesNot() throws Exception {
        take();
        work();
        set.lightings.read(EditedRig.readdressed("fill", 60));
        work();
        assertEquals(Standing.READY, book.standing());
        set.lightings.read(EditedRig.moved("fill"));
        work();
        assertEquals(Standing.STALE, book.standing());
        assertEquals(Optional.empty(), book.current());
        assertEquals(
                "the rig was edited since they were taken",
                set.live.state().plates().set().orElseThrow().stale());
    }

    @Test
    void aLookThatMovesALightHasNoPictureFromThem() throws Exception {
        take();
        work();
        assertTrue(book.currentFor(set.lightings.of(set.live.state()), "rim only").isPresent());
        set.lightings.read(EditedRig.movedInALook("rim only", "rim"));
        work();
        assertEquals(Standing.READY, book.standing());
        assertTrue(book.currentFor(set.lightings.of(set.live.state()), "rim only").isEmpty());
        assertTrue(book.currentFor(set.lightings.of(set.live.state()), "safe").isPresent());
    }

    @Test
    void afterTwentyMinutesItIsAskedAndAnAnswerHoldsForTwentyMore() throws Exception {
        take();
        assertEquals(Optional.empty(), question(20 * MINUTE - 1));
        assertEquals(Optional.of("20 minutes have gone by"), question(20 * MINUTE));
        set.nowNanos += 25 * MINUTE * SetWithPlates.MILLI;
        set.live.platesGood(set.live.state().plates().set().orElseThrow().id());
        assertEquals(Optional.empty(), question(45 * MINUTE - 1));
        assertNotEquals(Optional.empty(), question(45 * MINUTE));
    }

    @Test
    void afterAShotFromElsewhereItIsAsked() throws Exception {
        take();
        set.pass(1);
        set.live.jump(0, "safe");
        set.live.jump(set.live.state().position(), "two-off");
        assertEquals(Optional.empty(), question(MINUTE));
        set.live.jump(set.live.state().position(), "tight-five");
        set.live.jump(set.live.state().position(), "safe");
        assertEquals(
                Optional.of("the camera was elsewhere for ‘Five in two rows’"), question(MINUTE));
    }

    /** Whether something has changed is said by the seam; which frames are asked about is not. */
    @Test
    void laterFramesOfTheSameShotAreHeldAgainstThem() throws Exception {
        take();
        work();
        set.live.jump(0, "safe");
        settle();
        set.misbehave(new Fault.LightMoved("key", new Vec3(0.5, 0, 0)));
        set.photograph();
        set.pass(1);
        work();
        assertEquals(1, later.size());
        assertEquals(18, later.get(0).frame().number());
        assertEquals(
                set.lightings.of(set.live.state()).shown(set.live.state()).levels(),
                later.get(0).levels());
        set.live.jump(1, "two-off");
        settle();
        set.photograph();
        set.pass(1);
        work();
        assertEquals(1, later.size(), "of another shot");
        set.live.jump(set.live.state().position(), "safe");
        settle();
        seenToHaveChanged = Optional.of("‘key’ stands elsewhere");
        set.photograph();
        set.pass(1);
        work();
        assertEquals(
                "frame 20: ‘key’ stands elsewhere",
                set.live.state().plates().set().orElseThrow().stale());
        assertEquals(Standing.STALE, book.standing());
    }

    @Test
    void aFrameFromBeforeANudgeSaysNothingAfterIt() throws Exception {
        take();
        work();
        set.live.jump(0, "safe");
        settle();
        set.wayMillis = 3000;
        set.photograph();
        set.pass(1);
        set.live.light(
                set.live.state().position(),
                at ->
                        new Event.Nudged(
                                "safe",
                                "safe",
                                Adjustment.NONE.with(
                                        "key", new Nudge(-1, 0, Nudge.Power.AS_PLANNED)),
                                "less"));
        settle();
        assertEquals(18, set.live.state().frames().size());
        work();
        assertEquals(List.of(), later);
        set.wayMillis = 300;
        set.photograph();
        set.pass(1);
        work();
        assertEquals(1, later.size());
        assertEquals(19, later.get(0).frame().number());
    }

    @Test
    void aFrameOfTheFadeOrOfATestSaysNothing() throws Exception {
        take();
        work();
        set.live.jump(0, "safe");
        work();
        set.pass(0.3);
        set.photograph();
        set.pass(1);
        work();
        assertEquals(18, set.live.state().frames().size());
        assertEquals(List.of(), later, "of the fade");
        set.live.light(1, at -> new Event.Testing(new RigTest("key", 1, 0)));
        settle();
        set.photograph();
        set.pass(1);
        work();
        assertEquals(19, set.live.state().frames().size());
        assertEquals(List.of(), later, "of a test");
        set.photograph();
        set.pass(0.1);
        set.live.light(1, at -> new Event.TestEnded());
        settle();
        work();
        assertEquals(List.of(), later, "from before the test ended");
        set.photograph();
        set.pass(1);
        work();
        assertEquals(21, later.get(0).frame().number());
    }
}

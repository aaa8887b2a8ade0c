package lookstep.server.window;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.live.Event;
import lookstep.server.live.LiveState;
import lookstep.server.live.NotPossible;
import lookstep.server.order.Variety;
import lookstep.server.plan.Job;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.file.DemoShoot;
import org.junit.jupiter.api.Test;

/** Solos, a second client, and what a shoot learns of its own pace. */
class OnTheSetTest {
    private static final ShootPlan PLAN = DemoShoot.read(GenericFixtures.all());
    private static final List<String> IDS = PLAN.shots().stream().map(Shot::id).toList();

    private long now = 1_000_000;
    private LiveState state = LiveState.NEW;

    OnTheSetTest() {
        take(new Event.Ordered(IDS, List.of()));
        take(new Event.ClockStarted());
    }

    private void take(Event event) {
        state = state.after(event, now);
    }

    private void step(String id) {
        take(new Event.WentTo(IDS.indexOf(id) + 1, id));
    }

    private void frameOf(String shot, String... people) {
        int number = state.frames().size() + 1;
        take(
                new Event.FrameTaken(
                        number,
                        new Event.FileMark(number + ".JPG", 1, 1),
                        shot,
                        "",
                        "",
                        "",
                        "",
                        List.of(people),
                        "",
                        now));
    }

    @Test
    void aRoundIsForThoseWhoLackOneOnTheLookThatIsOn() throws NotPossible {
        step("rim-only");
        frameOf("rim-only", "Ines", "Marlo", "Petra", "Quill", "Tovah");
        frameOf("solo-marlo", "Marlo");
        SolosRound round = SolosRound.of(PLAN, state, List.of());
        assertEquals(
                List.of("Ines", "Petra", "Quill", "Tovah"),
                round.added().stream().map(s -> s.people().get(0)).toList());
        Shot first = round.added().get(0);
        assertEquals("rim only", first.look());
        assertEquals(85, first.lensMillimetres(), "as the plan's own solos are");
        assertTrue(first.use().round());
        assertTrue(
                IDS.stream()
                        .noneMatch(id -> round.added().stream().anyMatch(s -> s.id().equals(id))));
    }

    @Test
    void thePlansOwnSolosOnThatLookComeNextAndAreNotDoubled() throws NotPossible {
        step("warm-front");
        SolosRound round = SolosRound.of(PLAN, state, List.of());
        assertEquals(List.of(), round.added());
        assertEquals(
                List.of("solo-ines", "solo-marlo", "solo-petra", "solo-quill", "solo-tovah"),
                round.ids());
    }

    @Test
    void whoIsOnTheirSoloNowDoesNotGetASecond() throws NotPossible {
        step("solo-ines");
        SolosRound round = SolosRound.of(PLAN, state, List.of());
        assertEquals(List.of("solo-marlo", "solo-petra", "solo-quill", "solo-tovah"), round.ids());
    }

    @Test
    void overTimeItDoesNotFit() {
        step("solo-tovah");
        now += 500_000;
        assertTrue(WindowView.of(window(), state).spareSeconds() < 0);
    }

    @Test
    void aCutToTheClockLeavesTheWindowToThePlan() {
        step("safe");
        assertEquals(0, Cutting.cut(window(), state, OptionalDouble.empty(), now).windowMillis());
    }

    @Test
    void aRoundAndOthersOfOneNameAreTwoGroups() {
        Shot rim = PLAN.shot("rim-only").orElseThrow();
        Shot solo = PLAN.shot("solo-ines").orElseThrow();
        ShootPlan mixed =
                PLAN.withShots(
                        List.of(
                                PLAN.shots().get(0),
                                with(rim, new Shot.Use("", "stairs", false, 0, "")),
                                with(solo, new Shot.Use("", "stairs", true, 0, ""))));
        assertEquals(
                3, PlannedOrder.of(mixed, Variety.of(ShotItems.of(mixed))).best().ids().size());
    }

    private static Shot with(Shot s, Shot.Use use) {
        return new Shot(
                s.id(),
                s.name(),
                s.safe(),
                s.look(),
                s.people(),
                s.arrangement(),
                s.lensMillimetres(),
                s.distanceMetres(),
                s.cameraHeightMetres(),
                s.framing(),
                s.say(),
                s.importance(),
                use);
    }

    @Test
    void someAreAskedForByNameAndNobodyWhoIsNotThere() throws NotPossible {
        step("safe");
        assertEquals(1, SolosRound.of(PLAN, state, List.of("Petra")).ids().size());
        assertThrows(NotPossible.class, () -> SolosRound.of(PLAN, state, List.of("Nobody")));
    }

    @Test
    void beforeTheFirstStepThereIsNoLookForARound() {
        assertThrows(NotPossible.class, () -> SolosRound.of(PLAN, state, List.of()));
    }

    @Test
    void aSecondClientGetsTheSameShotsUnderIdsOfTheirOwn() throws NotPossible {
        SecondJob job =
                SecondJob.of(
                        PLAN,
                        new Job(" the Harbour Weekly ", List.of("a cover"), "", ""),
                        List.of("this shoot"),
                        List.of("safe", "spread"));
        assertEquals("the Harbour Weekly", job.job().client());
        assertEquals(
                List.of("safe-the-harbour-weekly", "spread-the-harbour-weekly"),
                job.shots().stream().map(Shot::id).toList());
        assertTrue(job.shots().stream().noneMatch(Shot::safe), "one shot only is the safe shot");
        assertTrue(job.shots().stream().allMatch(s -> s.use().job().equals("the Harbour Weekly")));
        Job empty = new Job(" ", List.of(), "", "");
        assertThrows(
                NotPossible.class, () -> SecondJob.of(PLAN, empty, List.of(), List.of("safe")));
        Job same = new Job("this shoot", List.of(), "", "");
        assertThrows(
                NotPossible.class,
                () -> SecondJob.of(PLAN, same, List.of("this shoot"), List.of()));
        Job other = new Job("x", List.of(), "", "");
        assertThrows(
                NotPossible.class, () -> SecondJob.of(PLAN, other, List.of(), List.of("none")));
    }

    private WindowNow window() {
        return WindowNow.of(PLAN, state, Variety.of(ShotItems.of(PLAN)), now);
    }

    @Test
    void shotsThatTakeTwiceAsLongAreCountedAsSuchInTheNextCut() {
        double planned = window().pace().shots();
        assertEquals(1, planned);
        for (String id : List.of("safe", "two-off", "warm-front", "colour", "rim-only")) {
            step(id);
            now += 8000;
            frameOf(id, "Ines", "Marlo");
            now += 40_000; // 20 s are planned
        }
        step("top-trio");
        double learned = window().pace().shots();
        // five signs of 2, pulled towards 1 by two: 2^(5/7)
        assertEquals(Math.pow(2, 5 / 7.0), learned, 0.02);
        int slow = Cutting.cut(window(), state, OptionalDouble.of(120), now).order().size();
        LiveState quick = LiveState.NEW.after(new Event.Ordered(IDS, List.of()), now);
        assertTrue(
                slow - 6
                        < Cutting.cut(
                                        WindowNow.of(
                                                PLAN, quick, Variety.of(ShotItems.of(PLAN)), now),
                                        quick,
                                        OptionalDouble.of(120),
                                        now)
                                .order()
                                .size());
        assertTrue(WindowView.of(window(), state).paceSays().contains("1.6 times"));
    }

    @Test
    void aPauseIsNotLearnedFrom() {
        step("safe");
        now += 8000;
        frameOf("safe", "Ines", "Marlo");
        now += 5000;
        take(new Event.ClockPaused());
        now += 120_000;
        take(new Event.ClockStarted());
        now += 15_000;
        step("two-off");
        // 20 s planned, 20 s made beside the pause
        assertEquals(1, window().pace().shots(), 1e-9);
        assertEquals(480 - 28, window().leftSeconds(), 1e-9);
    }
}

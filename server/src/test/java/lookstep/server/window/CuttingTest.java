package lookstep.server.window;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.live.Event;
import lookstep.server.live.Frame;
import lookstep.server.live.LiveState;
import lookstep.server.order.Variety;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.file.DemoShoot;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The re-cut, from the states that a shoot comes into. */
class CuttingTest {
    private static final ShootPlan PLAN = DemoShoot.read(GenericFixtures.all());
    private static final List<String> IDS = PLAN.shots().stream().map(Shot::id).toList();
    private static final Variety VARIETY = Variety.of(ShotItems.of(PLAN));
    private static final List<Frame.Mark> MARKS = List.of(Frame.Mark.values());

    private long now = 1_000_000;
    private LiveState state = LiveState.NEW;

    CuttingTest() {
        take(new Event.Ordered(IDS, List.of()));
    }

    private void take(Event event) {
        state = state.after(event, now);
    }

    private void step(String id, double seconds) {
        if (state.clock().fresh()) {
            take(new Event.ClockStarted());
        }
        take(new Event.WentTo(state.course().order().indexOf(id) + 1, id));
        now += Math.round(seconds * 1000);
    }

    private void frame(String shot) {
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
                        PLAN.shot(shot).orElseThrow().people(),
                        "",
                        now));
    }

    private WindowNow window() {
        return WindowNow.of(PLAN, state, VARIETY, now);
    }

    private Event.Recut cut(double seconds) {
        return Cutting.cut(window(), state, OptionalDouble.of(seconds), now);
    }

    private WindowView view() {
        return WindowView.of(window(), state);
    }

    @Test
    void whatIsMadeStaysInFrontAndTheRestIsTheMostThatFits() {
        step("safe", 25);
        frame("safe");
        step("two-off", 20);
        frame("two-off");
        Event.Recut cut = cut(90);
        assertEquals(List.of("safe", "two-off"), cut.order().subList(0, 2));
        take(cut);
        assertEquals(2, state.position());
        assertEquals(IDS.size(), cut.order().size() + cut.leftOut().size());
        WindowView view = view();
        assertEquals(0, view.fallsOff());
        assertTrue(view.endsInSeconds() <= 90, () -> "ends in " + view.endsInSeconds());
        assertTrue(cut.order().contains("warm-front"), "the most important that is left");
        assertEquals(45_000 + 90_000, state.course().windowMillis());
        assertTrue(cut.says().startsWith("Re-cut to 1 min 30 s: "), cut.says());
    }

    @Test
    void theWindowMayGrow() {
        step("safe", 25);
        frame("safe");
        take(cut(60));
        int few = state.course().order().size();
        take(cut(600));
        assertTrue(state.course().order().size() > few);
        assertEquals(List.of(), state.course().leftOut());
    }

    @Test
    void beforeTheFirstStepTheSafeShotIsFirstHoweverShortTheWindow() {
        Event.Recut cut = cut(5);
        assertEquals("safe", cut.order().get(0));
        assertEquals(1, cut.order().size());
        take(cut);
        assertEquals("safe", view().oneShot().orElseThrow());
    }

    @Test
    void aSafeShotThatWasPassedByWithoutAFrameComesFirst() {
        step("safe", 1);
        step("two-off", 30);
        frame("two-off");
        Event.Recut cut = cut(120);
        assertEquals("two-off", cut.order().get(0));
        assertEquals("safe", cut.order().get(1));
    }

    @Test
    void aFrameThatIsLeftOutMakesItsShotComeAgain() {
        step("safe", 25);
        frame("safe");
        step("two-off", 25);
        frame("two-off");
        step("warm-front", 25);
        frame("warm-front");
        take(new Event.FrameMarked(2, Frame.Mark.OUT));
        assertTrue(cut(400).order().indexOf("two-off") > cut(400).order().indexOf("warm-front"));
    }

    @Test
    void ifThereIsNoTimeForTheNextTheOneToMakeIsNamed() {
        step("safe", 25);
        frame("safe");
        take(cut(8));
        assertEquals(1, state.course().order().size(), "nothing fits");
        WindowView tight = view();
        assertEquals(0, tight.fallsOff());
        // as written, the next would not fit either
        LiveState written = LiveState.NEW;
        for (Event e :
                List.of(
                        new Event.Ordered(IDS, List.of()),
                        new Event.ClockStarted(),
                        new Event.WentTo(1, "safe"))) {
            written = written.after(e, now);
        }
        long nearlyOver = now + 470_000;
        WindowNow late = WindowNow.of(PLAN, written, VARIETY, nearlyOver);
        WindowView view = WindowView.of(late, written);
        assertTrue(view.fallsOff() > 0);
        assertTrue(view.oneShot().isPresent());
    }

    @Test
    void aRoundIsNeitherInterruptedNorMadeTwice() {
        step("safe", 25);
        frame("safe");
        step("solo-ines", 12);
        frame("solo-ines");
        List<String> order = cut(60).order();
        int last = 0;
        for (int i = 2; i < order.size(); i++) {
            if (order.get(i).startsWith("solo-")) {
                assertTrue(last == 0 || last == i - 1, order.toString());
                last = i;
            }
        }
        assertEquals(order.size(), new HashSet<>(order).size());
    }

    /** What holds whatever was done before: states from seeded presses. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
    void whateverWasDoneBefore(long seed) {
        Random random = new Random(seed);
        for (int press = 0; press < 25; press++) {
            List<String> order = state.course().order();
            switch (random.nextInt(5)) {
                case 0 -> step(order.get(random.nextInt(order.size())), random.nextInt(40));
                case 1 -> {
                    if (!state.shot().isEmpty()) {
                        frame(state.shot());
                        now += 2000;
                    }
                }
                case 2 -> {
                    if (!state.frames().isEmpty()) {
                        int number = 1 + random.nextInt(state.frames().size());
                        take(
                                new Event.FrameMarked(
                                        number, MARKS.get(random.nextInt(MARKS.size()))));
                    }
                }
                default -> {
                    double seconds = 5 + random.nextInt(600);
                    Event.Recut cut = cut(seconds);
                    holds(cut, seconds);
                    take(cut);
                }
            }
        }
    }

    private void holds(Event.Recut cut, double seconds) {
        Set<String> all = new HashSet<>(cut.order());
        assertEquals(cut.order().size(), all.size(), "nothing comes twice");
        all.addAll(cut.leftOut());
        assertEquals(new HashSet<>(IDS), all, "nothing is lost");
        List<String> behind = new ArrayList<>();
        if (!state.shot().isEmpty()) {
            behind.addAll(cut.order().subList(0, cut.order().indexOf(state.shot()) + 1));
        }
        List<String> ahead = cut.order().subList(behind.size(), cut.order().size());
        ahead.forEach(id -> assertFalse(state.made(id), id + " is made"));
        boolean safeMade = state.made("safe") || state.shot().equals("safe");
        if (!safeMade && !ahead.isEmpty()) {
            assertEquals("safe", ahead.get(0));
        }
        LiveState after = state.after(cut, now);
        assertEquals(state.shot(), after.shot());
        WindowView view = WindowView.of(WindowNow.of(PLAN, after, VARIETY, now), after);
        boolean onlySafe = ahead.equals(List.of("safe"));
        boolean one = ahead.size() == 1 && state.shot().isEmpty();
        if (!onlySafe && !one) {
            assertEquals(0, view.fallsOff(), () -> "of " + ahead + " in " + seconds);
        }
    }
}

package lookstep.server;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import lookstep.server.gear.CameraControl;
import lookstep.server.lighting.Lighting;
import lookstep.server.live.Event;
import lookstep.server.live.LiveState;
import lookstep.server.live.PlateStep;
import lookstep.server.plan.CameraSettings;
import org.junit.jupiter.api.Test;

class CameraHandTest {
    private final Lighting lighting = new Lighting(TestPlans.threeShots());
    private final List<CameraSettings> wanted = new ArrayList<>();
    private Consumer<CameraControl.Standing> watcher;

    private final CameraHand hand =
            new CameraHand(
                    new CameraControl() {
                        @Override
                        public void want(CameraSettings settings) {
                            wanted.add(settings);
                        }

                        @Override
                        public void release() {}

                        @Override
                        public void watch(Consumer<Standing> tell) {
                            watcher = tell;
                        }
                    },
                    () -> {});

    private LiveState state = LiveState.NEW.after(new Event.Opened("hash"), 0);

    private void happens(Event event) {
        state = state.after(event, 0);
        hand.want(state, lighting.shown(state));
    }

    @Test
    void aStepIsAWishAndWhatIsTurnedByHandSinceThenStays() {
        happens(new Event.ClockStarted());
        assertEquals(0, wanted.size(), "under the work light the camera is its own");
        happens(new Event.WentTo(1, "safe"));
        assertEquals(1, wanted.size());
        happens(new Event.ClockPaused());
        happens(new Event.FileLeftOut(new Event.FileMark("x", 1, 1), "a copy"));
        assertEquals(1, wanted.size());
        happens(new Event.SameAgain());
        happens(new Event.WentTo(2, "warm-front"));
        assertEquals(3, wanted.size());
        // the plan's: safe at 4300 K, warm front at 3000 K
        assertEquals(
                List.of(4300.0, 4300.0, 3000.0),
                wanted.stream().map(CameraSettings::kelvin).toList());
    }

    @Test
    void platesAreAWishAlsoUnderTheWorkLight() {
        CameraSettings set = new CameraSettings(8, 1 / 60.0, 1600, 4300);
        happens(
                new Event.PlatesBegun(
                        "plates-1",
                        "safe",
                        "safe",
                        set,
                        lighting.hangsOn("safe").orElseThrow(),
                        "",
                        true,
                        List.of(
                                new PlateStep(
                                        "house only",
                                        "",
                                        0,
                                        List.of(
                                                List.of(0.0, 0.0),
                                                List.of(0.0, 0.0),
                                                List.of(0.0, 0.0, 0.0, 0.0),
                                                List.of(0.0, 0.0, 0.0, 0.0))))));
        assertEquals(List.of(set), wanted);
        watcher.accept(new CameraControl.Standing(true, true, List.of()));
        assertTrue(hand.canRelease());
        watcher.accept(new CameraControl.Standing(false, true, List.of()));
        assertFalse(hand.canRelease());
    }

    @Test
    void aCameraThatIsGoneLeavesNothingToDoByHand() {
        watcher.accept(new CameraControl.Standing(true, true, List.of("set f/8")));
        assertEquals(List.of("set f/8"), hand.byHand());
        watcher.accept(new CameraControl.Standing(false, false, List.of("set f/8")));
        assertEquals(List.of(), hand.byHand());
    }
}

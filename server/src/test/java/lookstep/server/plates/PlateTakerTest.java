package lookstep.server.plates;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.protocols.image.ExifData;
import lookstep.server.live.Event.PlateAsked;
import lookstep.server.live.Event.PlateTaken;
import lookstep.server.live.Event.PlatesBegun;
import lookstep.server.live.Frame;
import lookstep.server.live.PlateRun;
import lookstep.server.live.PlateSet;
import lookstep.server.live.PlateStep;
import lookstep.server.plan.CameraSettings;
import lookstep.simulator.gear.Fault;
import lookstep.simulator.model.plates.CodedPicture;
import lookstep.simulator.model.plates.Registration.Shift;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** On the demo's set, with the simulated camera and what can go wrong with both. */
class PlateTakerTest {
    private static final long SETTLE = PlateTaker.SETTLE_NANOS;

    @TempDir Path dir;

    private SetWithPlates set;

    @BeforeEach
    void open() throws Exception {
        set = new SetWithPlates(dir);
    }

    @AfterEach
    void close() {
        set.close();
    }

    private PlateSet whole() {
        return set.live.state().plates().set().orElseThrow();
    }

    private boolean ended() {
        return set.live.state().plates().run().isEmpty();
    }

    private void untilStep(int step) throws Exception {
        set.passUntil(() -> set.run().at() == step);
    }

    private String why(int step) {
        return set.run().newestAsked(step).map(PlateAsked::why).orElse("");
    }

    @Test
    void aCameraThatIsReleasedTakesThemAllByItself() throws Exception {
        PlatesBegun begun = set.begin();
        set.passUntil(this::ended);
        PlateRun run = whole().run();
        assertEquals(begun.steps(), run.steps());
        assertEquals(17, run.taken().size());
        assertEquals(17, set.releases);
        assertEquals(List.of(), run.asked());
        for (PlateTaken taken : run.taken().values()) {
            assertEquals(taken.step() + 1, taken.number());
        }
        assertTrue(set.live.state().frames().stream().allMatch(Frame::ofPlates));
        assertTrue(set.live.state().clock().fresh());
        assertEquals("", set.taker.taking().says());
    }

    @Test
    void theShutterWaitsForTheFadeAndUntilTheLightIsSteady() throws Exception {
        set.arrived = false;
        set.begin();
        set.pass(5);
        assertEquals(0, set.releases);
        set.arrived = true;
        set.taker.doWork(set.nowNanos);
        set.taker.doWork(set.nowNanos + SETTLE - 1);
        assertEquals(0, set.releases);
        set.taker.doWork(set.nowNanos + SETTLE);
        assertEquals(1, set.releases);
    }

    @Test
    void aReleaseThatGivesNoFrameIsAskedAgainTwiceAndThenSomebodyMustSaySo() throws Exception {
        set.misbehave(new Fault.CameraAsleep(4));
        set.begin();
        set.passUntil(() -> set.releases == 1);
        long released = set.nowNanos;
        set.nowNanos = released + PlateTaker.PATIENCE_NANOS - 100 * SetWithPlates.MILLI;
        set.taker.doWork(set.nowNanos);
        assertEquals(List.of(), set.run().asked());
        set.pass(0.2);
        assertEquals("no frame came: is the camera awake, and is there room on its card?", why(0));
        set.pass(40);
        assertEquals(3, set.releases);
        assertEquals(2, set.run().asked().size());
        assertTrue(set.taker.taking().waits());
        assertFalse(set.taker.taking().canBeUsed());
        set.pass(60);
        assertEquals(3, set.releases);
        set.live.askPlate(new PlateAsked(set.run().id(), 0, "", true, List.of()));
        untilStep(1);
        assertEquals(5, set.releases);
    }

    @Test
    void aFrameThatIsTheOneBeforeIsAskedAgain() throws Exception {
        set.begin();
        untilStep(3);
        set.misbehave(new Fault.DoubledFrame());
        set.passUntil(() -> !set.run().asked().isEmpty());
        assertEquals(3, set.run().at());
        assertTrue(why(3).startsWith("it is the same as the frame before"), why(3));
        set.passUntil(this::ended);
        assertEquals(1, whole().run().asked().size());
        assertEquals(17, whole().run().taken().size());
    }

    @Test
    void aFrameOfTheHouseOnlyIsNoLight() throws Exception {
        set.begin();
        untilStep(1);
        set.misbehave(new Fault.DoubledFrame());
        set.passUntil(() -> !set.run().asked().isEmpty());
        assertTrue(why(1).startsWith("it shows the house only"), why(1));
        assertTrue(why(1).contains("‘key’"), why(1));
    }

    @Test
    void twoLightsThatHaveEachOthersAddressAreTold() throws Exception {
        set.misbehave(new Fault.LightsSwapped("key", "rim"));
        set.begin();
        set.passUntil(() -> set.taker.taking().waits());
        assertEquals(1, set.run().at());
        assertTrue(
                set.taker.taking().says().startsWith("this looks like ‘rim’ and not like ‘key’"),
                set.taker.taking().says());
        assertTrue(set.taker.taking().canBeUsed());
        set.mend();
        set.live.askPlate(new PlateAsked(set.run().id(), 1, "", true, List.of()));
        set.passUntil(this::ended);
        assertEquals(17, whole().run().taken().size());
    }

    @Test
    void everyPairOfLightsIsToldApart() throws Exception {
        List<String> lights = List.of("key", "fill", "rim", "top");
        List<String> told = new ArrayList<>();
        for (String one : lights) {
            for (String other : lights) {
                if (lights.indexOf(one) < lights.indexOf(other)) {
                    set.mend();
                    set.misbehave(new Fault.LightsSwapped(one, other));
                    set.begin();
                    set.passUntil(() -> ended() || set.taker.taking().waits());
                    if (!ended() && set.taker.taking().says().contains("this looks like")) {
                        told.add(one + " " + other);
                    }
                    if (!ended()) {
                        set.live.giveUpPlates(set.run().id(), "by hand");
                        set.pass(1);
                    }
                }
            }
        }
        assertEquals(
                List.of("key fill", "key rim", "key top", "fill rim", "fill top", "rim top"), told);
    }

    /** Held against the seam: the shift itself is {@code Registration}'s to find. */
    @Test
    void aCameraThatHasMovedIsTold() throws Exception {
        set.begin();
        untilStep(2);
        set.shift = new Shift(0.01, -0.004, 0.8);
        set.passUntil(() -> !set.run().asked().isEmpty());
        assertTrue(why(2).startsWith("the camera moved by 1.0 %"), why(2));
        set.shift = new Shift(0.01, -0.004, 0.3);
        set.passUntil(this::ended);
    }

    /** The house retaken in a set is held against a frame of the rest. */
    @Test
    void aHouseFrameThatIsTakenAgainIsHeldAgainstAnother() throws Exception {
        set.begin();
        set.passUntil(this::ended);
        String id = whole().id();
        set.shift = new Shift(0.01, 0, 0.8);
        set.live.askPlate(new PlateAsked(id, 0, "", true, List.of()));
        set.passUntil(() -> set.run().asked().size() > 1);
        assertTrue(why(0).startsWith("the camera moved by 1.0 %"), why(0));
        set.shift = new Shift(0, 0, 0.9);
        set.dials = c -> c.withExposure(5.6, c.seconds(), c.iso());
        set.passUntil(() -> set.run().asked().size() > 2);
        assertEquals("f/5.6, and the others have f/8: set it back", why(0));
        set.dials = c -> c;
        set.live.askPlate(new PlateAsked(id, 0, "", true, List.of()));
        set.passUntil(this::ended);
        assertEquals(17, whole().run().taken().size());
    }

    @Test
    void aHouseFrameOfAnotherSizeIsNoneOfThese() throws Exception {
        set.begin();
        set.passUntil(this::ended);
        set.eye =
                seen ->
                        seen.number() > 17
                                ? new SeenPlate(
                                        seen.number(),
                                        CodedPicture.of(
                                                new BufferedImage(
                                                        160, 240, BufferedImage.TYPE_INT_RGB)),
                                        seen.exif())
                                : seen;
        set.live.askPlate(new PlateAsked(whole().id(), 0, "", true, List.of()));
        set.passUntil(() -> set.run().asked().size() > 1);
        assertEquals(
                "it has 160 x 240 pixels, the others 240 x 160: hold the camera the same way, and leave size and format as they were",
                why(0));
    }

    /** Exif 2.3 (CIPA DC-008), 4.6.5: WhiteBalance is 0 for automatic, 1 for manual. */
    @Test
    void anAutomaticWhiteBalanceIsAskedAgainAndAnUnknownOneIsADoubt() throws Exception {
        set.eye =
                seen ->
                        new SeenPlate(
                                seen.number(),
                                seen.picture(),
                                ExifData.builder().whiteBalanceAutomatic(true).build());
        set.begin();
        set.passUntil(() -> !set.run().asked().isEmpty());
        assertEquals("white balance is automatic: set it to 4300 K by hand", why(0));
        set.eye = seen -> new SeenPlate(seen.number(), seen.picture(), ExifData.UNKNOWN);
        untilStep(2);
        assertEquals(
                "the camera does not say whether its white balance is fixed",
                set.run().taken().get(0).says());
        assertEquals("", set.run().taken().get(1).says());
    }

    /** The frame of each light, turned about its middle, against the house. */
    @Test
    void aCameraThatHasTurnedIsTold() throws Exception {
        set.begin();
        set.passUntil(this::ended);
        SeenPlate house = set.seen(set.live.state().frames().get(0)).orElseThrow();
        PlateChecks checks = checks();
        for (int step = 1; step < 17; step++) {
            SeenPlate lit = set.seen(set.live.state().frames().get(step)).orElseThrow();
            assertEquals("", verdict(checks, step, lit, house).wrong());
            assertEquals(
                    "the camera has turned or the zoom has moved: put it back as it was, or give up and take them all again",
                    verdict(
                                    checks,
                                    step,
                                    new SeenPlate(2, turned(lit.picture()), lit.exif()),
                                    house)
                            .wrong());
        }
    }

    private PlateVerdict verdict(PlateChecks checks, int step, SeenPlate lit, SeenPlate house) {
        return checks.of(
                checks.known(whole().run().steps().get(step), lit),
                Optional.of(checks.known(whole().run().steps().get(0), house)),
                Optional.empty());
    }

    /** By 1 degree, clockwise. */
    private static CodedPicture turned(CodedPicture from) {
        BufferedImage image =
                new BufferedImage(from.width(), from.height(), BufferedImage.TYPE_INT_RGB);
        double c = Math.cos(Math.toRadians(1));
        double s = Math.sin(Math.toRadians(1));
        double mx = (from.width() - 1) / 2.0;
        double my = (from.height() - 1) / 2.0;
        for (int y = 0; y < from.height(); y++) {
            for (int x = 0; x < from.width(); x++) {
                double u =
                        Math.max(
                                0,
                                Math.min(from.width() - 1.001, mx + (x - mx) * c + (y - my) * s));
                double v =
                        Math.max(
                                0,
                                Math.min(from.height() - 1.001, my - (x - mx) * s + (y - my) * c));
                int rgb = 0;
                for (int channel = 0; channel < 3; channel++) {
                    int l = (int) u;
                    int t = (int) v;
                    double fu = u - l;
                    double fv = v - t;
                    double code =
                            (1 - fv)
                                            * ((1 - fu) * from.code(l, t, channel)
                                                    + fu * from.code(l + 1, t, channel))
                                    + fv
                                            * ((1 - fu) * from.code(l, t + 1, channel)
                                                    + fu * from.code(l + 1, t + 1, channel));
                    rgb = rgb * 256 + (int) Math.round(code);
                }
                image.setRGB(x, y, rgb);
            }
        }
        return CodedPicture.of(image);
    }

    private PlateChecks checks() {
        PlatesBegun begun = set.live.state().plates().set().orElseThrow().run().begun();
        return new PlateChecks(
                ModelledPlates.of(
                        set.lightings.of(set.live.state()).plan(),
                        set.lightings.of(set.live.state()).shot(set.live.state()),
                        set.lightings.of(set.live.state()).plan().look(begun.look()),
                        begun.camera(),
                        true),
                begun.camera(),
                PlateArithmetic::motion);
    }

    /** A slow frame of the fade comes when its light is there; it was taken too early. */
    @Test
    void aFrameOfTheFadeIsTooEarlyHoweverLateItComes() throws Exception {
        set.close();
        set.hand = true;
        set.restart();
        set.begin();
        set.pass(2);
        set.photograph();
        set.arrived = false;
        set.pass(0.5);
        assertEquals(1, set.run().at());
        set.wayMillis = 1500;
        set.photograph();
        set.pass(0.25);
        set.arrived = true;
        // by the quickest frame it was taken 350 ms before the light was there
        set.pass(3);
        assertEquals(2, set.live.state().frames().size());
        assertEquals(1, set.run().at());
        assertEquals("that was too early: take a frame now", set.taker.taking().says());
    }

    /** Of the ramp: 1, 1/2, 1/4, ... of one light. */
    @Test
    void withoutFractionsOfASecondTheRampTellsAFrameOfTheFade() throws Exception {
        set.close();
        set.hand = true;
        set.wholeSeconds = true;
        set.restart();
        PlatesBegun begun = set.begin();
        int quarter =
                begun.steps().stream().map(PlateStep::name).toList().indexOf("‘top’ white at 1/4");
        while (set.run().at() < quarter) {
            byHand();
        }
        assertEquals(List.of(), set.run().asked());
        int taken = set.live.state().frames().size();
        SeenPlate half = set.seen(set.live.state().frames().get(taken - 1)).orElseThrow();
        set.eye =
                seen ->
                        seen.number() == taken + 1
                                ? new SeenPlate(
                                        seen.number(),
                                        between(half.picture(), seen.picture()),
                                        seen.exif())
                                : seen;
        byHand();
        assertEquals(quarter, set.run().at());
        assertTrue(why(quarter).contains("stops brighter than its light says"), why(quarter));
        while (!ended()) {
            byHand();
        }
        assertEquals(1, whole().run().asked().size());
    }

    private void byHand() throws Exception {
        set.passUntil(() -> ended() || set.taker.taking().byHand());
        if (!ended()) {
            set.photograph();
            set.pass(1);
        }
    }

    /** A quarter of the way of the fade. */
    private static CodedPicture between(CodedPicture from, CodedPicture to) {
        BufferedImage image =
                new BufferedImage(to.width(), to.height(), BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < to.height(); y++) {
            for (int x = 0; x < to.width(); x++) {
                int rgb = 0;
                for (int c = 0; c < 3; c++) {
                    rgb = rgb * 256 + (3 * from.code(x, y, c) + to.code(x, y, c)) / 4;
                }
                image.setRGB(x, y, rgb);
            }
        }
        return CodedPicture.of(image);
    }

    @Test
    void anotherFNumberIsAskedAgainAndAnotherTimeIsNot() throws Exception {
        set.begin();
        untilStep(1);
        set.dials = c -> c.withExposure(5.6, c.seconds(), c.iso());
        set.passUntil(() -> !set.run().asked().isEmpty());
        assertEquals("f/5.6, and the others have f/8: set it back", why(1));
        set.dials = c -> c.withExposure(c.fNumber(), 1 / 80.0, c.iso());
        set.passUntil(() -> set.run().at() == 2);
        assertEquals(1, set.run().asked().size());
        set.dials = c -> c.withWhiteBalance(5600);
        set.passUntil(() -> set.run().asked().size() == 2);
        assertEquals(
                "5600 K, and the others have 4300 K: set the white balance to a fixed 4300 K",
                why(2));
    }

    @Test
    void whatBurnsIsAskedAgainWithHalfTheLight() throws Exception {
        CameraSettings bright = new CameraSettings(8, 1 / 100.0, 51200, 4300);
        PlatesBegun dim =
                PlateBeginning.of(set.lightings.of(set.live.state()), set.live.state(), false, 1);
        set.live.beginPlates(
                new PlatesBegun(
                        dim.id(),
                        dim.shot(),
                        dim.look(),
                        bright,
                        dim.hangsOn(),
                        dim.standsOn(),
                        false,
                        dim.steps()));
        // red of the rim comes up to 0.7 of white at ISO 6400
        set.passUntil(() -> !set.run().asked().isEmpty());
        PlateAsked asked = set.run().asked().get(0);
        assertTrue(asked.why().endsWith("asked again with half the light"), asked.why());
        PlateStep was = dim.steps().get(asked.step());
        double before = sum(was);
        double now = asked.levels().stream().flatMap(List::stream).mapToDouble(d -> d).sum();
        assertEquals(before / 2, now, before / 20);
        assertEquals(asked.levels(), set.run().step().levels());
    }

    private static double sum(PlateStep step) {
        return step.levels().stream().flatMap(List::stream).mapToDouble(d -> d).sum();
    }

    @Test
    void aPhotographerIsCountedThroughAndToldWhenItWasTooEarly() throws Exception {
        set.close();
        set.hand = true;
        set.restart();
        set.begin();
        set.pass(2);
        assertEquals(0, set.releases);
        assertTrue(set.taker.taking().byHand());
        assertEquals("take a frame now", set.taker.taking().says());
        set.photograph();
        // the next light takes its time
        set.arrived = false;
        set.pass(0.5);
        assertEquals(1, set.run().at());
        set.photograph();
        set.pass(3);
        assertEquals(1, set.run().at());
        assertEquals(2, set.live.state().frames().size());
        set.arrived = true;
        set.pass(200);
        assertEquals(List.of(), set.run().asked());
        assertTrue(set.taker.taking().byHand());
        set.photograph();
        set.pass(0.5);
        assertEquals(2, set.run().at());
        assertEquals(3, set.run().taken().get(1).number());
    }

    @Test
    void aFrameThatWasExposedBeforeItsLightButComesAfterItIsPassedOver() throws Exception {
        set.close();
        set.hand = true;
        set.restart();
        set.begin();
        set.pass(1);
        set.photograph();
        // the camera's clock is known from this one, to the 300 ms of its way
        set.arrived = false;
        set.pass(0.35);
        assertEquals(1, set.run().at());
        set.wayMillis = 3000;
        set.photograph();
        set.pass(2);
        set.arrived = true;
        set.pass(0.9);
        assertEquals("take a frame now", set.taker.taking().says());
        set.pass(0.3);
        assertEquals(2, set.live.state().frames().size());
        assertEquals("that was too early: take a frame now", set.taker.taking().says());
        assertEquals(1, set.run().at());
        set.wayMillis = 300;
        set.photograph();
        set.pass(0.5);
        assertEquals(2, set.run().at());
        assertEquals(3, set.run().taken().get(1).number());
    }

    @Test
    void theNextLookGivesItUpAndTheShowGoesOn() throws Exception {
        set.begin();
        untilStep(4);
        set.live.step(0);
        set.pass(1);
        assertTrue(ended());
        assertEquals("given up at 5 of 17: the shoot went on", set.live.state().plates().gaveUp());
        assertEquals("", set.taker.taking().says());
        int releases = set.releases;
        set.pass(30);
        assertEquals(releases, set.releases);
    }

    @Test
    void afterARestartItGoesOnWhereItWas() throws Exception {
        set.begin();
        untilStep(6);
        set.restart();
        assertEquals(6, set.run().at());
        set.passUntil(this::ended);
        assertEquals(17, whole().run().taken().size());
        assertEquals(List.of(), whole().run().asked());
    }

    @Test
    void anEditOfTheRigGivesItUp() throws Exception {
        set.begin();
        untilStep(2);
        set.lightings.read(EditedRig.moved("fill"));
        set.pass(0.1);
        assertTrue(ended());
        assertEquals("given up at 3 of 17: the rig was edited", set.live.state().plates().gaveUp());
    }

    @Test
    void anEditOfTheShotGivesItUp() throws Exception {
        set.begin();
        untilStep(2);
        set.lightings.read(EditedRig.farther("safe"));
        set.pass(0.1);
        assertEquals(
                "given up at 3 of 17: the shot or the place was edited",
                set.live.state().plates().gaveUp());
    }

    @Test
    void aLookThatIsCalledOtherwiseDoesNotStopIt() throws Exception {
        set.begin();
        untilStep(2);
        set.lightings.read(EditedRig.called("safe", "calm"));
        set.pass(0.1);
        set.live.renamed("look", "safe", "calm");
        set.passUntil(this::ended);
        assertEquals("calm", whole().run().begun().look());
    }

    @Test
    void anotherSizeIsNoPlateOfThese() throws Exception {
        set.begin();
        untilStep(1);
        PlateChecks checks =
                new PlateChecks(
                        ModelledPlates.of(
                                set.lightings.of(set.live.state()).plan(),
                                set.lightings.of(set.live.state()).shot(set.live.state()),
                                set.lightings.of(set.live.state()).plan().looks().get(0),
                                set.run().begun().camera(),
                                true),
                        set.run().begun().camera(),
                        PlateArithmetic::motion);
        SeenPlate house = set.seen(set.live.state().frames().get(0)).orElseThrow();
        SeenPlate small =
                new SeenPlate(
                        2,
                        CodedPicture.of(new BufferedImage(160, 240, BufferedImage.TYPE_INT_RGB)),
                        house.exif());
        PlateVerdict verdict =
                checks.of(
                        checks.known(set.run().steps().get(1), small),
                        Optional.of(checks.known(set.run().steps().get(0), house)),
                        Optional.empty());
        assertEquals(
                "it has 160 x 240 pixels, the one with the house only 240 x 160: hold the camera the same way, and leave size and format as they were",
                verdict.wrong());
        assertFalse(verdict.canBeUsed());
    }
}

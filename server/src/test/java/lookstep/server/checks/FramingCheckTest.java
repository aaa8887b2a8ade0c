package lookstep.server.checks;

import static lookstep.server.checks.Plans.DEMO;
import static lookstep.server.checks.Plans.number;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lookstep.server.plan.Sensor;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.prediction.Formats;
import lookstep.server.prediction.Sight;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FramingCheckTest {
    private static List<Finding> of(ShootPlan plan, String id) {
        return FramingCheck.of(Staged.of(plan, Plans.shot(plan, id)));
    }

    /** What is left of 36 x 24 mm: for example 4:5 upright is 24 x 30 of 24 x 36. */
    @ParameterizedTest
    @CsvSource({
        "landscape 3:2, 1",
        "landscape 16:9, 0.84375",
        "portrait 4:5, 0.83333",
        "square, 0.66667",
        "spread, 0.94276",
        "cover, 0.94276"
    })
    void theCropOfEachFormat(String format, double share) {
        ShootPlan plan = Plans.with("framing: spread", "framing: " + format);
        assertEquals(share, Frame.of(Staged.of(plan, Plans.shot(plan, "spread"))).share(), 1e-4);
    }

    /** 35 mm at 4.2 m shows 4.2 x 36 / 35 = 4.32 m across at the face of the nearest. */
    @Test
    void roomAtTheSidesIsOfTheFieldOfView() {
        Shot solo = Plans.shot(DEMO, "solo-ines");
        Shot wide = Plans.changed(solo, List.of("Ines"), solo.arrangement(), 35, 4.2);
        Shot flat =
                new Shot(
                        "flat",
                        "flat",
                        false,
                        wide.look(),
                        wide.people(),
                        wide.arrangement(),
                        35,
                        4.2,
                        1.5,
                        "landscape 3:2",
                        List.of(),
                        5);
        List<Double> room = FramingCheck.room(DEMO, flat);
        // Half of 4.32 m less 0.17 of 1.63 m.
        assertEquals((2.16 - 0.2771) / 4.32, room.get(0), 0.004);
        assertEquals(room.get(0), room.get(1), 1e-9);
    }

    @Test
    void theMiddleOfAnOddNumberStandsInTheFold() {
        Shot spread = Plans.shot(DEMO, "spread");
        Shot five =
                Plans.changed(
                        spread,
                        List.of("Ines", "Marlo", "Petra", "Quill", "Tovah"),
                        spread.arrangement(),
                        35,
                        4.2);
        Finding fold = FramingCheck.of(Staged.of(DEMO, five)).get(1);
        assertEquals(Weight.WRONG, fold.weight());
        assertTrue(fold.says().startsWith("Petra stands in the fold"), fold.says());
        // Half a head (0.05 x 1.70 m) and 12.5 mm of 420 of the 4.32 m / 1.06 that a spread shows.
        assertEquals(0.085 + 12.5 / 420 * 4.32, number(fold, "stepAsideMetres"), 0.012);
        assertEquals(Weight.GOOD, of(DEMO, "spread").get(1).weight());
    }

    @Test
    void whoIsCutIsNamedAndTheDistanceMendsIt() {
        ShootPlan near = Plans.with("lens: 50\n    distance: 3.2", "lens: 85\n    distance: 2.4");
        Finding f = of(near, "tight-five").get(0);
        assertEquals(Weight.WRONG, f.weight());
        Change change = f.mend().orElseThrow().changes().get(0);
        String to =
                change.path().get(2).equals("distance")
                        ? "lens: 85\n    distance: " + change.value()
                        : "lens: " + change.value() + "\n    distance: 2.4";
        ShootPlan mended = Plans.with("lens: 50\n    distance: 3.2", to);
        assertEquals(Weight.GOOD, of(mended, "tight-five").get(0).weight(), to);
    }

    @Test
    void wordsWantAQuarter() {
        ShootPlan words = Plans.with("framing: spread", "framing: spread\n    text: left");
        Finding f = of(words, "spread").get(2);
        assertEquals(Weight.LOOK, f.weight());
        double metres = (double) f.mend().orElseThrow().changes().get(0).value();
        ShootPlan mended =
                Plans.with(
                        "lens: 35\n    distance: 4.2\n    framing: spread",
                        "lens: 35\n    distance: "
                                + metres
                                + "\n    framing: spread\n    text: left");
        assertEquals(Weight.GOOD, of(mended, "spread").get(2).weight());
    }

    /** 13 mm of 426 at the sides of a spread, of 216 at those of a cover, of 303 above. */
    @ParameterizedTest
    @CsvSource({"spread, 0.03052, 0.04290", "cover, 0.06019, 0.04290", "square, 0.03, 0.03"})
    void theMarginIsInMillimetresOfThePaper(String format, double side, double above) {
        ShootPlan plan = Plans.with("framing: spread", "framing: " + format);
        Finding f = of(plan, "spread").get(0);
        assertEquals(side, number(f, "leastWantedAsideShare"), 1e-5);
        assertEquals(above, number(f, "leastWantedAboveShare"), 1e-5);
    }

    /** A solo of 4:5 in the middle of the room that a page draws is where the check has it. */
    @Test
    void theCheckAndTheDrawnPictureAgree() {
        Shot shot =
                DEMO.shots().stream()
                        .filter(s -> s.framing().equals("portrait 4:5"))
                        .findFirst()
                        .orElseThrow();
        Staged s = Staged.of(DEMO, shot);
        Frame frame = Frame.of(s);
        Formats.Crop crop = Formats.crop(shot.framing(), Sensor.FULL_FRAME);
        Sight sight =
                new Sight(s.camera(), Formats.pictureAspect(shot.framing(), Sensor.FULL_FRAME), 1);
        Vec3 hand = s.scene().figures().get(0).face().plus(new Vec3(0.2, 0, -0.3));
        Sight.At at = sight.at(hand);
        double x = (at.x() - crop.left()) / (crop.right() - crop.left());
        double y = (at.y() - crop.top()) / (crop.bottom() - crop.top());
        assertEquals((1 + frame.x(hand)) / 2, x, 1e-9);
        assertEquals((1 - frame.y(hand)) / 2, y, 1e-9);
    }
}

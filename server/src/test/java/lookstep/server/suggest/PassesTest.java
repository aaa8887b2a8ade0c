package lookstep.server.suggest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lookstep.server.look.LookLevels;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Colour;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.Look.Setting;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.prediction.Predictions;
import lookstep.server.prediction.ShotNumbers;
import lookstep.server.prediction.Staging;
import lookstep.server.suggest.Passes.Allowed;
import lookstep.server.suggest.Passes.Refusal;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.picture.LinearPicture;
import lookstep.simulator.model.picture.Plates;
import lookstep.simulator.model.picture.Renderer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PassesTest {
    private static final Allowed STRICT = new Allowed(false, false);

    private static final ShootPlan PLAN = Rigs.four();
    private static final Shot SHOT = Rigs.first(PLAN);
    private static final Plates LARGE =
            Renderer.plates(Staging.scene(PLAN, SHOT), Staging.camera(PLAN, SHOT), 720, 480);
    private static final Search SEARCH = Rigs.search(PLAN, Options.usual(2).listing(100, 1));

    private Passes of(Look look) {
        return SEARCH.candidates().worked(look).passes();
    }

    private Look key(double percent, double iso, Colour colour) {
        Map<String, Setting> lights = new LinkedHashMap<>();
        lights.put("key", new Setting(new Level.Percent(percent), colour));
        lights.put("rim", new Setting(new Level.StopsFromKey(1), new Colour.Temperature(4300)));
        return new Look("", new CameraSettings(6.3, 0.01, iso, 4300), 0, "key", lights);
    }

    /** ISO 2720 by the checks' own arithmetic on points, here by pixels of a small picture. */
    @ParameterizedTest
    @CsvSource({"safe", "two lights off", "'warm front, cold back'"})
    void facesAreAsLightAsTheNumbersOfTheShotSay(String look) {
        double metered = ShotNumbers.of(PLAN, SHOT.of(look, SHOT.people())).stopsOver();
        assertEquals(metered, of(PLAN.look(look)).faceStops(), 0.35, look);
    }

    /**
     * The same definition on a picture 720 pixels wide, by code that shares nothing with it; a thin
     * bright edge counts for less in a small one.
     */
    @ParameterizedTest
    @CsvSource({"safe", "two lights off", "'warm front, cold back'", "colour"})
    void separationIsThatOfALargePicture(String name) {
        Look look = PLAN.look(name);
        Camera camera = Staging.camera(PLAN, SHOT, look).exact().focused(Camera.ALL_SHARP);
        LinearPicture picture =
                LARGE.compose(
                        Predictions.intensities(PLAN, LookLevels.of(PLAN, look).levels()),
                        Predictions.houseWhite(PLAN),
                        camera);
        double least = Double.POSITIVE_INFINITY;
        for (int f = 0; f < SHOT.people().size(); f++) {
            List<Double> stops = outline(LARGE, picture, f);
            List<Double> sorted = stops.stream().sorted().toList();
            assertEquals(picture.separationStops(f), sorted.get(sorted.size() / 2), 1e-3);
            List<Double> sizes = stops.stream().map(Math::abs).sorted().toList();
            least = Math.min(least, sizes.get(sizes.size() / 2));
        }
        double small = of(look).separationStops();
        assertTrue(small < least + 0.35 && small > least - 0.9, name + " " + small + ", " + least);
    }

    private static List<Double> outline(Plates lit, LinearPicture picture, int figure) {
        List<Double> stops = new ArrayList<>();
        for (int y = 5; y < lit.height() - 5; y++) {
            for (int x = 5; x < lit.width() - 5; x++) {
                for (int[] step : new int[][] {{-1, 0}, {1, 0}, {0, -1}, {0, 1}}) {
                    if (shows(lit, x, y, figure)
                            && !shows(lit, x + step[0], y + step[1], figure)
                            && !shows(lit, x + 2 * step[0], y + 2 * step[1], figure)) {
                        double inside = 0;
                        double outside = 0;
                        for (int k = 0; k < 4; k++) {
                            if (shows(lit, x - k * step[0], y - k * step[1], figure)) {
                                inside =
                                        Math.max(
                                                inside,
                                                light(picture, x - k * step[0], y - k * step[1]));
                            }
                        }
                        for (int k = 2; k <= 4; k++) {
                            outside += light(picture, x + k * step[0], y + k * step[1]) / 3;
                        }
                        double black = 1 / 1024.0;
                        stops.add(
                                Math.log(Math.max(inside, black) / Math.max(outside, black))
                                        / Math.log(2));
                        break;
                    }
                }
            }
        }
        return stops;
    }

    private static boolean shows(Plates lit, int x, int y, int figure) {
        return lit.ownerAt(x, y) == figure && lit.partAt(x, y).ofFigure();
    }

    private static double light(LinearPicture picture, int x, int y) {
        double[] rgb = picture.at(x, y);
        return 0.2126 * rgb[0] + 0.7152 * rgb[1] + 0.0722 * rgb[2];
    }

    @Test
    void eachFaultIsNamed() {
        Colour white = new Colour.Temperature(4300);
        assertEquals(Optional.empty(), of(key(100, 6400, white)).refusal(STRICT));
        assertEquals(Optional.of(Refusal.FACES_DARK), of(key(100, 2000, white)).refusal(STRICT));
        assertEquals(Optional.of(Refusal.FACES_BRIGHT), of(key(100, 25600, white)).refusal(STRICT));
        assertEquals(Optional.of(Refusal.FACES_DARK), of(PLAN.look("rim only")).refusal(STRICT));
        Look none = new Look("", PLAN.look("safe").camera(), 0, "key", Map.of());
        assertEquals(Optional.of(Refusal.BLACK), of(none).refusal(new Allowed(true, false)));
    }

    @Test
    void aFaceInAStrongColourPassesOnlyIfThatIsAllowed() {
        Map<String, Setting> lights = new LinkedHashMap<>();
        lights.put("top", new Setting(new Level.Percent(100), new Colour.HueSaturation(120, 0.9)));
        Look green = new Look("", new CameraSettings(2.8, 0.02, 12800, 4300), 0, "top", lights);
        Passes passes = of(green);
        assertTrue(passes.faceColour() > 1.5, passes.toString());
        Passes white = of(PLAN.look("safe"));
        assertTrue(white.faceColour() < 0.5, white.toString());
        Passes warm = of(key(100, 8000, new Colour.Temperature(2700)));
        assertTrue(warm.faceColour() < 1, warm.toString());
        Passes lit = new Passes(0, 0, 1.5, 1, 0, 1);
        assertEquals(Optional.of(Refusal.FACES_COLOURED), lit.refusal(STRICT));
        assertEquals(Optional.empty(), lit.refusal(new Allowed(false, true)));
    }

    @ParameterizedTest
    @CsvSource({
        "0, 0, 1, 0.0, 1, ",
        "-1.3, -1.3, 1, 0, 1, FACES_DARK",
        "0.9, 0.9, 1, 0, 1, FACES_BRIGHT",
        "0, -2.6, 1, 0, 1, FACE_LEFT_DARK",
        "0, 0, 0.4, 0, 1, NOT_APART",
        "0, 0, 1, 0.05, 1, BURNT",
        "0, 0, 1, 0, 0.01, BLACK",
        "NaN, NaN, NaN, 0, 1, "
    })
    void limitsHoldAsTheyAreSaid(
            double face, double darkest, double apart, double burnt, double lit, Refusal why) {
        Passes passes = new Passes(face, darkest, 0, apart, burnt, lit);
        assertEquals(Optional.ofNullable(why), passes.refusal(STRICT));
    }

    @Test
    void aSilhouetteIsNoFaultWhereItIsAskedFor() {
        Passes dark = new Passes(-5, -6, 2, 2, 0, 0.5);
        assertEquals(Optional.of(Refusal.FACES_DARK), dark.refusal(STRICT));
        assertEquals(Optional.empty(), dark.refusal(new Allowed(true, false)));
        Passes between = new Passes(-3, -4, 0, 2, 0, 0.5);
        assertEquals(Optional.of(Refusal.FACES_DARK), between.refusal(new Allowed(true, false)));
    }
}

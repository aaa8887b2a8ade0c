package lookstep.server.checks;

import static lookstep.server.checks.Plans.DEMO;
import static lookstep.server.checks.Plans.number;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import lookstep.server.look.LookLevels;
import lookstep.server.plan.ShootPlan;
import lookstep.server.prediction.Predictions;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.picture.LinearPicture;
import lookstep.simulator.model.picture.Part;
import lookstep.simulator.model.picture.Plates;
import lookstep.simulator.model.picture.Renderer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What the checks say against what is in the pixels. The checks work at single points on plain
 * shapes; the picture traces solids with folds, hair and shadows. So they agree within tolerances,
 * not to the last digit.
 */
class ModelAndPictureAgreeTest {
    private static final int WIDTH = 720;
    private static final int HEIGHT = 480;

    private record Made(Staged staged, Plates plates, LinearPicture picture) {
        static Made of(ShootPlan plan, String shot) {
            Staged s = Staged.of(plan, Plans.shot(plan, shot));
            Camera sharp = s.camera().focused(Camera.ALL_SHARP);
            Plates plates = Renderer.plates(s.scene(), sharp, WIDTH, HEIGHT);
            return new Made(
                    s,
                    plates,
                    plates.compose(
                            Predictions.intensities(
                                    s.plan(), LookLevels.of(s.plan(), s.look()).levels()),
                            Predictions.houseWhite(s.plan()),
                            sharp));
        }

        double luminance(int x, int y) {
            double[] c = picture.at(x, y);
            return 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2];
        }

        boolean shows(int x, int y, int who) {
            return plates.ownerAt(x, y) == who && plates.partAt(x, y).ofFigure();
        }
    }

    /** Outermost pixels of each row, left and right: the brightest of four inside over outside. */
    private static double outline(Made m, int who) {
        List<Double> stops = new ArrayList<>();
        for (int y = 4; y < HEIGHT - 4; y++) {
            int left = -1;
            int right = -1;
            for (int x = 0; x < WIDTH; x++) {
                if (m.shows(x, y, who)) {
                    left = left < 0 ? x : left;
                    right = x;
                }
            }
            if (left > 5 && right < WIDTH - 6 && right - left > 3) {
                edge(m, who, left, y, 1, stops);
                edge(m, who, right, y, -1, stops);
            }
        }
        Collections.sort(stops);
        return stops.get(stops.size() / 2);
    }

    private static void edge(Made m, int who, int x, int y, int in, List<Double> stops) {
        int next = m.plates().ownerAt(x - 2 * in, y);
        if (next >= 0 && next != who && m.plates().partAt(x - 2 * in, y).ofFigure()) {
            return; // somebody stands there: an edge of theirs as likely as of this one
        }
        double inside = 0;
        double outside = 0;
        for (int k = 1; k <= 3; k++) {
            inside = Math.max(inside, m.luminance(x + k * in, y));
            outside += m.luminance(x - (k + 1) * in, y) / 3;
        }
        stops.add(
                Math.log(Math.max(inside, 1 / 1024.0) / Math.max(outside, 1 / 1024.0))
                        / Math.log(2));
    }

    /** Of those who stand free of the others. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "solo-ines",
                "solo-marlo",
                "solo-petra",
                "solo-quill",
                "solo-tovah",
                "spread"
            })
    void separationAlongOutlines(String shot) {
        Made m = Made.of(DEMO, shot);
        Finding f = SeparationCheck.of(m.staged()).get(0);
        for (int i = 0; i < m.staged().scene().figures().size(); i++) {
            String name = m.staged().name(i);
            assertEquals(outline(m, i), number(f, "stops " + name), 0.75, shot + ": " + name);
        }
    }

    /** With the lights behind off, both lose the same. */
    @Test
    void withoutLightFromBehindBothSayLess() {
        ShootPlan flat =
                Plans.with(
                        "\n      rim: {stops: +1, kelvin: 5600}\n      top: {stops: 0, kelvin: 5600}",
                        "");
        Made with = Made.of(DEMO, "solo-petra");
        Made without = Made.of(flat, "solo-petra");
        double picture = outline(with, 0) - outline(without, 0);
        double check =
                number(SeparationCheck.of(with.staged()).get(0), "stops Petra")
                        - number(SeparationCheck.of(without.staged()).get(0), "stops Petra");
        assertTrue(picture > 0.3, "in the picture " + picture);
        assertEquals(picture, check, 0.75);
    }

    @ParameterizedTest
    @ValueSource(strings = {"safe", "warm-front", "spread", "solo-petra"})
    void theBackgroundsTone(String shot) {
        Made m = Made.of(DEMO, shot);
        Frame frame = Frame.of(m.staged());
        double sum = 0;
        int n = 0;
        for (int y = 0; y < HEIGHT; y++) {
            for (int x = 0; x < WIDTH; x++) {
                if (m.plates().partAt(x, y) == Part.BACKGROUND && inside(frame, m, x)) {
                    sum += m.luminance(x, y);
                    n++;
                }
            }
        }
        double tone = Math.log(sum / n / 0.18) / Math.log(2);
        Finding f = RoomCheck.of(m.staged()).get(0);
        assertEquals(tone, number(f, "backgroundStopsFromGrey"), 0.35, shot);
    }

    private static boolean inside(Frame frame, Made m, int x) {
        double half =
                m.staged().camera().sensorLongMillimetres()
                        / 2
                        / m.staged().camera().focalMillimetres();
        return Math.abs((2.0 * x / WIDTH - 1) * half) < frame.halfWidth();
    }

    /**
     * A patch of skin of known reflectance on each forehead and cheek, against the light that the
     * check says is on the face: gloss and the turn of the head leave half a stop.
     */
    @ParameterizedTest
    @ValueSource(strings = {"safe", "warm-front", "spread", "tight-five"})
    void stopsOnTheFaces(String shot) {
        Made m = Made.of(DEMO, shot);
        Finding f = ExposureCheck.of(m.staged()).get(0);
        double scale = 1 / number(f, "meteredForLux");
        double sum = 0;
        int people = m.staged().scene().figures().size();
        for (int i = 0; i < people; i++) {
            double[] skin = m.picture().meanOf(i, Part.SKIN);
            double y = 0.2126 * skin[0] + 0.7152 * skin[1] + 0.0722 * skin[2];
            double expected =
                    number(f, "lux " + m.staged().name(i))
                            * scale
                            * m.staged().scene().figures().get(i).skin().luminous();
            sum += Math.log(y / expected) / Math.log(2) / people;
        }
        assertEquals(0, sum, 0.6, shot + ": pixels over the check, stops");
    }
}

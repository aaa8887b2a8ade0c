package lookstep.simulator.model.picture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lookstep.simulator.model.colour.Planck;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.light.Luminaire;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.scene.Reflectance;
import lookstep.simulator.model.scene.Room;
import lookstep.simulator.model.scene.Scene;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Blur measured in pictures. A lit disc is the target: its edge, derived, is the line spread of a
 * disc, whose variance is a sixteenth of the squared diameter (the second moment of an even disc,
 * any textbook of mechanics).
 */
class DefocusTest {
    private static final int WIDTH = 600;
    private static final int HEIGHT = 400;
    private static final Xyz WHITE = Planck.chromaticity(4300).toXyz(1);
    private static final Vec3 EYE = new Vec3(0, -4, 1.5);
    private static final Vec3 AHEAD = new Vec3(0, 0, 1.5);

    /** A black room that ends 12 m from the camera. */
    private static Room room() {
        Reflectance black = Reflectance.grey(0);
        return new Room(20, 14, 4, 8, black, black, black);
    }

    private static Camera camera(double lens, double f) {
        return new Camera(EYE, AHEAD, lens, f, 0.01, 800, 4300);
    }

    /** Its lit side to the camera, this far from it. */
    private static Luminaire target(double metres, double size) {
        Vec3 at = new Vec3(0, EYE.y() + metres, 1.5);
        return new Luminaire(at, EYE, 100, size);
    }

    private static LinearPicture picture(Luminaire lamp, Camera camera) {
        return Renderer.plates(
                        new Scene(List.of(), room(), List.of(lamp), 0), camera, WIDTH, HEIGHT)
                .compose(List.of(WHITE.times(50)), WHITE, camera);
    }

    /** Variance in pixels squared of the derivative around the right edge on the middle row. */
    private static double edgeVariance(LinearPicture p, double reach) {
        int edge = WIDTH / 2;
        while (p.at(edge, HEIGHT / 2)[1] > p.at(WIDTH / 2, HEIGHT / 2)[1] / 2) {
            edge++;
        }
        double sum = 0;
        double mean = 0;
        double square = 0;
        // The disc itself is not quite even: what lies far from its edge says nothing of the blur.
        int window = (int) Math.ceil(reach / 2 + 2);
        for (int x = edge - window; x <= edge + window; x++) {
            double step = p.at(x, HEIGHT / 2)[1] - p.at(x + 1, HEIGHT / 2)[1];
            sum += step;
            mean += step * x;
            square += step * x * x;
        }
        mean /= sum;
        return square / sum - mean * mean;
    }

    /**
     * The disc worked out by hand for each row: f^2 / N x |d - s| / (d (s - f)), in pixels of 36 mm
     * / 600 (thin lens; Ray, Applied Photographic Optics, from memory). 50 mm f/2, s 3 m, d 6 m:
     * 1250 x 3000 / (6000 x 2950) = 0.21186 mm = 3.53 px.
     */
    @ParameterizedTest
    @CsvSource({
        "50, 2, 3, 6, 3.531",
        "50, 2, 3, 10, 4.944",
        "50, 4, 3, 10, 2.472",
        "85, 2, 3, 9, 13.769",
        "35, 1.4, 2, 8, 5.566",
        "50, 1.4, 8, 4, 3.743",
        "85, 1.8, 8, 4, 8.452"
    })
    void aDiscIsAsWideAsTheFormulaSays(
            double lens, double f, double focus, double at, double pixels) {
        Luminaire lamp = target(at, 0.16 * at * 35 / lens);
        Camera camera = camera(lens, f);
        double sharp = edgeVariance(picture(lamp, camera), pixels);
        double blurred = edgeVariance(picture(lamp, camera.focused(focus)), pixels);
        double measured = 4 * Math.sqrt(blurred - sharp);
        assertEquals(pixels, measured, Math.max(0.1, 0.04 * pixels));
    }

    @ParameterizedTest
    @ValueSource(doubles = {2, 6})
    void lightIsNeitherMadeNorLost(double focus) {
        Luminaire lamp = target(4, 0.1);
        Camera camera = camera(85, 1.4);
        assertEquals(
                total(picture(lamp, camera)), total(picture(lamp, camera.focused(focus))), 0.5);
        assertTrue(total(picture(lamp, camera)) > 100);
    }

    private static double total(LinearPicture p) {
        double sum = 0;
        for (int y = 0; y < p.height(); y++) {
            for (int x = 0; x < p.width(); x++) {
                sum += p.at(x, y)[1];
            }
        }
        return sum;
    }

    @Test
    void whatIsWithinAPixelIsLeftAsItIs() {
        // 50 mm f/16, s 3 m: at 12 m 156.25 x 9000 / (12000 x 2950) = 0.0397 mm = 0.66 px.
        Luminaire lamp = target(6, 0.5);
        Camera camera = camera(50, 16);
        LinearPicture sharp = picture(lamp, camera);
        LinearPicture focused = picture(lamp, camera.focused(3));
        for (int x = 0; x < WIDTH; x++) {
            assertArrayEquals(sharp.at(x, 200), focused.at(x, 200), 0.0);
        }
    }

    /** White wall far behind, black person in focus: the wall must not shine into the person. */
    @Test
    void aBlurredBackgroundStaysOutOfWhatIsSharp() {
        Reflectance black = Reflectance.grey(0.001);
        Figure figure = new Figure(new Vec3(0, 0, 0), 0, 1.75, black, black, black, black, 0);
        Room bright =
                new Room(
                        20,
                        14,
                        4,
                        8,
                        Reflectance.grey(0.8),
                        Reflectance.grey(0),
                        Reflectance.grey(0));
        Scene scene = new Scene(List.of(figure), bright, List.of(), 400);
        Camera camera = camera(85, 1.4);
        Plates plates = Renderer.plates(scene, camera, WIDTH, HEIGHT);
        LinearPicture sharp = plates.compose(List.of(), WHITE, camera);
        LinearPicture p = plates.compose(List.of(), WHITE, camera.focused(3.92));
        int checked = 0;
        for (int y = 60; y < 380; y += 10) {
            for (int x = 20; x < WIDTH - 20; x++) {
                boolean inside = true;
                for (int k = -4; k <= 4; k++) {
                    for (int j = -4; j <= 4; j++) {
                        inside &= plates.ownerAt(x + k, y + j) == 0;
                    }
                }
                if (inside) {
                    checked++;
                    // The wall is at 5.2: a twentieth of it comes through where a hand is nearer.
                    assertEquals(sharp.at(x, y)[1], p.at(x, y)[1], 0.35, "at " + x + ", " + y);
                }
            }
        }
        assertTrue(checked > 500, "only " + checked);
    }

    /** Out of focus and in front: half of the light behind comes through at its edge. */
    @Test
    void aBlurredForegroundRunsOverWhatIsBehind() {
        Reflectance black = Reflectance.grey(0);
        Figure figure = new Figure(new Vec3(0, -2, 0), 0, 1.75, black, black, black, black, 0);
        Room bright =
                new Room(
                        20,
                        14,
                        4,
                        8,
                        Reflectance.grey(0.8),
                        Reflectance.grey(0),
                        Reflectance.grey(0));
        Scene scene = new Scene(List.of(figure), bright, List.of(), 400);
        Camera camera = camera(50, 1.4);
        Plates plates = Renderer.plates(scene, camera, WIDTH, HEIGHT);
        LinearPicture sharp = plates.compose(List.of(), WHITE, camera);
        LinearPicture p = plates.compose(List.of(), WHITE, camera.focused(11));
        int y = 280;
        int left = 0;
        while (plates.ownerAt(left, y) != 0) {
            left++;
        }
        double wall = sharp.at(left - 60, y)[1];
        assertTrue(wall > 0.1, "the wall is lit: " + wall);
        // 1785.7 x 9000 / (2000 x 10950) = 0.734 mm = 12 px across.
        assertEquals(0.5, (p.at(left - 1, y)[1] + p.at(left, y)[1]) / 2 / wall, 0.12);
        assertTrue(p.at(left - 4, y)[1] < 0.95 * wall);
        assertEquals(wall, p.at(left - 12, y)[1], 0.05 * wall);
        assertTrue(p.at(left + 4, y)[1] > 0.05 * wall);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 0.5, 1, 1.5, 2.25, 3, 4, 6.5, 12, 30})
    void discsHaveTheSumOneAndTheMomentOfADisc(double diameter) {
        Disc disc = Disc.of(diameter);
        double sum = 0;
        double across = 0;
        double down = 0;
        for (int i = 0; i < disc.row.length; i++) {
            double here = 0;
            int k = disc.first[i];
            for (int x = -disc.reach; x <= disc.reach; x++) {
                while (k < disc.first[i + 1] && disc.at[k] == x) {
                    here += disc.step[k++];
                }
                sum += here;
                across += here * x * x;
                down += here * disc.row[i] * disc.row[i];
            }
        }
        assertEquals(1, sum, 1e-9);
        double moment = diameter * diameter / 16;
        assertEquals(moment, across, 0.01 * moment + 0.009);
        assertEquals(moment, down, 0.01 * moment + 0.009);
    }

    /** The same picture as with one and a half times the length on 36 x 24 mm. */
    @Test
    void aSmallerSensorSeesLess() {
        Luminaire lamp = target(4, 0.8);
        Camera small = camera(30, 4).withSensor(24, 16);
        assertEquals(total(picture(lamp, camera(45, 4))), total(picture(lamp, small)), 1e-6);
        assertTrue(total(picture(lamp, camera(30, 4))) < 0.5 * total(picture(lamp, small)));
    }
}

package lookstep.simulator.model.picture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.util.List;
import lookstep.simulator.model.colour.Planck;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.light.Illuminance;
import lookstep.simulator.model.light.IndirectLight;
import lookstep.simulator.model.light.Luminaire;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.scene.Reflectance;
import lookstep.simulator.model.scene.Room;
import lookstep.simulator.model.scene.Scene;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;

/** Closed-form physics, read from pixels. */
class RendererTest {
    private static final Xyz WARM = Planck.chromaticity(3000).toXyz(1);
    private static final Xyz COLD = Planck.chromaticity(5600).toXyz(1);
    private static final Vec3 CHEST = new Vec3(0, 0, 1.3);

    /** Walls that give nothing back, so that a lamp's light is its own. */
    private static Room room(double background) {
        return new Room(
                8,
                12,
                4,
                3,
                Reflectance.grey(background),
                Reflectance.grey(0),
                Reflectance.grey(0));
    }

    private static Figure person(double x) {
        return new Figure(
                new Vec3(x, 0, 0),
                0,
                1.75,
                new Reflectance(0.40, 0.26, 0.19),
                Reflectance.grey(0.03),
                Reflectance.grey(0.18),
                Reflectance.grey(0.05),
                0);
    }

    private static Camera camera() {
        return new Camera(new Vec3(0, -4, 1.3), CHEST, 50, 4, 1 / 128.0, 800, 3000);
    }

    private static Luminaire front(double distance) {
        return new Luminaire(new Vec3(0, -distance, 1.3), CHEST, 90, 0);
    }

    private static double indirect(Luminaire lamp, Room room) {
        return IndirectLight.lux(
                lamp.beam().fluxLumens(1), room.areaSquareMetres(), room.meanReflectance());
    }

    private static double stops(double a, double b) {
        return Math.log(a / b) / Math.log(2);
    }

    @Test
    void bareWallRecordsReflectanceTimesLuxTimesScale() {
        // ISO 2720, C 250: f/4, 1/128 s, ISO 800 is 1/640 for each lux.
        Luminaire lamp = front(5);
        Scene scene = new Scene(List.of(), room(0.18), List.of(lamp), 0);
        Plates plates = Renderer.plates(scene, camera(), 60, 40);
        LinearPicture picture = plates.compose(List.of(WARM.times(40960)), WARM, camera());
        // On the axis the lamp is 8 m from the wall: 40960 / 64 = 640 lx. Mottle is 5 % at most.
        assertEquals(
                640, Illuminance.lux(lamp, 40960, new Vec3(0, 3, 1.3), new Vec3(0, -1, 0)), 1e-9);
        double[] middle = picture.at(30, 20);
        assertEquals(0.18, middle[0], 0.18 * 0.06);
        assertEquals(middle[0], middle[1], 1e-5);
        assertEquals(middle[0], middle[2], 1e-5);
        assertEquals(640.0 / 40960, plates.luxPerCandela(0, 30, 20), 1e-3);
    }

    @Test
    void wallUnderTheColdLampAloneHasTheComputedBlue() {
        // 5600 K at 3000 K, grey card at the right exposure: 72 119 180 (computed apart with
        // Bradford and sRGB; Y becomes 1.07830, which the exposure takes back).
        Scene scene = new Scene(List.of(), room(0.18), List.of(front(5)), 0);
        LinearPicture picture =
                Renderer.plates(scene, camera(), 300, 200)
                        .compose(List.of(COLD.times(40960 / 1.0783)), WARM, camera());
        BufferedImage image = picture.toImage();
        double[] sum = new double[3];
        for (int y = 95; y < 105; y++) {
            for (int x = 145; x < 155; x++) {
                int rgb = image.getRGB(x, y);
                sum[0] += rgb >> 16 & 255;
                sum[1] += rgb >> 8 & 255;
                sum[2] += rgb & 255;
            }
        }
        double grain = Grain.of(Part.BACKGROUND, new Vec3(0, 3, 1.3));
        assertEquals(1, grain, 0.05);
        grain *= 1 + 64 * indirect(front(5), room(0.18));
        double[] middle = picture.at(150, 100);
        assertArrayEquals(
                new double[] {
                    0.18 * 0.39326 / 1.0783, 0.18 * 1.11337 / 1.0783, 0.18 * 2.74872 / 1.0783
                },
                new double[] {middle[0] / grain, middle[1] / grain, middle[2] / grain},
                2e-3);
        // 5 % of grain is at most 5 codes here; the hue is not touched by it.
        assertEquals(72, sum[0] / 100, 3);
        assertEquals(119, sum[1] / 100, 4);
        assertEquals(180, sum[2] / 100, 5);
    }

    @Test
    void greyTopLitByTheRimOnlyIsPaleBlue() {
        Luminaire rim = new Luminaire(new Vec3(2.4, 2.2, 2.3), CHEST, 50, 0.3);
        Scene scene = new Scene(List.of(person(0)), room(0.02), List.of(front(5), rim), 0);
        LinearPicture picture =
                Renderer.plates(scene, camera(), 300, 200)
                        .compose(List.of(Xyz.ZERO, COLD.times(6000)), WARM, camera());
        double[] m = picture.meanOf(0, Part.TOP);
        // Brought to the luminance of a grey card it is 72 119 180 within 2 codes.
        double y = 0.212639 * m[0] + 0.715169 * m[1] + 0.072192 * m[2];
        assertTrue(y > 1e-3, "the rim does not reach the top: " + y);
        double k = 0.18 / y;
        int[] code = new int[3];
        for (int c = 0; c < 3; c++) {
            code[c] = lookstep.simulator.model.colour.Srgb.encode8(m[c] * k);
        }
        assertEquals(72, code[0], 2);
        assertEquals(119, code[1], 2);
        assertEquals(180, code[2], 2);
    }

    @Test
    void skinUnderTheWarmLampIsNeutralTimesItsReflectance() {
        Luminaire rim = new Luminaire(new Vec3(2.4, 2.2, 2.3), CHEST, 50, 0.3);
        Scene scene = new Scene(List.of(person(0)), room(0.02), List.of(front(5), rim), 0);
        LinearPicture picture =
                Renderer.plates(scene, camera(), 300, 200)
                        .compose(List.of(WARM.times(25 * 640), Xyz.ZERO), WARM, camera());
        double[] m = picture.meanOf(0, Part.SKIN);
        // Gloss adds a little white: ratios within 4 %.
        assertEquals(0.26 / 0.40, m[1] / m[0], 0.03);
        assertEquals(0.19 / 0.40, m[2] / m[0], 0.03);
        // 640 lx is the metered exposure; a face is turned away from the axis in part, and the
        // mean cosine of a half ball seen from the lamp is two thirds.
        assertTrue(m[0] > 0.40 * 0.60 && m[0] < 0.40, "red of the skin " + m[0]);
    }

    @Test
    void twoEqualLampsAreOneStopMore() {
        Scene scene = new Scene(List.of(person(0)), room(0.1), List.of(front(5), front(5)), 0);
        Plates plates = Renderer.plates(scene, camera(), 150, 100);
        Xyz light = WARM.times(3000);
        double one =
                plates.compose(List.of(light, Xyz.ZERO), WARM, camera()).meanOf(0, Part.TOP)[1];
        double two = plates.compose(List.of(light, light), WARM, camera()).meanOf(0, Part.TOP)[1];
        assertEquals(1, stops(two, one), 1e-3);
    }

    @Test
    void twiceTheDistanceIsTwoStopsLess() {
        // Lamps 4 m and 8 m from the wall, both behind the camera.
        Luminaire near = new Luminaire(new Vec3(0, -1, 1.3), CHEST, 90, 0);
        Luminaire far = new Luminaire(new Vec3(0, -5, 1.3), CHEST, 90, 0);
        // A wall dark enough to give little back, so that the far lamp gains under 0.3 %.
        Scene scene = new Scene(List.of(), room(0.06), List.of(near, far), 0);
        Camera before = new Camera(CHEST, new Vec3(0, 3, 1.3), 50, 4, 1 / 128.0, 800, 3000);
        Plates plates = Renderer.plates(scene, before, 60, 40);
        Xyz light = WARM.times(3000);
        double a = plates.compose(List.of(light, Xyz.ZERO), WARM, before).at(30, 20)[1];
        double b = plates.compose(List.of(Xyz.ZERO, light), WARM, before).at(30, 20)[1];
        assertEquals(-2, stops(b, a), 0.005);
    }

    @Test
    void aPersonInFrontOfALampCastsAShadow() {
        // From the left in front: the shadow falls to the right on the wall.
        Luminaire lamp = new Luminaire(new Vec3(-2, -2, 1.3), new Vec3(0, 0, 1.3), 100, 0.05);
        Camera wide = new Camera(new Vec3(0, -4, 1.3), CHEST, 24, 4, 1 / 128.0, 800, 3000);
        Plates with =
                Renderer.plates(
                        new Scene(List.of(person(0)), room(0.5), List.of(lamp), 0), wide, 300, 200);
        Plates without =
                Renderer.plates(new Scene(List.of(), room(0.5), List.of(lamp), 0), wide, 300, 200);
        // The line from the lamp through the body meets the wall (y = 3) at x = 3; the camera sees
        // that at 3/7 * 24/36 of the width from the middle.
        int x = (int) (150 + 300 * (3 / 7.0) * (24 / 36.0));
        assertEquals(Part.BACKGROUND, with.partAt(x, 100));
        assertTrue(without.luxPerCandela(0, x, 100) > 0.005);
        // What is left is what the room gives back.
        assertEquals(indirect(lamp, room(0.5)), with.luxPerCandela(0, x, 100), 1e-8);
        // On the other side nothing changes.
        assertEquals(without.luxPerCandela(0, 75, 100), with.luxPerCandela(0, 75, 100), 1e-6);
    }

    @Test
    void aLargerLampHasASofterShadow() {
        int[] between = new int[2];
        double[] sizes = {0.05, 1.2};
        for (int i = 0; i < 2; i++) {
            Luminaire lamp = new Luminaire(new Vec3(-2, -2, 1.3), CHEST, 100, sizes[i]);
            Camera wide = new Camera(new Vec3(0, -4, 1.3), CHEST, 24, 4, 1 / 128.0, 800, 3000);
            Scene scene = new Scene(List.of(person(0)), room(0.5), List.of(lamp), 0);
            Plates with = Renderer.plates(scene, wide, 300, 200);
            Plates without =
                    Renderer.plates(
                            new Scene(List.of(), room(0.5), List.of(lamp), 0), wide, 300, 200);
            for (int x = 160; x < 300; x++) {
                if (with.partAt(x, 100) == Part.BACKGROUND) {
                    double share = with.luxPerCandela(0, x, 100) / without.luxPerCandela(0, x, 100);
                    if (share > 0.1 && share < 0.9) {
                        between[i]++;
                    }
                }
            }
        }
        assertTrue(between[1] > 3 * Math.max(1, between[0]), between[0] + " and " + between[1]);
    }

    @Test
    void theRoomGivesBackWhatTheSphereEquationSays() {
        // A lamp that looks away from the wall: what reaches it is indirect only.
        Room grey =
                new Room(
                        8,
                        12,
                        4,
                        3,
                        Reflectance.grey(0.5),
                        Reflectance.grey(0.5),
                        Reflectance.grey(0.5));
        Luminaire away = new Luminaire(new Vec3(0, 0, 1.3), new Vec3(0, -1, 1.3), 120, 0);
        Plates plates =
                Renderer.plates(new Scene(List.of(), grey, List.of(away), 0), camera(), 60, 40);
        // Flux pi lm for each cd; area 2 (96 + 20 * 4) = 352 m2; rho / (1 - rho) = 1.
        int x = 5;
        assertEquals(Part.BACKGROUND, plates.partAt(x, 5));
        assertEquals(Math.PI / 352, plates.luxPerCandela(0, x, 5), 1e-7);
    }

    @Test
    void houseLightFallsOnAnUprightSurfaceAsGiven() {
        // 640 lx at the metered exposure: a wall of 0.18 records 0.18.
        Scene scene = new Scene(List.of(), room(0.18), List.of(), 640);
        LinearPicture picture =
                Renderer.plates(scene, camera(), 60, 40).compose(List.of(), WARM, camera());
        assertEquals(0.18, picture.meanOf(-1, Part.BACKGROUND)[1], 0.18 * 0.05);
        LinearPicture dark =
                Renderer.plates(scene, camera(), 60, 40).compose(List.of(), Xyz.ZERO, camera());
        assertEquals(0, dark.meanOf(-1, Part.BACKGROUND)[1], 0);
    }

    @Test
    void rimLightSeparatesBlackFromBlack() {
        Figure black =
                new Figure(
                        new Vec3(0, 0, 0),
                        0,
                        1.75,
                        Reflectance.grey(0.06),
                        Reflectance.grey(0.02),
                        Reflectance.grey(0.03),
                        Reflectance.grey(0.03),
                        0);
        Luminaire left = new Luminaire(new Vec3(-2.2, 2, 2.4), CHEST, 50, 0.3);
        Luminaire right = new Luminaire(new Vec3(2.2, 2, 2.4), CHEST, 50, 0.3);
        Scene scene = new Scene(List.of(black), room(0.03), List.of(left, right), 20);
        Plates plates = Renderer.plates(scene, camera(), 300, 200);
        Xyz rim = COLD.times(8000);
        double without =
                plates.compose(List.of(Xyz.ZERO, Xyz.ZERO), WARM, camera()).separationStops(0);
        double with = plates.compose(List.of(rim, rim), WARM, camera()).separationStops(0);
        assertEquals(0, without, 1);
        assertTrue(with > without + 1, without + " without, " + with + " with rim lights");
    }

    @Test
    void aPersonIsAllThereAndTheSameEveryTime() {
        Scene scene = new Scene(List.of(person(0)), room(0.1), List.of(front(5)), 5);
        Camera back = new Camera(new Vec3(0, -5, 1), new Vec3(0, 0, 0.9), 50, 4, 0.01, 800, 3000);
        Plates a = Renderer.plates(scene, back, 360, 240);
        Plates b = Renderer.plates(scene, back, 360, 240);
        for (Part p : Part.values()) {
            if (p.ofFigure()) {
                assertTrue(a.count(p) > 3, p + " shows in " + a.count(p) + " pixels");
            }
        }
        List<Xyz> light = List.of(WARM.times(4000));
        for (int y = 0; y < 240; y += 7) {
            for (int x = 0; x < 360; x += 7) {
                assertArrayEquals(
                        a.compose(light, WARM, back).at(x, y),
                        b.compose(light, WARM, back).at(x, y),
                        0);
            }
        }
        // Crown to sole: 1.75 m at 5 m with 50 mm is 17.5 mm of 24 (175 of 240 pixels), less for
        // the feet, which are seen from above.
        int top = -1;
        int bottom = -1;
        for (int y = 0; y < 240; y++) {
            for (int x = 0; x < 360; x++) {
                if (a.ownerAt(x, y) == 0) {
                    top = top < 0 ? y : top;
                    bottom = y;
                }
            }
        }
        assertEquals(175, bottom - top, 10);
    }

    @Test
    void coloursOutOfRangeKeepTheirHue() {
        Scene scene = new Scene(List.of(), room(1), List.of(front(5)), 0);
        Plates plates = Renderer.plates(scene, camera(), 60, 40);
        // 5600 K seen at 3000 K on white paper is 0.393 1.113 2.749, which does not fit: largest
        // channel to 1 gives 106 171 255 (computed apart), not the cyan of cut channels.
        int rgb =
                plates.compose(List.of(COLD.times(40960)), WARM, camera()).toImage().getRGB(30, 20);
        assertEquals(106, rgb >> 16 & 255, 1);
        assertEquals(171, rgb >> 8 & 255, 1);
        assertEquals(255, rgb & 255);
        // Far over, it is white as an overfull sensor is.
        rgb = plates.compose(List.of(COLD.times(40960e3)), WARM, camera()).toImage().getRGB(30, 20);
        assertEquals(0xffffff, rgb & 0xffffff);
    }

    @Test
    void aLampThatStandsInThePictureIsSeen() {
        Luminaire back = new Luminaire(new Vec3(0.5, 2, 1.5), new Vec3(0, -4, 1.3), 60, 0.3);
        Plates plates =
                Renderer.plates(
                        new Scene(List.of(), room(0.1), List.of(back), 0), camera(), 150, 100);
        assertTrue(plates.count(Part.LAMP) > 20);
    }

    @Test
    void wrongCallsAreRefused() {
        Scene scene = new Scene(List.of(), room(0.1), List.of(front(5)), 0);
        Plates plates = Renderer.plates(scene, camera(), 16, 16);
        assertThrows(
                IllegalArgumentException.class, () -> plates.compose(List.of(), WARM, camera()));
        assertThrows(
                IllegalArgumentException.class,
                () -> plates.compose(List.of(WARM), WARM, camera()).meanOf(0, Part.SKIN));
        assertThrows(IllegalArgumentException.class, () -> Renderer.plates(scene, camera(), 4, 4));
    }
}

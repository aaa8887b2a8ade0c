package lookstep.simulator.gear;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import lookstep.protocols.fixture.DimmingCurve;
import lookstep.protocols.fixture.Emitter;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.Mode;
import lookstep.simulator.gear.CardWriter.Delivery;
import lookstep.simulator.model.colour.Xyz;
import lookstep.simulator.model.light.Luminaire;
import lookstep.simulator.model.optics.Camera;
import lookstep.simulator.model.scene.Figure;
import lookstep.simulator.model.scene.Reflectance;
import lookstep.simulator.model.scene.Room;
import lookstep.simulator.model.scene.Scene;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * From bytes on the line to colours in a file. A grey room, one lamp with emitters of 3000 K and
 * 5600 K on the Planckian locus (CIE 1931 2-degree observer in 1 nm steps, computed with the tables
 * of the colour-science 'colour' library). djpeg and exiftool read the result.
 */
class SimulatedCameraTest {
    private static final Fixture LAMP =
            new Fixture(
                    "lamp",
                    "warm and cool",
                    List.of(
                            new Emitter("warm", 0.436931, 0.404074, 6000),
                            new Emitter("cool", 0.330198, 0.339079, 6000)),
                    DimmingCurve.LINEAR,
                    100,
                    100,
                    List.of(
                            new Mode(
                                    "8-bit",
                                    List.of(
                                            new Mode.Channel.Emitter(0, 1),
                                            new Mode.Channel.Emitter(1, 1)))));

    /** 14:03:05.678 on 2 May 2031 in a place two hours ahead of UTC. */
    private static final Clock CLOCK =
            Clock.fixed(Instant.parse("2031-05-02T12:03:05.678Z"), ZoneOffset.ofHours(2));

    @TempDir Path folder;
    private final LightListener lights =
            LightListener.byLength(List.of(new PatchedLight("lamp", LAMP, LAMP.modes().get(0), 1)));
    private Camera camera =
            new Camera(new Vec3(0, -5, 1.5), new Vec3(0, 2, 1.5), 85, 4, 1.0 / 125, 1600, 3000);
    private Xyz houseWhite = Xyz.ZERO;
    private Scene scene =
            new Scene(
                    List.of(),
                    new Room(
                            10,
                            12,
                            4,
                            2,
                            Reflectance.grey(0.18),
                            Reflectance.grey(0.18),
                            Reflectance.grey(0.18)),
                    List.of(new Luminaire(new Vec3(2, -2, 3), new Vec3(0, 2, 1.5), 100, 0.5)),
                    0);

    private SimulatedCamera camera(Delivery delivery, List<Long> pauses) {
        return new SimulatedCamera(
                () -> new View(scene, List.of("lamp"), houseWhite, camera),
                lights::snapshot,
                CLOCK,
                new CardWriter(folder, delivery, pauses::add),
                240,
                160,
                5);
    }

    private SimulatedCamera camera() {
        return camera(Delivery.STRAIGHT, new ArrayList<>());
    }

    /** START code, slot 1 the warm emitter, slot 2 the cool one; the rest at 0. */
    private void send(int warm, int cool) {
        byte[] octets = new byte[513];
        octets[1] = (byte) warm;
        octets[2] = (byte) cool;
        lights.bytes(octets, 0, 513, 0);
    }

    /** Mean linear red, green, blue of the middle of a file, by the sRGB curve of IEC 61966-2-1. */
    private static double[] measured(Path jpeg) throws IOException {
        byte[] bmp = Program.run("libjpeg-turbo-progs", "djpeg", "-bmp", jpeg.toString());
        BufferedImage picture = ImageIO.read(new ByteArrayInputStream(bmp));
        double[] sum = new double[3];
        int n = 0;
        for (int y = 70; y < 90; y++) {
            for (int x = 110; x < 130; x++) {
                for (int c = 0; c < 3; c++) {
                    double v = (picture.getRGB(x, y) >> (16 - 8 * c) & 0xFF) / 255.0;
                    sum[c] += v <= 0.04045 ? v / 12.92 : Math.pow((v + 0.055) / 1.055, 2.4);
                }
                n++;
            }
        }
        return new double[] {sum[0] / n, sum[1] / n, sum[2] / n};
    }

    private static String exif(Path file, String tag) {
        return new String(
                        Program.run(
                                "libimage-exiftool-perl",
                                "exiftool",
                                "-s3",
                                "-n",
                                "-" + tag,
                                file.toString()),
                        StandardCharsets.UTF_8)
                .strip();
    }

    /**
     * A camera at 3000 K sees a light of 5600 K as 0.393 : 1.113 : 2.749 in linear sRGB (Bradford
     * to D65; computed with numpy from the CIE 1931 1 nm table), and one of 3000 K as grey.
     */
    @Test
    void theBytesOnTheLineDecideTheColourInTheFile() throws IOException {
        SimulatedCamera taking = camera();
        send(255, 0);
        double[] warm = measured(taking.photograph().orElseThrow());
        assertEquals(1, warm[0] / warm[1], 0.04);
        assertEquals(1, warm[2] / warm[1], 0.04);

        send(0, 255);
        double[] cool = measured(taking.photograph().orElseThrow());
        assertTrue(cool[2] < 1, "the blue must not be clipped: " + cool[2]);
        assertTrue(cool[0] > 0.02, "too dark to measure: " + cool[0]);
        assertEquals(0.39326 / 1.11337, cool[0] / cool[1], 0.04 * 0.39326 / 1.11337);
        assertEquals(2.74872 / 1.11337, cool[2] / cool[1], 0.04 * 2.74872 / 1.11337);
        // The same candela behind the same glass: only the colour differs.
        assertEquals(1.11337, cool[1] / warm[1], 0.04);

        send(0, 128);
        double[] half = measured(taking.photograph().orElseThrow());
        assertEquals(128 / 255.0, half[1] / cool[1], 0.02);

        send(0, 0);
        double[] dark = measured(taking.photograph().orElseThrow());
        assertTrue(dark[1] < 0.002, "dark is " + dark[1]);
    }

    /** Exposure by ISO 2720: twice the time is twice the light, in the file too. */
    @Test
    void theCameraSettingsCountAtEachRelease() throws IOException {
        SimulatedCamera taking = camera();
        send(255, 0);
        double[] once = measured(taking.photograph().orElseThrow());
        camera = camera.withExposure(4, 1.0 / 60, 1600);
        double[] twice = measured(taking.photograph().orElseThrow());
        assertEquals(2, twice[1] / once[1], 0.08);
        camera = camera.withWhiteBalance(5600);
        double[] orange = measured(taking.photograph().orElseThrow());
        assertTrue(orange[0] > orange[1] && orange[1] > 2 * orange[2]);
    }

    @Test
    void writesTheExifThatACameraWrites() throws IOException {
        send(255, 0);
        Path file = camera().photograph().orElseThrow();
        assertEquals("4", exif(file, "FNumber"));
        assertEquals("0.008", exif(file, "ExposureTime"));
        assertEquals("1600", exif(file, "ISO"));
        assertEquals("85", exif(file, "FocalLength"));
        assertEquals("7", exif(file, "SubjectDistance"));
        assertEquals("1", exif(file, "Orientation"));
        assertEquals("simulated 85 mm", exif(file, "LensModel"));
        assertEquals("2031:05:02 14:03:05", exif(file, "DateTimeOriginal"));
        assertEquals("678", exif(file, "SubSecTimeOriginal"));
        assertEquals("+02:00", exif(file, "OffsetTimeOriginal"));
        assertEquals("1", exif(file, "Exif:WhiteBalance"));
        assertEquals("white balance 3000 K", exif(file, "UserComment"));
        assertEquals("240 160", exif(file, "ImageSize"));
        assertEquals("", exif(file, "Warning"));
    }

    private static byte[] inside(Path file, String tag) {
        return Program.run("libimage-exiftool-perl", "exiftool", "-b", "-" + tag, file.toString());
    }

    @Test
    void aThumbnailAndAPreviewAreInTheFileAsCamerasHaveThem() throws IOException {
        send(255, 0);
        Path file = camera().photograph().orElseThrow();
        BufferedImage thumbnail =
                ImageIO.read(new ByteArrayInputStream(inside(file, "ThumbnailImage")));
        assertEquals(160, thumbnail.getWidth());
        assertEquals(120, thumbnail.getHeight());
        // 3:2 in 4:3 leaves bars of 6 or 7 rows
        assertTrue((thumbnail.getRGB(80, 2) & 0xFF) < 16, "a bar");
        assertTrue((thumbnail.getRGB(80, 60) >> 8 & 0xFF) > 30, "the picture");
        BufferedImage preview =
                ImageIO.read(new ByteArrayInputStream(inside(file, "PreviewImage")));
        assertEquals(240, preview.getWidth());
        assertEquals(160, preview.getHeight());
        assertEquals("LS-0001", exif(file, "SerialNumber"));
        assertEquals("", exif(file, "Warning"));

        SimulatedCamera plain = camera();
        plain.write(new CameraFiles(false, false, false, Duration.ZERO));
        Path bare = plain.photograph().orElseThrow();
        assertEquals(0, inside(bare, "ThumbnailImage").length);
        assertEquals(0, inside(bare, "PreviewImage").length);
        assertEquals("", exif(bare, "MPFVersion"));
    }

    @Test
    void aRawFileLeavesAfterTheJpegUnderTheSameName() throws IOException {
        send(255, 0);
        SimulatedCamera taking = camera();
        taking.write(CameraFiles.USUAL.withRaw(true));
        Path jpeg = taking.photograph().orElseThrow();
        assertEquals(folder.resolve("LS_0001.JPG"), jpeg);
        Path raw = folder.resolve("LS_0001.DNG");
        assertEquals("DNG", exif(raw, "FileType"));
        assertEquals("", exif(raw, "Warning"));
        assertArrayEquals(inside(jpeg, "PreviewImage"), inside(raw, "PreviewImage"));
        for (String tag : List.of("DateTimeOriginal", "SerialNumber", "FNumber", "Orientation")) {
            assertEquals(exif(jpeg, tag), exif(raw, tag), tag);
        }
        assertEquals("240 160", exif(raw, "ImageSize"));
        assertEquals(folder.resolve("LS_0002.JPG"), taking.photograph().orElseThrow());
    }

    @Test
    void aCameraClockMayBeWrong() throws IOException {
        send(255, 0);
        SimulatedCamera taking = camera();
        taking.write(CameraFiles.USUAL.withClockOffset(Duration.ofSeconds(-3606)));
        Path file = taking.photograph().orElseThrow();
        assertEquals("2031:05:02 13:02:59", exif(file, "DateTimeOriginal"));
        assertEquals("678", exif(file, "SubSecTimeOriginal"));
    }

    /**
     * Eyes at 1.602564 m x 0.936 = 1.5 m, as high as the lens: from (0, -5) to (3, -1) it is a
     * 3-4-5 triangle, to (0, 1) it is 6 m. The middle of the picture is 7 m away.
     */
    @Test
    void theFocusIsLeftOnTheNearestFace() throws IOException {
        scene =
                new Scene(
                        List.of(person(0, 1), person(3, -1)),
                        scene.room(),
                        scene.luminaires(),
                        scene.houseLux());
        send(255, 0);
        Path file = camera().photograph().orElseThrow();
        assertEquals(5, Double.parseDouble(exif(file, "SubjectDistance")), 1e-4);
    }

    private static Figure person(double x, double y) {
        Reflectance grey = Reflectance.grey(0.18);
        return new Figure(new Vec3(x, y, 0), 0, 1.602564, grey, grey, grey, grey, 1);
    }

    @Test
    void countsUpAndOverwritesNothing() throws IOException {
        Path old = Files.write(folder.resolve("LS_0041.JPG"), new byte[] {1});
        SimulatedCamera taking = camera();
        assertEquals(folder.resolve("LS_0042.JPG"), taking.photograph().orElseThrow());
        assertEquals(folder.resolve("LS_0043.JPG"), taking.photograph().orElseThrow());
        assertEquals(
                folder.resolve("LS_0044.JPG"),
                camera(Delivery.RENAMED, new ArrayList<>()).photograph().orElseThrow());
        assertArrayEquals(new byte[] {1}, Files.readAllBytes(old));
        try (Stream<Path> files = Files.list(folder)) {
            assertEquals(4, files.count());
        }
    }

    @Test
    void aSleepingCameraTakesNothingForAWhile() throws IOException {
        SimulatedCamera taking = camera();
        taking.misbehave(new Fault.CameraAsleep(2));
        assertEquals(Optional.empty(), taking.photograph());
        assertEquals(Optional.empty(), taking.photograph());
        assertTrue(taking.photograph().isPresent());
        taking.misbehave(new Fault.CameraAsleep(5));
        taking.mend();
        assertTrue(taking.photograph().isPresent());
    }

    @Test
    void halfAFileIsHalfAFileAndTheNextIsWhole() throws IOException {
        SimulatedCamera taking = camera();
        Path whole = taking.photograph().orElseThrow();
        taking.misbehave(new Fault.HalfFile(0.5));
        Path half = taking.photograph().orElseThrow();
        assertNear(Files.size(whole) / 2, Files.size(half));
        assertNear(Files.size(whole), Files.size(taking.photograph().orElseThrow()));
        SimulatedCamera renaming = camera(Delivery.RENAMED, new ArrayList<>());
        renaming.misbehave(new Fault.HalfFile(0.5));
        assertFalse(Files.exists(renaming.photograph().orElseThrow()));
    }

    /** The grain differs from picture to picture, so the length does a little. */
    private static void assertNear(long wantedBytes, long bytes) {
        assertTrue(Math.abs(wantedBytes - bytes) < 300, bytes + " instead of " + wantedBytes);
    }

    @Test
    void aSlowWriterPausesBetweenPieces() throws IOException {
        List<Long> pauses = new ArrayList<>();
        SimulatedCamera taking = camera(Delivery.STRAIGHT, pauses);
        taking.misbehave(new Fault.SlowWriter(1000, 77));
        long bytes = Files.size(taking.photograph().orElseThrow());
        assertEquals((bytes - 1) / 1000, pauses.size());
        assertTrue(pauses.stream().allMatch(pause -> pause == 77));
    }

    @Test
    void garbledBytesAreNoPictureOnce() throws IOException {
        SimulatedCamera taking = camera();
        taking.misbehave(new Fault.Garbled());
        Path garbled = taking.photograph().orElseThrow();
        byte[] head = Files.readAllBytes(garbled);
        assertFalse((head[0] & 0xFF) == 0xFF && (head[1] & 0xFF) == 0xD8);
        assertEquals("image/jpeg", exif(taking.photograph().orElseThrow(), "MIMEType"));
    }

    @Test
    void aLightThatIsNotOnTheLineIsSaid() {
        SimulatedCamera taking =
                new SimulatedCamera(
                        () -> new View(scene, List.of("other"), houseWhite, camera),
                        lights::snapshot,
                        CLOCK,
                        new CardWriter(folder));
        assertTrue(
                assertThrows(IllegalStateException.class, taking::photograph)
                        .getMessage()
                        .contains("other"));
    }
}

package lookstep.server.frames;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Optional;
import javax.imageio.ImageIO;
import lookstep.protocols.image.DngWriter;
import lookstep.protocols.image.ExifData;
import lookstep.server.Program;
import lookstep.server.frames.PreviewResult.FrameProblem;
import lookstep.server.frames.PreviewResult.Preview;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What is in the file already is handed on: the picture inside is of another colour than the main
 * one, so that it shows which was taken. djpeg, jpegtran and exiftool stand on the other side.
 */
class ShortestWayTest {
    @TempDir Path folder;

    private static BufferedImage grey(int width, int height) {
        BufferedImage picture = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        var pen = picture.createGraphics();
        pen.setColor(Color.GRAY);
        pen.fillRect(0, 0, width, height);
        pen.dispose();
        return picture;
    }

    private Path file(String name, byte[] bytes) throws IOException {
        return Files.write(folder.resolve(name), bytes);
    }

    /** A main picture in grey with one of coloured corners behind it. */
    private Path withPreview(int width, int height) throws IOException {
        return file(
                "with.jpg",
                TestPictures.twoInOne(
                        TestPictures.jpeg(grey(3000, 2000)),
                        TestPictures.jpeg(width, height),
                        new int[1]));
    }

    private static Preview preview(Path file) {
        return assertInstanceOf(Preview.class, new PreviewMaker().make(file));
    }

    private static String problem(Path file) {
        return assertInstanceOf(FrameProblem.class, new PreviewMaker().make(file)).words();
    }

    private BufferedImage decoded(byte[] jpeg) throws IOException {
        Path file = file("decode", jpeg);
        byte[] bmp = Program.run("libjpeg-turbo-progs", "djpeg", "-rgb", "-bmp", file.toString());
        return ImageIO.read(new ByteArrayInputStream(bmp));
    }

    private static String exif(Path file, String... tags) {
        String[] command = new String[tags.length + 4];
        command[0] = "exiftool";
        command[1] = "-s";
        command[2] = "-n";
        System.arraycopy(tags, 0, command, 3, tags.length);
        command[command.length - 1] = file.toString();
        return new String(Program.run("libimage-exiftool-perl", command), StandardCharsets.UTF_8)
                .strip();
    }

    @ParameterizedTest
    @CsvSource({
        "1600, 1066, true",
        "1200, 800, true",
        "4000, 2666, true",
        "1199, 800, false",
        "4001, 2667, false"
    })
    void aPictureOfAboutThatSizeIsHandedOnAsItIs(int width, int height, boolean handedOn)
            throws IOException {
        Path file = withPreview(width, height);
        Preview preview = preview(file);
        BufferedImage shown = decoded(preview.jpeg());
        if (handedOn) {
            assertEquals(width, preview.widthPixels());
            assertEquals(height, preview.heightPixels());
            assertArrayEquals(
                    decodedPixels(TestPictures.jpeg(width, height)), decodedPixels(preview.jpeg()));
        } else {
            assertEquals(1600, preview.widthPixels());
            assertTrue(Math.abs((shown.getRGB(10, 10) & 0xFF) - 128) < 6);
        }
        assertEquals(shown.getWidth(), preview.widthPixels());
    }

    private int[] decodedPixels(byte[] jpeg) throws IOException {
        BufferedImage picture = decoded(jpeg);
        int w = picture.getWidth();
        return picture.getRGB(0, 0, w, picture.getHeight(), null, 0, w);
    }

    /** As exiftool wrote it into the main picture; the browser turns it (see the pages' tests). */
    @ParameterizedTest
    @ValueSource(ints = {1, 3, 6, 8})
    void theMainPicturesOrientationGoesWithItAndNothingElse(int orientation) throws IOException {
        Path file = withPreview(1600, 1066);
        Program.run(
                "libimage-exiftool-perl",
                "exiftool",
                "-q",
                "-overwrite_original",
                "-Orientation#=" + orientation,
                "-Make=Box works",
                "-ExifIFD:SerialNumber=0042",
                "-GPSLatitude=12.5",
                file.toString());
        Preview preview = preview(file);
        assertEquals(orientation >= 5 ? 1066 : 1600, preview.widthPixels());
        assertEquals(orientation >= 5 ? 1600 : 1066, preview.heightPixels());
        Path shown = file("shown.jpg", preview.jpeg());
        assertEquals(
                "Orientation : " + orientation,
                exif(shown, "-Exif:all", "-XMP:all", "-MPF:all", "-MakerNotes:all")
                        .replaceAll(" +", " "));
    }

    @Test
    void aPreviewThatIsBrokenInsideIsPassedOver() throws IOException {
        byte[] inside = TestPictures.jpeg(1600, 1066);
        byte[] cut = Arrays.copyOf(inside, inside.length - 40);
        Path file =
                file(
                        "broken.jpg",
                        TestPictures.twoInOne(
                                TestPictures.jpeg(grey(3000, 2000)), cut, new int[1]));
        Preview preview = preview(file);
        assertEquals(1600, preview.widthPixels());
        assertTrue(Math.abs((decoded(preview.jpeg()).getRGB(10, 10) & 0xFF) - 128) < 6);
    }

    private Path raw(byte[] inside, int orientation) throws IOException {
        return file(
                "LS_0001.DNG",
                DngWriter.write(
                        ExifData.builder().orientation(orientation).build(),
                        inside,
                        60,
                        40,
                        new byte[2400]));
    }

    @Test
    void aRawFilesPreviewIsHandedOnWithTheFilesTurn() throws IOException {
        Preview preview = preview(raw(TestPictures.jpeg(1600, 1066), 8));
        assertEquals(1066, preview.widthPixels());
        assertEquals(
                "Orientation : 8",
                exif(file("s.jpg", preview.jpeg()), "-Exif:all").replaceAll(" +", " "));
    }

    @Test
    void aRawFilesFullSizeJpegIsDecodedAndTurned() throws IOException {
        Preview preview = preview(raw(TestPictures.jpeg(6000, 4000), 6));
        assertEquals(1067, preview.widthPixels());
        assertEquals(1600, preview.heightPixels());
        BufferedImage shown = decoded(preview.jpeg());
        // turned by 90 degrees clockwise, the corner at the lower left comes to the upper left
        assertEquals(TestPictures.CORNERS[3], rounded(shown.getRGB(200, 200)));
        assertEquals(TestPictures.CORNERS[0], rounded(shown.getRGB(900, 200)));
    }

    private static Color rounded(int rgb) {
        return new Color(
                (rgb >> 16 & 0xFF) > 127 ? 255 : 0,
                (rgb >> 8 & 0xFF) > 127 ? 255 : 0,
                (rgb & 0xFF) > 127 ? 255 : 0);
    }

    @Test
    void aRawFileWithoutAPreviewSaysSo() throws IOException {
        byte[] raw =
                DngWriter.write(
                        ExifData.UNKNOWN, TestPictures.jpeg(64, 48), 60, 40, new byte[2400]);
        // the preview's start marker is gone
        int at = 0;
        while ((raw[at] & 0xFF) != 0xFF || (raw[at + 1] & 0xFF) != 0xD8) {
            at++;
        }
        raw[at] = 0;
        String words = problem(file("none.dng", raw));
        assertTrue(words.contains("none.dng") && words.contains("JPEG beside"), words);
        assertTrue(problem(file("other.cr3", new byte[5000])).contains("JPEG beside"));
    }

    @Test
    void theThumbnailStandsInUntilThen() throws IOException {
        byte[] thumbnail = TestPictures.jpeg(160, 120);
        Path small = file("small.jpg", thumbnail);
        Path file = file("main.jpg", TestPictures.jpeg(grey(3000, 2000)));
        assertEquals(Optional.empty(), StandIn.of(file));
        Program.run(
                "libimage-exiftool-perl",
                "exiftool",
                "-q",
                "-overwrite_original",
                "-Orientation#=6",
                "-ThumbnailImage<=" + small,
                file.toString());
        Preview shown = StandIn.of(file).orElseThrow();
        assertEquals(120, shown.widthPixels());
        assertEquals(160, shown.heightPixels());
        assertArrayEquals(decodedPixels(thumbnail), decodedPixels(shown.jpeg()));
        assertEquals(
                "Orientation : 6",
                exif(file("t.jpg", shown.jpeg()), "-Exif:all").replaceAll(" +", " "));
        assertTrue(shown.jpeg().length < thumbnail.length + 200);
        assertEquals(Optional.empty(), StandIn.of(folder.resolve("missing.jpg")));
    }

    @Test
    void aLargePictureDoesNotStandIn() throws IOException {
        BufferedImage noisy = new BufferedImage(1600, 1066, BufferedImage.TYPE_INT_RGB);
        java.util.Random random = new java.util.Random(1);
        for (int y = 0; y < 1066; y++) {
            for (int x = 0; x < 1600; x++) {
                noisy.setRGB(x, y, random.nextInt(0x1000000));
            }
        }
        byte[] large = TestPictures.jpeg(noisy);
        assertTrue(large.length > StandIn.MOST_BYTES);
        Path file =
                file("l.jpg", TestPictures.twoInOne(TestPictures.jpeg(64, 48), large, new int[1]));
        assertEquals(Optional.empty(), StandIn.of(file));
    }

    /** The whole turned losslessly by jpegtran, then cut: the same as the part. */
    @ParameterizedTest
    @CsvSource({
        "1, ''", "2, '-flip horizontal'", "3, '-rotate 180'", "4, '-flip vertical'",
        "5, '-transpose'", "6, '-rotate 90'", "7, '-transverse'", "8, '-rotate 270'"
    })
    void aPartAtFullSizeIsUpright(int orientation, String how) throws IOException {
        BufferedImage picture = new BufferedImage(640, 480, BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < 480; y++) {
            for (int x = 0; x < 640; x++) {
                picture.setRGB(x, y, (x * 255 / 640) << 16 | (y * 255 / 480) << 8 | 60);
            }
        }
        Path file = file("g.jpg", TestPictures.jpeg(picture));
        BufferedImage whole;
        if (how.isEmpty()) {
            whole = decoded(Files.readAllBytes(file));
        } else {
            String[] words = (how + " " + file).split(" ", -1);
            String[] command = new String[words.length + 1];
            command[0] = "jpegtran";
            System.arraycopy(words, 0, command, 1, words.length);
            whole = decoded(Program.run("libjpeg-turbo-progs", command));
        }
        Program.run(
                "libimage-exiftool-perl",
                "exiftool",
                "-q",
                "-overwrite_original",
                "-Orientation#=" + orientation,
                file.toString());
        assertEquals(
                new FullSize.Size(whole.getWidth(), whole.getHeight()),
                FullSize.size(file).orElseThrow());
        Preview part = assertInstanceOf(Preview.class, FullSize.crop(file, 100, 40, 300, 200));
        assertEquals(300, part.widthPixels());
        assertEquals(200, part.heightPixels());
        BufferedImage shown = decoded(part.jpeg());
        for (int[] at : new int[][] {{5, 5}, {290, 10}, {150, 100}, {10, 190}, {290, 190}}) {
            int wanted = whole.getRGB(100 + at[0], 40 + at[1]);
            int is = shown.getRGB(at[0], at[1]);
            for (int shift = 0; shift <= 16; shift += 8) {
                assertEquals(wanted >> shift & 0xFF, is >> shift & 0xFF, 8);
            }
        }
    }

    @Test
    void aPartThatSticksOutIsCutAndOneOutsideIsAProblem() throws IOException {
        Path file = file("p.jpg", TestPictures.jpeg(640, 480));
        Preview part = assertInstanceOf(Preview.class, FullSize.crop(file, 600, -10, 200, 50));
        assertEquals(40, part.widthPixels());
        assertEquals(40, part.heightPixels());
        FrameProblem outside =
                assertInstanceOf(FrameProblem.class, FullSize.crop(file, 640, 0, 10, 10));
        assertTrue(outside.words().contains("640 x 480"), outside.words());
        assertThrows(IllegalArgumentException.class, () -> FullSize.crop(file, 0, 0, 2001, 10));
        assertThrows(IllegalArgumentException.class, () -> FullSize.crop(file, 0, 0, 10, 0));
        assertInstanceOf(FrameProblem.class, FullSize.crop(folder.resolve("gone.jpg"), 0, 0, 9, 9));
        assertEquals(
                new FullSize.Size(4000, 6000),
                FullSize.size(raw(TestPictures.jpeg(6000, 4000), 6)).orElseThrow());
        assertFalse(FullSize.size(file("x.jpg", new byte[100])).isPresent());
    }
}

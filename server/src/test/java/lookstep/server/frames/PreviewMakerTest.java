package lookstep.server.frames;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.awt.image.Raster;
import java.awt.image.WritableRaster;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriter;
import javax.imageio.stream.MemoryCacheImageOutputStream;
import lookstep.server.Program;
import lookstep.server.frames.PreviewResult.FrameProblem;
import lookstep.server.frames.PreviewResult.Preview;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The libjpeg-turbo programs and exiftool stand on the other side. */
class PreviewMakerTest {
    @TempDir Path folder;

    private Preview preview(Path file) {
        return assertInstanceOf(Preview.class, new PreviewMaker().make(file));
    }

    private String problem(Path file) {
        FrameProblem problem = assertInstanceOf(FrameProblem.class, new PreviewMaker().make(file));
        assertEquals(file, problem.original());
        return problem.words();
    }

    private Path file(String name, byte[] bytes) {
        try {
            return Files.write(folder.resolve(name), bytes);
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    /** Decoded by djpeg, not by the JDK that made it. */
    private BufferedImage decoded(byte[] jpeg) throws IOException {
        Path file = file("decode.jpg", jpeg);
        byte[] bmp = Program.run("libjpeg-turbo-progs", "djpeg", "-rgb", "-bmp", file.toString());
        return ImageIO.read(new ByteArrayInputStream(bmp));
    }

    private static void assertSamePicture(BufferedImage wanted, BufferedImage is, int tolerance) {
        assertEquals(wanted.getWidth(), is.getWidth());
        assertEquals(wanted.getHeight(), is.getHeight());
        int w = is.getWidth();
        int h = is.getHeight();
        for (int[] at : new int[][] {{1, 1}, {3, 1}, {1, 3}, {3, 3}}) {
            int a = wanted.getRGB(at[0] * w / 4, at[1] * h / 4);
            int b = is.getRGB(at[0] * w / 4, at[1] * h / 4);
            for (int shift = 0; shift <= 16; shift += 8) {
                assertEquals(
                        a >> shift & 0xFF,
                        b >> shift & 0xFF,
                        tolerance,
                        () -> "corner " + Arrays.toString(at));
            }
        }
    }

    /**
     * What a viewer does for each value of tag 0x0112, in words of jpegtran, which turns without
     * this project or the JDK (CIPA DC-008, via the tables of ExifTool 12.57).
     */
    @ParameterizedTest
    @CsvSource({
        "1, ''",
        "2, '-flip horizontal'",
        "3, '-rotate 180'",
        "4, '-flip vertical'",
        "5, '-flip horizontal;-rotate 270'",
        "6, '-rotate 90'",
        "7, '-flip horizontal;-rotate 90'",
        "8, '-rotate 270'"
    })
    void turnsUpright(int orientation, String turns) throws IOException {
        Path stored = file("stored.jpg", TestPictures.jpeg(192, 128));
        byte[] turned = Files.readAllBytes(stored);
        for (String turn : turns.isEmpty() ? List.<String>of() : List.of(turns.split(";", -1))) {
            Path step = file("step.jpg", turned);
            String[] how = turn.split(" ", -1);
            turned =
                    Program.run("libjpeg-turbo-progs", "jpegtran", how[0], how[1], step.toString());
        }
        Program.run(
                "libimage-exiftool-perl",
                "exiftool",
                "-q",
                "-overwrite_original",
                "-Orientation#=" + orientation,
                stored.toString());

        Preview preview = preview(stored);
        BufferedImage shown = decoded(preview.jpeg());
        assertEquals(shown.getWidth(), preview.widthPixels());
        assertEquals(shown.getHeight(), preview.heightPixels());
        assertSamePicture(decoded(turned), shown, 12);
    }

    @Test
    void isOfTabletSizeAndKeepsTheShape() throws IOException {
        Preview preview = preview(file("large.jpg", TestPictures.jpeg(6000, 4000)));
        assertEquals(1600, preview.widthPixels());
        assertEquals(1067, preview.heightPixels());
        BufferedImage shown = decoded(preview.jpeg());
        assertEquals(1600, shown.getWidth());
        assertEquals(1067, shown.getHeight());
        assertSamePicture(TestPictures.corners(1600, 1067), shown, 12);
        Preview upright = preview(file("upright.jpg", TestPictures.jpeg(1000, 1700)));
        assertEquals(941, upright.widthPixels());
        assertEquals(1600, upright.heightPixels());
    }

    @ParameterizedTest
    @CsvSource({"1600, 1000", "800, 600", "31, 17", "1, 1"})
    void neverEnlarges(int width, int height) throws IOException {
        Preview preview = preview(file("small.jpg", TestPictures.jpeg(width, height)));
        assertEquals(width, preview.widthPixels());
        assertEquals(height, preview.heightPixels());
        assertSamePicture(decoded(TestPictures.jpeg(width, height)), decoded(preview.jpeg()), 12);
    }

    @Test
    void aLongStripKeepsAtLeastOnePixel() {
        Preview preview = preview(file("strip.jpg", TestPictures.jpeg(8000, 2)));
        assertEquals(1600, preview.widthPixels());
        assertEquals(1, preview.heightPixels());
    }

    @Test
    void readsProgressiveAndGreyPictures() throws IOException {
        Path plain = file("plain.jpg", TestPictures.jpeg(320, 200));
        byte[] progressive =
                Program.run("libjpeg-turbo-progs", "jpegtran", "-progressive", plain.toString());
        assertSamePicture(
                TestPictures.corners(320, 200),
                decoded(preview(file("progressive.jpg", progressive)).jpeg()),
                12);
        byte[] grey =
                Program.run("libjpeg-turbo-progs", "jpegtran", "-grayscale", plain.toString());
        assertSamePicture(decoded(grey), decoded(preview(file("grey.jpg", grey)).jpeg()), 12);
    }

    @Test
    void cmykIsAProblemInPlainWords() throws IOException {
        WritableRaster four = Raster.createInterleavedRaster(0, 64, 48, 4, null);
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
        writer.setOutput(new MemoryCacheImageOutputStream(bytes));
        writer.write(null, new IIOImage(four, null, null), null);
        ((MemoryCacheImageOutputStream) writer.getOutput()).close();
        Path file = file("print.jpg", bytes.toByteArray());
        String says =
                new String(
                        Program.run(
                                "libimage-exiftool-perl",
                                "exiftool",
                                "-s3",
                                "-ColorComponents",
                                file.toString()),
                        StandardCharsets.UTF_8);
        assertEquals("4", says.strip());
        String words = problem(file);
        assertTrue(words.contains("print.jpg") && words.contains("CMYK"), words);
    }

    @ParameterizedTest
    @CsvSource({"0xC0, 20000, 15001", "0xC2, 12000, 8400"})
    void anEnormousPictureIsRefusedBeforeItTakesMemory(int frameMarker, int width, int height) {
        byte[] jpeg = TestPictures.jpeg(64, 48);
        int sof = 2;
        while ((jpeg[sof + 1] & 0xFF) != 0xC0) {
            sof += 2 + ((jpeg[sof + 2] & 0xFF) << 8) + (jpeg[sof + 3] & 0xFF);
        }
        jpeg[sof + 1] = (byte) frameMarker;
        jpeg[sof + 5] = (byte) (height >> 8);
        jpeg[sof + 6] = (byte) height;
        jpeg[sof + 7] = (byte) (width >> 8);
        jpeg[sof + 8] = (byte) width;
        String words = problem(file("huge.jpg", jpeg));
        assertTrue(words.contains(width + " x " + height + " pixels"), words);
    }

    @Test
    void brokenFilesAreProblemsAndNotExceptions() throws IOException {
        byte[] noise = new byte[10_000];
        new Random(3).nextBytes(noise);
        problem(file("noise.jpg", noise));
        problem(file("empty.jpg", new byte[0]));
        problem(folder.resolve("missing.jpg"));
        problem(Files.createDirectory(folder.resolve("folder.jpg")));
        ByteArrayOutputStream png = new ByteArrayOutputStream();
        ImageIO.write(TestPictures.corners(20, 20), "png", png);
        String words = problem(file("png.jpg", png.toByteArray()));
        assertTrue(words.contains("not a JPEG"), words);
    }

    @Test
    void damageAnywhereIsNeverAnException() {
        byte[] jpeg = TestPictures.jpeg(96, 64);
        Random random = new Random(11);
        int previews = 0;
        for (int i = 0; i < 100; i++) {
            byte[] damaged = jpeg.clone();
            for (int k = 0; k < 4; k++) {
                damaged[2 + random.nextInt(jpeg.length - 2)] = (byte) random.nextInt();
            }
            PreviewResult result = new PreviewMaker().make(file("damaged.jpg", damaged));
            if (result instanceof Preview preview) {
                assertTrue(preview.jpeg().length > 100);
                previews++;
            } else {
                FrameProblem problem = assertInstanceOf(FrameProblem.class, result);
                assertTrue(problem.words().startsWith("No preview of damaged.jpg: "));
            }
        }
        assertTrue(previews > 0 && previews < 100, previews + " of 100 still decoded");
    }

    @Test
    void leavesTheOriginalAsItIs() throws IOException {
        byte[] jpeg = TestPictures.jpeg(2000, 1000);
        Path file = file("original.jpg", jpeg);
        FileTime before = FileTime.fromMillis(1_600_000_000_000L);
        Files.setLastModifiedTime(file, before);
        preview(file);
        assertArrayEquals(jpeg, Files.readAllBytes(file));
        assertEquals(before, Files.getLastModifiedTime(file));
    }
}

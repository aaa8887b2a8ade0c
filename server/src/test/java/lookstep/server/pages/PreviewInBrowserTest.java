package lookstep.server.pages;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;

import com.microsoft.playwright.Page;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.color.ColorSpace;
import java.awt.color.ICC_Profile;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import java.util.Optional;
import javax.imageio.ImageIO;
import lookstep.protocols.image.ExifData;
import lookstep.protocols.image.ExifWriter;
import lookstep.protocols.image.MpfWriter;
import lookstep.server.frames.PreviewMaker;
import lookstep.server.frames.PreviewResult.Preview;
import lookstep.server.frames.StandIn;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is handed on without decoding is shown upright and in its colours by a real browser. */
class PreviewInBrowserTest {
    private static final Color[] CORNERS = {Color.RED, Color.GREEN, Color.BLUE, Color.YELLOW};

    @TempDir Path folder;

    private static byte[] jpeg(int width, int height, Color... clockwise) throws IOException {
        BufferedImage picture = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D pen = picture.createGraphics();
        int w = width / 2;
        int h = height / 2;
        int[][] at = {{0, 0}, {w, 0}, {w, h}, {0, h}};
        for (int i = 0; i < 4; i++) {
            pen.setColor(clockwise[i % clockwise.length]);
            pen.fillRect(at[i][0], at[i][1], width - w, height - h);
        }
        pen.dispose();
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        ImageIO.write(picture, "jpeg", bytes);
        return bytes.toByteArray();
    }

    /** Width, height, then red, green, blue a quarter in from each corner, clockwise. */
    private static List<?> shown(Preview preview) {
        try (Page page = OneBrowser.chromium().newPage()) {
            return (List<?>)
                    page.evaluate(
                            """
                            async (bytes) => {
                              const image = new Image();
                              image.src = 'data:image/jpeg;base64,' + bytes;
                              await image.decode();
                              const w = image.naturalWidth, h = image.naturalHeight;
                              const canvas = document.createElement('canvas');
                              canvas.width = w;
                              canvas.height = h;
                              const pen = canvas.getContext('2d');
                              pen.drawImage(image, 0, 0);
                              const seen = [w, h];
                              for (const [x, y] of [[1, 1], [3, 1], [3, 3], [1, 3]]) {
                                const at = pen.getImageData(w * x >> 2, h * y >> 2, 1, 1).data;
                                seen.push(at[0], at[1], at[2]);
                              }
                              return seen;
                            }
                            """,
                            Base64.getEncoder().encodeToString(preview.jpeg()));
        }
    }

    private static int number(List<?> seen, int at) {
        return ((Number) seen.get(at)).intValue();
    }

    /**
     * Which stored corner comes to the upper left, and which to the upper right, follows from the
     * rows and columns of the tag Orientation (CIPA DC-008): 6 means that the 0th row is the right
     * side and the 0th column the top.
     */
    @ParameterizedTest
    @CsvSource({
        "1, 0, 1", "2, 1, 0", "3, 2, 3", "4, 3, 2", "5, 0, 3", "6, 3, 0", "7, 2, 1", "8, 1, 2"
    })
    void isUpright(int orientation, int upperLeft, int upperRight) throws IOException {
        byte[] main =
                ExifWriter.insert(
                        jpeg(640, 420, Color.GRAY),
                        ExifData.builder().orientation(orientation).build(),
                        Optional.of(jpeg(160, 120, CORNERS)));
        Path file =
                Files.write(
                        folder.resolve("a.jpg"), MpfWriter.append(main, jpeg(1600, 1066, CORNERS)));
        for (Preview preview :
                List.of(
                        assertInstanceOf(Preview.class, new PreviewMaker().make(file)),
                        StandIn.of(file).orElseThrow())) {
            List<?> seen = shown(preview);
            assertEquals(preview.widthPixels(), number(seen, 0));
            assertEquals(preview.heightPixels(), number(seen, 1));
            assertColour(CORNERS[upperLeft], seen, 2, 12);
            assertColour(CORNERS[upperRight], seen, 5, 12);
        }
    }

    private static void assertColour(Color wanted, List<?> seen, int from, int tolerance) {
        assertEquals(wanted.getRed(), number(seen, from), tolerance, seen::toString);
        assertEquals(wanted.getGreen(), number(seen, from + 1), tolerance, seen::toString);
        assertEquals(wanted.getBlue(), number(seen, from + 2), tolerance, seen::toString);
    }

    /**
     * The main picture's profile has a gamma of 1 and the preview inside has none: 128 is half of
     * the light, which sRGB codes as 255 (1.055 (128/255)^(1/2.4) - 0.055) = 188 (IEC 61966-2-1).
     */
    @Test
    void isInTheMainPicturesColours() throws IOException {
        byte[] profile = ICC_Profile.getInstance(ColorSpace.CS_LINEAR_RGB).getData();
        byte[] plain = jpeg(640, 420, Color.BLACK);
        // the profile in one segment (ICC.1 annex B.4), after SOI and JFIF's APP0
        ByteBuffer main = ByteBuffer.allocate(plain.length + 18 + profile.length);
        main.put(plain, 0, 20).putShort((short) 0xFFE2).putShort((short) (16 + profile.length));
        main.put("ICC_PROFILE\0".getBytes(StandardCharsets.US_ASCII)).put((byte) 1).put((byte) 1);
        main.put(profile).put(plain, 20, plain.length - 20);
        byte[] inside = jpeg(1600, 1066, new Color(128, 128, 128));
        Path file = Files.write(folder.resolve("a.jpg"), MpfWriter.append(main.array(), inside));
        Preview preview = assertInstanceOf(Preview.class, new PreviewMaker().make(file));
        assertColour(new Color(188, 188, 188), shown(preview), 2, 2);
    }
}

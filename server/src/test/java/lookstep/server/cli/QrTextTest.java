package lookstep.server.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The code as a terminal draws it, read by zbarimg (Debian's zbar-tools). */
class QrTextTest {
    private static final int PIXELS = 8;

    @TempDir Path dir;

    @ParameterizedTest
    @ValueSource(
            strings = {
                "http://192.168.1.23:8037/open/tfr2xc6y",
                "http://[fd00::12]:65535/open/23456789"
            })
    void aScannerReadsWhatWasMeant(String words) throws Exception {
        Path png = dir.resolve("code.png");
        ImageIO.write(drawn(QrText.of(words, false)), "png", png.toFile());
        Process zbar =
                new ProcessBuilder("zbarimg", "--nodbus", "-q", "--raw", png.toString()).start();
        String read = new String(zbar.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertEquals(0, zbar.waitFor(), read);
        assertEquals(words, read.strip());
    }

    /**
     * On a dark terminal: a block is light, a blank is dark; a character is one wide and two high.
     */
    private static BufferedImage drawn(String text) throws IOException {
        String[] lines = text.split("\n", -1);
        int width = lines[0].length();
        BufferedImage image =
                new BufferedImage(
                        width * PIXELS, lines.length * 2 * PIXELS, BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < lines.length; y++) {
            for (int x = 0; x < lines[y].length(); x++) {
                char c = lines[y].charAt(x);
                fill(image, x, 2 * y, c == '█' || c == '▀');
                fill(image, x, 2 * y + 1, c == '█' || c == '▄');
            }
        }
        return image;
    }

    private static void fill(BufferedImage image, int x, int y, boolean light) {
        for (int dy = 0; dy < PIXELS; dy++) {
            for (int dx = 0; dx < PIXELS; dx++) {
                image.setRGB(x * PIXELS + dx, y * PIXELS + dy, light ? 0xffffff : 0);
            }
        }
    }

    /** ISO/IEC 18004: a quiet zone four modules wide on all sides. */
    @Test
    void theQuietZoneIsFourModules() {
        String[] lines = QrText.of("http://10.0.0.1:8037/open/abcdefgh", false).split("\n", -1);
        assertTrue(
                lines[0].chars().allMatch(c -> c == '█')
                        && lines[1].chars().allMatch(c -> c == '█'));
        for (String line : Arrays.copyOf(lines, lines.length - 1)) {
            assertTrue(line.startsWith("████") || line.startsWith("▀▀▀▀"), line);
        }
    }
}

package lookstep.server.framecheck;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.Polygon;
import java.awt.image.BufferedImage;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Against discs of known size. */
class EdgeBlurTest {
    private static final int SIDE = 240;

    /** Drawn four times as large, so that a pixel is the mean of what it covers. */
    private static final int FINE = 4;

    /** Grey triangles, {@code contrast} codes around the middle, sharp but for the pixels. */
    private static BufferedImage triangles(int contrast, long seed) {
        BufferedImage large =
                new BufferedImage(SIDE * FINE, SIDE * FINE, BufferedImage.TYPE_INT_RGB);
        Graphics2D pen = large.createGraphics();
        pen.setColor(new Color(110, 110, 110));
        pen.fillRect(0, 0, SIDE * FINE, SIDE * FINE);
        Random random = new Random(seed);
        for (int i = 0; i < 9; i++) {
            int cx = (40 + i % 3 * 80) * FINE;
            int cy = (40 + i / 3 * 80) * FINE;
            Polygon triangle = new Polygon();
            double turn = random.nextDouble() * 2;
            for (int k = 0; k < 3; k++) {
                double a = turn + k * 2 * Math.PI / 3;
                triangle.addPoint(
                        (int) (cx + 34 * FINE * Math.cos(a)), (int) (cy + 34 * FINE * Math.sin(a)));
            }
            int code = 110 + (i % 2 == 0 ? contrast : -contrast);
            pen.setColor(new Color(code, code, code));
            pen.fillPolygon(triangle);
        }
        pen.dispose();
        BufferedImage out = new BufferedImage(SIDE, SIDE, BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < SIDE; y++) {
            for (int x = 0; x < SIDE; x++) {
                int sum = 0;
                for (int k = 0; k < FINE * FINE; k++) {
                    sum += large.getRGB(x * FINE + k % FINE, y * FINE + k / FINE) & 0xff;
                }
                int code = sum / (FINE * FINE);
                out.setRGB(x, y, new Color(code, code, code).getRGB());
            }
        }
        return out;
    }

    /**
     * A pixel is a square of variance 1/12 and a disc of diameter d has d^2 / 16, so together they
     * are as wide as a disc of sqrt(d^2 + 16 / 12).
     */
    @ParameterizedTest
    @CsvSource({
        "2, 80, 0", "4, 80, 0", "8, 80, 0", "12, 80, 0",
        "2, 80, 4", "4, 80, 4", "8, 80, 4", "12, 80, 4",
        "2, 25, 0", "4, 25, 2", "8, 25, 2"
    })
    void tellsTheDisc(double disc, int contrast, double noise) {
        BufferedImage picture = DiscBlur.noisy(DiscBlur.of(triangles(contrast, 5), disc), noise, 7);
        double expected = Math.sqrt(disc * disc + 16 / 12.0);
        assertEquals(
                expected,
                EdgeBlur.discPixels(picture).orElseThrow(),
                0.2 * expected,
                "disc " + disc + ", contrast " + contrast + ", noise " + noise);
    }

    @Test
    void noiseAloneHasNoEdges() {
        BufferedImage grey = new BufferedImage(SIDE, SIDE, BufferedImage.TYPE_INT_RGB);
        for (int i = 0; i < SIDE * SIDE; i++) {
            grey.setRGB(i % SIDE, i / SIDE, 0x808080);
        }
        assertTrue(EdgeBlur.discPixels(grey).isEmpty());
        assertTrue(EdgeBlur.discPixels(DiscBlur.noisy(grey, 4, 3)).isEmpty());
    }
}

package lookstep.simulator.gear;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.util.Arrays;
import org.junit.jupiter.api.Test;

/** Photon statistics (Poisson): the spread of a count is its square root. */
class SensorNoiseTest {
    private static BufferedImage grey(int code) {
        BufferedImage picture = new BufferedImage(400, 300, BufferedImage.TYPE_INT_RGB);
        int[] row = new int[400 * 300];
        Arrays.fill(row, code << 16 | code << 8 | code);
        picture.setRGB(0, 0, 400, 300, row, 0, 400);
        return picture;
    }

    /** Mean and standard deviation of the green channel, in codes. */
    private static double[] spread(BufferedImage picture) {
        double sum = 0;
        double squares = 0;
        int n = 400 * 300;
        for (int y = 0; y < 300; y++) {
            for (int x = 0; x < 400; x++) {
                int g = picture.getRGB(x, y) >> 8 & 0xFF;
                sum += g;
                squares += (double) g * g;
            }
        }
        double mean = sum / n;
        return new double[] {mean, Math.sqrt(squares / n - mean * mean)};
    }

    private static double[] noisy(int code, double iso, double pitch) {
        BufferedImage picture = grey(code);
        new SensorNoise(1).addTo(picture, iso, pitch);
        return spread(picture);
    }

    @Test
    void fourTimesTheIsoOrHalfThePitchDoublesTheGrain() {
        double base = SensorNoise.sigma(0.5, 100, 30);
        assertEquals(2, SensorNoise.sigma(0.5, 400, 30) / base, 0.01);
        assertEquals(2, SensorNoise.sigma(0.5, 100, 15) / base, 0.01);
        assertEquals(Math.sqrt(2), base / SensorNoise.sigma(0.25, 100, 30), 0.01);
        // In the picture: codes to linear is about straight over so small a range.
        double[] less = noisy(128, 1600, 6);
        double[] more = noisy(128, 6400, 6);
        assertEquals(2, more[1] / less[1], 0.1);
        assertTrue(less[1] > 1, "measurable: " + less[1]);
    }

    @Test
    void grainLeavesTheMeanAndLowIsoIsClean() {
        assertEquals(128, noisy(128, 6400, 6)[0], 0.5);
        assertTrue(noisy(128, 100, 30)[1] < 0.5);
        assertTrue(noisy(0, 100, 30)[0] < 0.01);
    }

    @Test
    void theSameSeedGivesTheSameGrain() {
        BufferedImage one = grey(90);
        BufferedImage two = grey(90);
        BufferedImage other = grey(90);
        new SensorNoise(4).addTo(one, 3200, 10);
        new SensorNoise(4).addTo(two, 3200, 10);
        new SensorNoise(5).addTo(other, 3200, 10);
        int[] a = one.getRGB(0, 0, 400, 300, null, 0, 400);
        assertTrue(Arrays.equals(a, two.getRGB(0, 0, 400, 300, null, 0, 400)));
        assertTrue(!Arrays.equals(a, other.getRGB(0, 0, 400, 300, null, 0, 400)));
    }
}

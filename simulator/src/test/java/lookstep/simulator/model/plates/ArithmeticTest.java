package lookstep.simulator.model.plates;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

/** Against numpy 2.4 (fft.fft2, linalg.eigh), an implementation that shares nothing with ours. */
class ArithmeticTest {
    @Test
    void theFourierTransformIsNumpys() {
        double[] re = {1, 2, 0, -1, 0.5, 0, 3, 1, -2, 1, 1, 0, 0, 0, 4, -0.5};
        double[] im = {0, 1, 0, 0, 2, 0, 0, -1, 0, 0.5, 0, 0, 1, 0, 0, 3};
        double[] wasRe = re.clone();
        double[] wasIm = im.clone();
        Fourier fourier = new Fourier(4);
        fourier.transform(re, im, false);
        assertArrayEquals(
                new double[] {10, -9, 5, -8, -1, 7, 7, 3, -6, 8, -9, 1, 5, 2, -3, 4}, re, 1e-12);
        assertArrayEquals(
                new double[] {
                    6.5, -0.5, -0.5, 6.5, -0.5, -7.5, 1.5, 4.5, -3.5, -7.5, -2.5, 1.5, 1.5, 3.5,
                    -2.5, -0.5
                },
                im,
                1e-12);
        fourier.transform(re, im, true);
        assertArrayEquals(wasRe, re, 1e-12);
        assertArrayEquals(wasIm, im, 1e-12);
        assertThrows(IllegalArgumentException.class, () -> new Fourier(12));
    }

    @Test
    void thePrincipalAxesAreNumpys() {
        double[][] axes =
                PrincipalAxes.of(new double[][] {{4, 1, 0.5}, {1, 3, -1}, {0.5, -1, 2}}, 3);
        double[][] golden = {
            {0.83675021, 0.54543773, -0.04844347},
            {0.4442152, -0.62440251, 0.64249075},
            {0.32019047, -0.55912359, -0.76476066}
        };
        for (int k = 0; k < 3; k++) {
            // Which way an axis points is left open.
            double way = Math.signum(axes[k][0] * golden[k][0]);
            for (int i = 0; i < 3; i++) {
                assertEquals(golden[k][i], way * axes[k][i], 1e-7);
            }
        }
    }

    @Test
    void choleskySolvesAndRefuses() {
        double[] x = new Cholesky(new double[][] {{4, 0}, {2, 3}}).solve(new double[] {8, 7});
        // 4 x + 2 y = 8 and 2 x + 3 y = 7.
        assertArrayEquals(new double[] {1.25, 1.5}, x, 1e-12);
        assertThrows(
                ArithmeticException.class, () -> new Cholesky(new double[][] {{1, 1}, {1, 1}}));
    }
}

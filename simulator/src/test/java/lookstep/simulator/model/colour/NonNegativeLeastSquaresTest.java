package lookstep.simulator.model.colour;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.SingularValueDecomposition;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class NonNegativeLeastSquaresTest {
    @Test
    void examplesOfTheScipyManual() {
        // scipy.optimize.nnls, reference manual, examples.
        double[][] a = {{1, 0}, {1, 0}, {0, 1}};
        assertArrayEquals(
                new double[] {1.5, 1},
                NonNegativeLeastSquares.solve(a, new double[] {2, 1, 1}),
                1e-12);
        assertArrayEquals(
                new double[] {0, 0},
                NonNegativeLeastSquares.solve(a, new double[] {-1, -1, -1}),
                0);
    }

    @Test
    void lineFitOfLawsonAndHanson() {
        // Lawson and Hanson 1974, chapter 23, the example (data from memory, worked out again with
        // scipy.optimize.lsq_linear): the line through (0.25, 0.5), (0.5, 0.6), (0.5, 0.7), (0.8,
        // 1.2) that does not fall, is not below 0 at 0 and not above 1 at 1 is 0.621 t + 0.379. The
        // last condition is a third, slack, unknown and a row of great weight.
        double w = 1e5;
        double[] x =
                NonNegativeLeastSquares.solve(
                        new double[][] {
                            {0.25, 1, 0}, {0.5, 1, 0}, {0.5, 1, 0}, {0.8, 1, 0}, {w, w, w}
                        },
                        new double[] {0.5, 0.6, 0.7, 1.2, w});
        assertEquals(0.621, x[0], 5e-4);
        assertEquals(0.379, x[1], 5e-4);
        assertEquals(0, x[2], 1e-6);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void noChoiceOfColumnsIsBetterAndTheConditionsOfAMinimumHold(long seed) {
        Random random = new Random(seed);
        for (int k = 0; k < 60; k++) {
            int n = 1 + random.nextInt(6);
            int rows = n + random.nextInt(4);
            double[][] a = new double[rows][n];
            double[] b = new double[rows];
            for (int i = 0; i < rows; i++) {
                b[i] = random.nextGaussian();
                for (int j = 0; j < n; j++) {
                    a[i][j] = random.nextGaussian();
                }
            }
            double[] x = NonNegativeLeastSquares.solve(a, b);
            Array2DRowRealMatrix m = new Array2DRowRealMatrix(a);
            ArrayRealVector right = new ArrayRealVector(b);
            double miss = right.subtract(new ArrayRealVector(m.operate(x))).getNorm();
            // Brute force: the answer is the plain least squares of some choice of columns.
            double least = right.getNorm();
            for (int some = 1; some < 1 << n; some++) {
                double[] other = plain(m, right, some, n);
                if (other != null) {
                    double d = right.subtract(new ArrayRealVector(m.operate(other))).getNorm();
                    least = Math.min(least, d);
                }
            }
            assertEquals(least, miss, 1e-9);
            // Karush, Kuhn and Tucker: no slope inwards, and none where it is free.
            double[] slope =
                    m.transpose()
                            .operate(right.subtract(new ArrayRealVector(m.operate(x))).toArray());
            for (int j = 0; j < n; j++) {
                assertTrue(x[j] >= 0);
                assertTrue(slope[j] <= 1e-9, "slope " + slope[j]);
                assertEquals(0, slope[j] * x[j], 1e-9);
            }
        }
    }

    /** Least squares over some columns by singular values; null if one comes out below 0. */
    private static double[] plain(Array2DRowRealMatrix m, ArrayRealVector right, int some, int n) {
        int[] columns = new int[Integer.bitCount(some)];
        int count = 0;
        for (int j = 0; j < n; j++) {
            if ((some >> j & 1) != 0) {
                columns[count++] = j;
            }
        }
        int[] rows = new int[m.getRowDimension()];
        for (int i = 0; i < rows.length; i++) {
            rows[i] = i;
        }
        double[] z =
                new SingularValueDecomposition(m.getSubMatrix(rows, columns))
                        .getSolver()
                        .solve(right)
                        .toArray();
        double[] x = new double[n];
        for (int k = 0; k < count; k++) {
            if (z[k] < 0) {
                return null;
            }
            x[columns[k]] = z[k];
        }
        return x;
    }

    @Test
    void twoColumnsThatAreNearlyAlikeAreToldApart() {
        double d = 1e-6;
        double[] x =
                NonNegativeLeastSquares.solve(
                        new double[][] {{1, 1}, {0, d}, {0, 0}}, new double[] {1, 0.3 * d, 0});
        assertArrayEquals(new double[] {0.7, 0.3}, x, 1e-8);
    }
}

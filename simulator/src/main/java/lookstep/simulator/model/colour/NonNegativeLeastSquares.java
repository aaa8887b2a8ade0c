package lookstep.simulator.model.colour;

import java.util.Arrays;

/**
 * The x at or above 0 that brings A x nearest to b: algorithm NNLS of Lawson and Hanson, Solving
 * Least Squares Problems, 1974, chapter 23. Columns that are not held at 0 are solved by
 * Householder reflections, for the small differences between nearly alike whites would drown in the
 * squares of the normal equations.
 */
public final class NonNegativeLeastSquares {
    private static final double TINY = 1e-15;

    private NonNegativeLeastSquares() {}

    /**
     * Solves it.
     *
     * @param a rows first; at least as many rows as columns
     * @param b one for each row
     * @return one for each column, each at or above 0
     */
    public static double[] solve(double[][] a, double[] b) {
        int n = a[0].length;
        double[] x = new double[n];
        boolean[] free = new boolean[n];
        boolean[] refused = new boolean[n];
        double[] slope = slope(a, b, x);
        double least = TINY * n * largest(a, b);
        // Each turn lets one go and cannot come back to the same set, as the distance falls; the
        // bound only stands against rounding.
        for (int turn = 0; turn < 30 * n; turn++) {
            int go = -1;
            for (int j = 0; j < n; j++) {
                if (!free[j] && !refused[j] && slope[j] > (go < 0 ? least : slope[go])) {
                    go = j;
                }
            }
            if (go < 0) {
                return x;
            }
            free[go] = true;
            double[] z = leastSquares(a, b, free);
            if (!(z[go] > 0)) {
                // Rounding: it was no way down after all (step 6 of the algorithm says so too).
                free[go] = false;
                refused[go] = true;
                continue;
            }
            Arrays.fill(refused, false);
            while (!positive(z, free)) {
                step(x, z, free);
                z = leastSquares(a, b, free);
            }
            x = z;
            slope = slope(a, b, x);
        }
        return x;
    }

    /** As far from x to z as all stay at or above 0; those that come to 0 are held there. */
    private static void step(double[] x, double[] z, boolean[] free) {
        double part = 1;
        int first = -1;
        for (int j = 0; j < x.length; j++) {
            if (free[j] && z[j] <= 0) {
                double until = x[j] / (x[j] - z[j]);
                if (first < 0 || until < part) {
                    part = until;
                    first = j;
                }
            }
        }
        for (int j = 0; j < x.length; j++) {
            if (free[j]) {
                x[j] += part * (z[j] - x[j]);
                if (j == first || x[j] <= 0) {
                    x[j] = 0;
                    free[j] = false;
                }
            }
        }
    }

    private static boolean positive(double[] z, boolean[] free) {
        for (int j = 0; j < z.length; j++) {
            if (free[j] && !(z[j] > 0)) {
                return false;
            }
        }
        return true;
    }

    /** How the squared distance falls with each x, halved. */
    private static double[] slope(double[][] a, double[] b, double[] x) {
        double[] slope = new double[x.length];
        for (int i = 0; i < b.length; i++) {
            double miss = b[i];
            for (int j = 0; j < x.length; j++) {
                miss -= a[i][j] * x[j];
            }
            for (int j = 0; j < x.length; j++) {
                slope[j] += a[i][j] * miss;
            }
        }
        return slope;
    }

    private static double largest(double[][] a, double[] b) {
        double largest = 0;
        double right = 0;
        for (int i = 0; i < b.length; i++) {
            for (double v : a[i]) {
                largest = Math.max(largest, Math.abs(v));
            }
            right = Math.max(right, Math.abs(b[i]));
        }
        return largest * right;
    }

    /** Least squares over the free columns; 0 for the others. */
    private static double[] leastSquares(double[][] a, double[] b, boolean[] free) {
        int rows = b.length;
        int[] columns = new int[free.length];
        int count = 0;
        for (int j = 0; j < free.length; j++) {
            if (free[j]) {
                columns[count++] = j;
            }
        }
        double[][] r = new double[rows][count];
        double[] right = b.clone();
        for (int i = 0; i < rows; i++) {
            for (int k = 0; k < count; k++) {
                r[i][k] = a[i][columns[k]];
            }
        }
        for (int k = 0; k < count; k++) {
            reflect(r, right, k, count);
        }
        double[] x = new double[free.length];
        for (int k = count - 1; k >= 0; k--) {
            double sum = right[k];
            for (int m = k + 1; m < count; m++) {
                sum -= r[k][m] * x[columns[m]];
            }
            x[columns[k]] = r[k][k] == 0 ? 0 : sum / r[k][k];
        }
        return x;
    }

    /** Clears column k below its diagonal by a Householder reflection. */
    private static void reflect(double[][] r, double[] right, int k, int count) {
        double norm = 0;
        for (int i = k; i < r.length; i++) {
            norm = Math.hypot(norm, r[i][k]);
        }
        if (norm == 0) {
            return;
        }
        double diagonal = r[k][k] > 0 ? -norm : norm;
        double[] v = new double[r.length];
        double square = 0;
        for (int i = k; i < r.length; i++) {
            v[i] = i == k ? r[i][k] - diagonal : r[i][k];
            square += v[i] * v[i];
        }
        for (int c = k; c < count; c++) {
            double along = 0;
            for (int i = k; i < r.length; i++) {
                along += v[i] * r[i][c];
            }
            for (int i = k; i < r.length; i++) {
                r[i][c] -= 2 * along / square * v[i];
            }
        }
        double along = 0;
        for (int i = k; i < r.length; i++) {
            along += v[i] * right[i];
        }
        for (int i = k; i < r.length; i++) {
            right[i] -= 2 * along / square * v[i];
        }
    }
}

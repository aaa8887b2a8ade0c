package lookstep.simulator.model.plates;

/** Solves A x = b for a symmetric, positive definite A. */
final class Cholesky {
    private final double[][] lower;

    /**
     * @param a rows first; only its lower half is read
     * @throws ArithmeticException if it is not positive definite
     */
    Cholesky(double[][] a) {
        int n = a.length;
        lower = new double[n][n];
        for (int i = 0; i < n; i++) {
            for (int j = 0; j <= i; j++) {
                double sum = a[i][j];
                for (int k = 0; k < j; k++) {
                    sum -= lower[i][k] * lower[j][k];
                }
                if (i > j) {
                    lower[i][j] = sum / lower[j][j];
                } else if (sum > 0) {
                    lower[i][i] = Math.sqrt(sum);
                } else {
                    throw new ArithmeticException("not positive definite at row " + i);
                }
            }
        }
    }

    double[] solve(double[] b) {
        int n = lower.length;
        double[] x = b.clone();
        for (int i = 0; i < n; i++) {
            for (int k = 0; k < i; k++) {
                x[i] -= lower[i][k] * x[k];
            }
            x[i] /= lower[i][i];
        }
        for (int i = n - 1; i >= 0; i--) {
            for (int k = i + 1; k < n; k++) {
                x[i] -= lower[k][i] * x[k];
            }
            x[i] /= lower[i][i];
        }
        return x;
    }
}

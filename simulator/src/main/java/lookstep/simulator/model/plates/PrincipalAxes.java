package lookstep.simulator.model.plates;

import java.util.Comparator;
import java.util.stream.IntStream;

/** Eigenvectors of a small symmetric matrix by Jacobi's rotations. */
final class PrincipalAxes {
    private static final int SWEEPS = 30;

    private PrincipalAxes() {}

    /** The foremost ones, those with the largest eigenvalue first; each of length 1. */
    static double[][] of(double[][] symmetric, int count) {
        int n = symmetric.length;
        double[][] a = new double[n][];
        double[][] v = new double[n][n];
        for (int i = 0; i < n; i++) {
            a[i] = symmetric[i].clone();
            v[i][i] = 1;
        }
        for (int sweep = 0; sweep < SWEEPS; sweep++) {
            for (int p = 0; p < n; p++) {
                for (int q = p + 1; q < n; q++) {
                    if (a[p][q] != 0) {
                        rotate(a, v, p, q);
                    }
                }
            }
        }
        int[] order =
                IntStream.range(0, n)
                        .boxed()
                        .sorted(Comparator.comparingDouble(i -> -a[i][i]))
                        .mapToInt(Integer::intValue)
                        .toArray();
        double[][] axes = new double[count][n];
        for (int k = 0; k < count; k++) {
            for (int i = 0; i < n; i++) {
                axes[k][i] = v[i][order[k]];
            }
        }
        return axes;
    }

    private static void rotate(double[][] a, double[][] v, int p, int q) {
        double theta = (a[q][q] - a[p][p]) / (2 * a[p][q]);
        double t = theta == 0 ? 1 : Math.signum(theta) / (Math.abs(theta) + Math.hypot(theta, 1));
        double c = 1 / Math.hypot(t, 1);
        double s = t * c;
        for (int i = 0; i < a.length; i++) {
            double x = a[i][p];
            double y = a[i][q];
            a[i][p] = c * x - s * y;
            a[i][q] = s * x + c * y;
        }
        for (int i = 0; i < a.length; i++) {
            double x = a[p][i];
            double y = a[q][i];
            a[p][i] = c * x - s * y;
            a[q][i] = s * x + c * y;
            x = v[i][p];
            y = v[i][q];
            v[i][p] = c * x - s * y;
            v[i][q] = s * x + c * y;
        }
    }
}

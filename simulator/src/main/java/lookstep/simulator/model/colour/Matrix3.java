package lookstep.simulator.model.colour;

/** Three by three, rows first: just what colour needs. */
final class Matrix3 {
    private Matrix3() {}

    static double[] times(double[][] m, double a, double b, double c) {
        return new double[] {
            m[0][0] * a + m[0][1] * b + m[0][2] * c,
            m[1][0] * a + m[1][1] * b + m[1][2] * c,
            m[2][0] * a + m[2][1] * b + m[2][2] * c
        };
    }

    static double[][] times(double[][] m, double[][] n) {
        double[][] r = new double[3][3];
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                r[i][j] = m[i][0] * n[0][j] + m[i][1] * n[1][j] + m[i][2] * n[2][j];
            }
        }
        return r;
    }

    static double[][] inverse(double[][] m) {
        double[][] r = new double[3][3];
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                int a = (j + 1) % 3;
                int b = (j + 2) % 3;
                int c = (i + 1) % 3;
                int d = (i + 2) % 3;
                r[i][j] = m[a][c] * m[b][d] - m[a][d] * m[b][c];
            }
        }
        double det = m[0][0] * r[0][0] + m[0][1] * r[1][0] + m[0][2] * r[2][0];
        for (double[] row : r) {
            for (int j = 0; j < 3; j++) {
                row[j] /= det;
            }
        }
        return r;
    }
}

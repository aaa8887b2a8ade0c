package lookstep.simulator.model.plates;

import java.util.ArrayList;
import java.util.List;

/**
 * Which frames, and how much of each, make a wanted light: least squares over the levels that they
 * were taken with. Of all answers the one with the least noise, counting each frame's exposure.
 */
final class LevelSystem {
    /** Of a column's length, what must be left when the columns before are taken out. */
    private static final double ALIKE = 1e-6;

    private static final double TIED = 1e-9;

    private final double[][] rows;
    private final double[] quiet;
    private final Cholesky normal;

    /**
     * @param levels of each frame
     * @param scale exposure scale of each frame: twice of it, half the noise
     * @param tied emitters that only ever change together, and will in what is wanted: told as one
     * @throws IllegalArgumentException if they do not tell all others apart
     */
    LevelSystem(List<double[]> levels, double[] scale, boolean tied) {
        List<Integer> open = notTold(levels);
        boolean allLit = open.stream().allMatch(c -> levels.stream().anyMatch(l -> row(l)[c] > 0));
        if (!open.isEmpty() && !(tied && allLit)) {
            throw new IllegalArgumentException(
                    "the frames do not tell "
                            + words(open)
                            + " apart from the rest: take a frame in which only that changes");
        }
        int n = levels.get(0).length + 1;
        rows = new double[levels.size()][n];
        quiet = new double[rows.length];
        double[][] square = new double[n][n];
        for (int k = 0; k < rows.length; k++) {
            rows[k] = row(levels.get(k));
            quiet[k] = scale[k] * scale[k] / (scale[0] * scale[0]);
            for (int i = 0; i < n; i++) {
                for (int j = 0; j < n; j++) {
                    square[i][j] += quiet[k] * rows[k][i] * rows[k][j];
                }
            }
        }
        for (int i = 0; i < n && !open.isEmpty(); i++) {
            // Of many answers the shortest.
            square[i][i] += TIED;
        }
        normal = new Cholesky(square);
    }

    /**
     * What the frames leave open.
     *
     * @return 0 for the house, 1 + i for emitter i; empty if all can be told apart
     */
    static List<Integer> notTold(List<double[]> levels) {
        int n = levels.get(0).length + 1;
        List<double[]> basis = new ArrayList<>();
        List<Integer> open = new ArrayList<>();
        for (int column = 0; column < n; column++) {
            double[] v = new double[levels.size()];
            for (int k = 0; k < v.length; k++) {
                v[k] = row(levels.get(k))[column];
            }
            double whole = Math.sqrt(dot(v, v));
            // Twice, for what rounding leaves the first time.
            for (int turn = 0; turn < 2; turn++) {
                for (double[] b : basis) {
                    double along = dot(v, b);
                    for (int k = 0; k < v.length; k++) {
                        v[k] -= along * b[k];
                    }
                }
            }
            double left = Math.sqrt(dot(v, v));
            if (left <= ALIKE * Math.max(whole, ALIKE)) {
                open.add(column);
            } else {
                for (int k = 0; k < v.length; k++) {
                    v[k] /= left;
                }
                basis.add(v);
            }
        }
        return open;
    }

    /** Of each frame's light in scene units (its picture over its exposure scale), for a mix. */
    double[] weights(double house, double[] levels) {
        double[] wanted = row(levels);
        wanted[0] = house;
        double[] solved = normal.solve(wanted);
        double[] weight = new double[rows.length];
        for (int k = 0; k < weight.length; k++) {
            weight[k] = quiet[k] * dot(rows[k], solved);
            // A frame that is not needed is not read for the sake of rounding.
            weight[k] = Math.abs(weight[k]) < 1e-9 ? 0 : weight[k];
        }
        return weight;
    }

    private static double[] row(double[] levels) {
        double[] row = new double[levels.length + 1];
        row[0] = 1;
        System.arraycopy(levels, 0, row, 1, levels.length);
        return row;
    }

    private static String words(List<Integer> open) {
        List<String> names = new ArrayList<>();
        for (int column : open) {
            names.add(column == 0 ? "the house" : "emitter " + column);
        }
        return String.join(", ", names) + " (of all lights, counted from 1)";
    }

    private static double dot(double[] a, double[] b) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += a[i] * b[i];
        }
        return sum;
    }
}

package lookstep.server.suggest;

/**
 * All distances between the points of a list, and from each to the nearest of some points that are
 * fixed.
 */
final class Distances {
    /** So many columns of all dimensions stay in the cache. */
    private static final int BLOCK = 64;

    private final int size;
    private final float[] between;
    private final float[] toFixed;

    private Distances(int size, float[] between, float[] toFixed) {
        this.size = size;
        this.between = between;
        this.toFixed = toFixed;
    }

    /**
     * Straight distances.
     *
     * @param fixed may be empty
     */
    static Distances of(float[][] points, float[][] fixed) {
        int n = points.length;
        float[] between = new float[n * n];
        int dimensions = n == 0 ? 0 : points[0].length;
        float[][] columns = new float[dimensions][BLOCK];
        float[] sum = new float[BLOCK];
        for (int first = 0; first < n; first += BLOCK) {
            int wide = Math.min(BLOCK, n - first);
            for (int d = 0; d < dimensions; d++) {
                for (int j = 0; j < wide; j++) {
                    columns[d][j] = points[first + j][d];
                }
            }
            for (int i = 0; i < first + wide; i++) {
                java.util.Arrays.fill(sum, 0);
                for (int d = 0; d < dimensions; d++) {
                    addSquares(sum, columns[d], points[i][d]);
                }
                for (int j = 0; j < wide; j++) {
                    if (first + j != i) {
                        float root = (float) Math.sqrt(sum[j]);
                        between[i * n + first + j] = root;
                        between[(first + j) * n + i] = root;
                    }
                }
            }
        }
        float[] toFixed = new float[n];
        for (int i = 0; i < n; i++) {
            toFixed[i] = Float.POSITIVE_INFINITY;
            for (float[] f : fixed) {
                toFixed[i] = Math.min(toFixed[i], (float) Difference.between(points[i], f));
            }
        }
        return new Distances(n, between, toFixed);
    }

    /** Plain enough for the compiler to do eight at once. */
    private static void addSquares(float[] sum, float[] column, float value) {
        for (int j = 0; j < BLOCK; j++) {
            float d = column[j] - value;
            sum[j] += d * d;
        }
    }

    int size() {
        return size;
    }

    float between(int i, int j) {
        return between[i * size + j];
    }

    /** To the nearest fixed point; infinite if there is none. */
    float toFixed(int i) {
        return toFixed[i];
    }
}

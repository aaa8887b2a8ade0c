package lookstep.simulator.model.picture;

/**
 * A body's signed distance sampled in a box, so that rays march through it cheaply: every fourth
 * point first, then all points near the surface. Good to a few millimetres; shading asks the body
 * itself.
 */
final class DistanceGrid {
    private static final double CELL = 0.02;
    private static final double HALF_DIAGONAL = CELL * Math.sqrt(3) / 2;
    private static final int BLOCK = 4;
    private static final double HALF_X = 0.56;
    private static final double HALF_Y = 0.44;
    private static final double BELOW = 0.08;
    private static final double ABOVE = 0.20;

    final double minX;
    final double minY;
    final double minZ;
    final double maxX;
    final double maxY;
    final double maxZ;

    /** The box around the body itself, without the space around it. */
    final double[] tight = {9, 9, 9, -9, -9, -9};

    private final int nx;
    private final int ny;
    private final int nz;
    private final float[] values;

    DistanceGrid(Body body) {
        double scale = Math.max(0.8, body.heightMetres() / Body.DRAWN_METRES);
        nx = cells(2 * HALF_X * scale);
        ny = cells(2 * HALF_Y * scale);
        nz = cells(BELOW + ABOVE + body.heightMetres());
        minX = -HALF_X * scale;
        minY = -HALF_Y * scale;
        minZ = -BELOW;
        maxX = minX + (nx - 1) * CELL;
        maxY = minY + (ny - 1) * CELL;
        maxZ = minZ + (nz - 1) * CELL;
        values = new float[nx * ny * nz];
        fill(body);
        tighten();
    }

    private void tighten() {
        for (int k = 0; k < nz; k++) {
            for (int j = 0; j < ny; j++) {
                for (int i = 0; i < nx; i++) {
                    if (values[at(i, j, k)] < CELL) {
                        double[] p = {minX + i * CELL, minY + j * CELL, minZ + k * CELL};
                        for (int c = 0; c < 3; c++) {
                            tight[c] = Math.min(tight[c], p[c] - CELL);
                            tight[c + 3] = Math.max(tight[c + 3], p[c] + CELL);
                        }
                    }
                }
            }
        }
    }

    private static int cells(double metres) {
        int blocks = (int) Math.ceil(metres / (CELL * BLOCK));
        return blocks * BLOCK + 1;
    }

    private int at(int i, int j, int k) {
        return (k * ny + j) * nx + i;
    }

    private void fill(Body body) {
        boolean[] exact = new boolean[values.length];
        for (int k = 0; k < nz; k += BLOCK) {
            for (int j = 0; j < ny; j += BLOCK) {
                for (int i = 0; i < nx; i += BLOCK) {
                    sample(body, exact, i, j, k);
                }
            }
        }
        double reach = BLOCK * CELL * Math.sqrt(3) * 1.1;
        for (int k = 0; k < nz - 1; k += BLOCK) {
            for (int j = 0; j < ny - 1; j += BLOCK) {
                for (int i = 0; i < nx - 1; i += BLOCK) {
                    fillBlock(body, exact, i, j, k, reach);
                }
            }
        }
    }

    private void fillBlock(Body body, boolean[] exact, int i0, int j0, int k0, double reach) {
        float[] corner = new float[8];
        boolean near = false;
        for (int c = 0; c < 8; c++) {
            int i = i0 + (c & 1) * BLOCK;
            int j = j0 + (c >> 1 & 1) * BLOCK;
            int k = k0 + (c >> 2) * BLOCK;
            corner[c] = values[at(i, j, k)];
            near |= Math.abs(corner[c]) < reach;
        }
        for (int k = 0; k <= BLOCK; k++) {
            for (int j = 0; j <= BLOCK; j++) {
                for (int i = 0; i <= BLOCK; i++) {
                    if (near) {
                        sample(body, exact, i0 + i, j0 + j, k0 + k);
                    } else if (!exact[at(i0 + i, j0 + j, k0 + k)]) {
                        float u = i / (float) BLOCK;
                        float v = j / (float) BLOCK;
                        float low =
                                mix(mix(corner[0], corner[1], u), mix(corner[2], corner[3], u), v);
                        float high =
                                mix(mix(corner[4], corner[5], u), mix(corner[6], corner[7], u), v);
                        values[at(i0 + i, j0 + j, k0 + k)] = mix(low, high, k / (float) BLOCK);
                    }
                }
            }
        }
    }

    private void sample(Body body, boolean[] exact, int i, int j, int k) {
        int p = at(i, j, k);
        if (!exact[p]) {
            exact[p] = true;
            values[p] = (float) body.distance(minX + i * CELL, minY + j * CELL, minZ + k * CELL);
        }
    }

    private static float mix(float a, float b, float t) {
        return a + (b - a) * t;
    }

    /** Distance in metres at a point inside the box, between samples by three linear steps. */
    double distance(double x, double y, double z) {
        double fx = (x - minX) / CELL;
        double fy = (y - minY) / CELL;
        double fz = (z - minZ) / CELL;
        int i = clamp((int) fx, nx - 2);
        int j = clamp((int) fy, ny - 2);
        int k = clamp((int) fz, nz - 2);
        float u = (float) (fx - i);
        float v = (float) (fy - j);
        float w = (float) (fz - k);
        int p = at(i, j, k);
        int q = p + nx * ny;
        float a =
                mix(
                        mix(values[p], values[p + 1], u),
                        mix(values[p + nx], values[p + nx + 1], u),
                        v);
        float b =
                mix(
                        mix(values[q], values[q + 1], u),
                        mix(values[q + nx], values[q + nx + 1], u),
                        v);
        return mix(a, b, w);
    }

    /** A lower bound of the distance at a point inside the box, from the nearest sample alone. */
    double atLeast(double x, double y, double z) {
        int i = clamp((int) ((x - minX) / CELL + 0.5), nx - 1);
        int j = clamp((int) ((y - minY) / CELL + 0.5), ny - 1);
        int k = clamp((int) ((z - minZ) / CELL + 0.5), nz - 1);
        return values[at(i, j, k)] - HALF_DIAGONAL;
    }

    boolean contains(double x, double y, double z) {
        return x > minX && x < maxX && y > minY && y < maxY && z > minZ && z < maxZ;
    }

    private static int clamp(int v, int most) {
        return v < 0 ? 0 : Math.min(v, most);
    }
}

package lookstep.simulator.model.plates;

/**
 * Whether the camera has moved between two pictures whose light is quite different: the edges of
 * both (see {@link EdgeField}) are laid over each other by correlation, whole and in tiles. A shift
 * is told from the tiles' and the whole's best place; a turn or a zoom moves the tiles apart.
 * Shadows are edges too and move with the lights, so a few pixels of a thousand are not told.
 */
public final class Registration {
    private static final int COLUMNS = 4;
    private static final int ROWS = 3;

    /** Around the whole's best place, pixels of the small picture. */
    private static final int REACH = 6;

    /** What the best place stands out by, in standard deviations of all: nothing, and certain. */
    private static final double NOTHING = 6;

    private static final double CERTAIN = 16;

    /** A corner may be off so far by turn or zoom, in small pixels, until certainty is halved. */
    private static final double CORNER = 1.5;

    private Registration() {}

    /**
     * How far the second picture has moved against the first.
     *
     * @param x share of the width, positive to the right
     * @param y share of the height, positive down
     * @param certainty 0 nothing can be said, 1 certain; low too if it turned or was zoomed
     */
    public record Shift(double x, double y, double certainty) {}

    /**
     * The same with turn and zoom, as far as tiles tell: which way and of what size, but up to half
     * too small.
     *
     * @param turnDegrees positive clockwise
     * @param zoom 1 none, more if the second shows things larger
     * @param corner how far turn and zoom move a corner, share of the width
     * @param certainty 0 nothing can be said, 1 certain; not lowered by a turn or a zoom
     */
    public record Motion(
            Shift shift, double turnDegrees, double zoom, double corner, double certainty) {}

    /**
     * Of two pictures of one set in different light, sizes alike.
     *
     * @throws IllegalArgumentException if sizes differ
     */
    public static Shift between(CodedPicture one, CodedPicture other) {
        return motion(one, other).shift();
    }

    /**
     * The same where something may move by itself, such as people.
     *
     * @param allowed pixels that count, of a picture of the same proportions, rows from the top
     * @throws IllegalArgumentException if sizes differ
     */
    public static Shift between(
            CodedPicture one,
            CodedPicture other,
            boolean[] allowed,
            int maskWidth,
            int maskHeight) {
        if (allowed.length != maskWidth * maskHeight) {
            throw new IllegalArgumentException(
                    "a mask of %d values for %d x %d pixels"
                            .formatted(allowed.length, maskWidth, maskHeight));
        }
        alike(one, other);
        return motion(
                        EdgeField.of(one).within(allowed, maskWidth, maskHeight),
                        EdgeField.of(other).within(allowed, maskWidth, maskHeight))
                .shift();
    }

    /**
     * With turn and zoom.
     *
     * @throws IllegalArgumentException if sizes differ
     */
    public static Motion motion(CodedPicture one, CodedPicture other) {
        alike(one, other);
        return motion(EdgeField.of(one), EdgeField.of(other));
    }

    private static void alike(CodedPicture one, CodedPicture other) {
        if (one.width() != other.width() || one.height() != other.height()) {
            throw new IllegalArgumentException(
                    "pictures of %d x %d and %d x %d pixels: compare alike ones"
                            .formatted(one.width(), one.height(), other.width(), other.height()));
        }
    }

    private static Motion motion(EdgeField a, EdgeField b) {
        Whole whole = whole(a, b);
        if (whole.certainty == 0) {
            return new Motion(new Shift(0, 0, 0), 0, 1, 0, 0);
        }
        double[] bent = tiles(a, b, whole);
        double corner = Math.hypot(bent[0], bent[1]) * Math.hypot(a.width, a.height) / 2;
        double far = corner / CORNER;
        double certainty = whole.certainty / (1 + far * far * far * far);
        return new Motion(
                new Shift(whole.x / a.width, whole.y / a.height, certainty),
                Math.toDegrees(bent[1]),
                1 + bent[0],
                corner / a.width,
                whole.certainty);
    }

    private record Whole(double x, double y, double certainty) {}

    private static Whole whole(EdgeField a, EdgeField b) {
        int side = EdgeField.WIDTH;
        double least = 1e-9;
        if (a.energy < least || b.energy < least) {
            return new Whole(0, 0, 0);
        }
        Fourier fourier = new Fourier(side);
        double[] ar = square(a.re, a.width, side);
        double[] ai = square(a.im, a.width, side);
        double[] br = square(b.re, b.width, side);
        double[] bi = square(b.im, b.width, side);
        fourier.transform(ar, ai, false);
        fourier.transform(br, bi, false);
        for (int i = 0; i < ar.length; i++) {
            double re = ar[i] * br[i] + ai[i] * bi[i];
            double im = ar[i] * bi[i] - ai[i] * br[i];
            ar[i] = re;
            ai[i] = im;
        }
        fourier.transform(ar, ai, true);
        int best = 0;
        double squares = 0;
        for (int i = 0; i < ar.length; i++) {
            squares += ar[i] * ar[i];
            best = ar[i] > ar[best] ? i : best;
        }
        double out = ar[best] / Math.sqrt(squares / ar.length);
        int x = best % side;
        int y = Math.floorDiv(best, side);
        double dx =
                x
                        + summit(
                                ar[y * side + (x + side - 1) % side],
                                ar[best],
                                ar[y * side + (x + 1) % side]);
        double dy =
                y
                        + summit(
                                ar[(y + side - 1) % side * side + x],
                                ar[best],
                                ar[(y + 1) % side * side + x]);
        double certainty = Math.min(1, Math.max(0, (out - NOTHING) / (CERTAIN - NOTHING)));
        return new Whole(
                dx > side / 2.0 ? dx - side : dx, dy > side / 2.0 ? dy - side : dy, certainty);
    }

    private static double[] square(double[] from, int width, int side) {
        double[] to = new double[side * side];
        int height = from.length / width;
        for (int y = 0; y < height; y++) {
            System.arraycopy(from, y * width, to, y * side, width);
        }
        return to;
    }

    /** Where the parabola through three points is highest, -0.5..0.5 from the middle one. */
    private static double summit(double before, double at, double after) {
        double bend = before - 2 * at + after;
        return bend < 0 ? Math.max(-0.5, Math.min(0.5, (before - after) / (2 * bend))) : 0;
    }

    /**
     * Turn and zoom from how each tile lies against the whole.
     *
     * @return zoom less 1, and turn in radians clockwise
     */
    private static double[] tiles(EdgeField a, EdgeField b, Whole whole) {
        int sx = (int) Math.round(whole.x);
        int sy = (int) Math.round(whole.y);
        int n = 0;
        double[] px = new double[COLUMNS * ROWS];
        double[] py = new double[px.length];
        double[] mx = new double[px.length];
        double[] my = new double[px.length];
        double[] weight = new double[px.length];
        for (int row = 0; row < ROWS; row++) {
            for (int column = 0; column < COLUMNS; column++) {
                int left = column * a.width / COLUMNS;
                int right = (column + 1) * a.width / COLUMNS;
                int top = row * a.height / ROWS;
                int bottom = (row + 1) * a.height / ROWS;
                double[] found = tile(a, b, left, right, top, bottom, sx, sy);
                px[n] = (left + right - a.width) / 2.0;
                py[n] = (top + bottom - a.height) / 2.0;
                mx[n] = found[0];
                my[n] = found[1];
                weight[n++] = found[2];
            }
        }
        double[] bent = new double[2];
        double[] trust = weight.clone();
        for (int turn = 0; turn < 5; turn++) {
            double[] fit = similarity(px, py, mx, my, trust);
            bent[0] = fit[2];
            bent[1] = fit[3];
            for (int i = 0; i < n; i++) {
                double ex = mx[i] - fit[0] - fit[2] * px[i] + fit[3] * py[i];
                double ey = my[i] - fit[1] - fit[2] * py[i] - fit[3] * px[i];
                trust[i] = weight[i] / (1 + (ex * ex + ey * ey) * 4);
            }
        }
        return bent;
    }

    /** Move, zoom and turn that fit best, by weighted least squares; a little held to none. */
    private static double[] similarity(
            double[] px, double[] py, double[] mx, double[] my, double[] w) {
        double[][] normal = new double[4][4];
        double[] right = new double[4];
        for (int i = 0; i < 4; i++) {
            normal[i][i] = i < 2 ? 1e-6 : 1000;
        }
        for (int i = 0; i < px.length; i++) {
            double[][] rows = {{1, 0, px[i], -py[i]}, {0, 1, py[i], px[i]}};
            double[] is = {mx[i], my[i]};
            for (int r = 0; r < 2; r++) {
                for (int j = 0; j < 4; j++) {
                    right[j] += w[i] * rows[r][j] * is[r];
                    for (int k = 0; k < 4; k++) {
                        normal[j][k] += w[i] * rows[r][j] * rows[r][k];
                    }
                }
            }
        }
        return new Cholesky(normal).solve(right);
    }

    /** Best place of a tile against the whole's, and how much it stands out, 0..1. */
    private static double[] tile(
            EdgeField a, EdgeField b, int left, int right, int top, int bottom, int sx, int sy) {
        int side = 2 * REACH + 1;
        double[] sum = new double[side * side];
        int best = -1;
        double squares = 0;
        for (int dy = -REACH; dy <= REACH; dy++) {
            for (int dx = -REACH; dx <= REACH; dx++) {
                double s = 0;
                int fromY = Math.max(top, -(sy + dy));
                int toY = Math.min(bottom, b.height - (sy + dy));
                int fromX = Math.max(left, -(sx + dx));
                int toX = Math.min(right, b.width - (sx + dx));
                for (int y = fromY; y < toY; y++) {
                    int p = y * a.width;
                    int q = (y + sy + dy) * b.width + sx + dx;
                    for (int x = fromX; x < toX; x++) {
                        s += a.re[p + x] * b.re[q + x] + a.im[p + x] * b.im[q + x];
                    }
                }
                int i = (dy + REACH) * side + dx + REACH;
                sum[i] = s;
                squares += s * s;
                best = best < 0 || s > sum[best] ? i : best;
            }
        }
        int x = best % side;
        int y = best / side;
        if (x == 0 || y == 0 || x == side - 1 || y == side - 1 || !(sum[best] > 0)) {
            return new double[3];
        }
        double out = sum[best] / Math.sqrt(squares / sum.length);
        return new double[] {
            x - REACH + summit(sum[best - 1], sum[best], sum[best + 1]),
            y - REACH + summit(sum[best - side], sum[best], sum[best + side]),
            Math.min(1, Math.max(0, (out - 2) / 3))
        };
    }
}

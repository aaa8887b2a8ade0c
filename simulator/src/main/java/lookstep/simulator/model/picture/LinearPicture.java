package lookstep.simulator.model.picture;

import java.awt.image.BufferedImage;
import java.util.Arrays;
import lookstep.simulator.model.colour.Srgb;

/** A picture in linear sRGB: 1 is white at the metered exposure, more is over. */
public final class LinearPicture {
    /** Ten stops under white: below this the camera's own noise hides all difference. */
    private static final double BLACK = 1.0 / 1024;

    /** From here on, in stops over white, a light loses its colour on the sensor. */
    private static final double BLEACH_FROM = 2;

    private static final double BLEACH_STOPS = 3;
    private static final int CODES = 1 << 14;
    private static final byte[] ENCODED = encodeTable();

    private final Plates plates;
    private final float[] rgb;

    LinearPicture(Plates plates, float[] rgb) {
        this.plates = plates;
        this.rgb = rgb;
    }

    public int width() {
        return plates.width();
    }

    public int height() {
        return plates.height();
    }

    /** Linear red, green, blue of a pixel; x from the left, y from the top. */
    public double[] at(int x, int y) {
        int i = (y * width() + x) * 3;
        return new double[] {rgb[i], rgb[i + 1], rgb[i + 2]};
    }

    /**
     * Mean linear red, green, blue of a part of a figure, edges left out.
     *
     * @param figure its place in the scene's list; -1 for the floor, the background and the walls
     * @throws IllegalArgumentException if the picture does not show it
     */
    public double[] meanOf(int figure, Part part) {
        double[] sum = new double[3];
        int n = 0;
        for (int y = 0; y < height(); y++) {
            for (int x = 0; x < width(); x++) {
                int p = y * width() + x;
                if (plates.partAt(x, y) == part
                        && plates.ownerAt(x, y) == figure
                        && !plates.mixed(p)) {
                    for (int c = 0; c < 3; c++) {
                        sum[c] += rgb[p * 3 + c];
                    }
                    n++;
                }
            }
        }
        if (n == 0) {
            throw new IllegalArgumentException(
                    "the picture does not show the " + part + " of figure " + figure);
        }
        for (int c = 0; c < 3; c++) {
            sum[c] /= n;
        }
        return sum;
    }

    /** True for the pixels of a figure that have something else beside them; rows first. */
    public boolean[] edgeMask(int figure) {
        boolean[] mask = new boolean[width() * height()];
        for (int y = 1; y < height() - 1; y++) {
            for (int x = 1; x < width() - 1; x++) {
                int p = y * width() + x;
                mask[p] =
                        plates.shows(p, figure)
                                && !(plates.shows(p - 1, figure)
                                        && plates.shows(p + 1, figure)
                                        && plates.shows(p - width(), figure)
                                        && plates.shows(p + width(), figure));
            }
        }
        return mask;
    }

    /**
     * Separation: how many stops the edge of a figure differs from what is behind it, median over
     * its outline. For each edge pixel the brightest luminance up to four pixels inside is compared
     * with that two to four pixels outside; what is more than ten stops under white counts as ten.
     *
     * @return stops, positive where the edge is brighter; NaN if no edge is in the picture
     */
    public double separationStops(int figure) {
        boolean[] edge = edgeMask(figure);
        double[] found = new double[edge.length];
        int n = 0;
        int[] steps = {-1, 1, -width(), width()};
        for (int y = 5; y < height() - 5; y++) {
            for (int x = 5; x < width() - 5; x++) {
                int p = y * width() + x;
                if (!edge[p]) {
                    continue;
                }
                for (int step : steps) {
                    if (!plates.shows(p + step, figure) && !plates.shows(p + 2 * step, figure)) {
                        double inside = 0;
                        double outside = 0;
                        for (int k = 0; k <= 3; k++) {
                            if (plates.shows(p - k * step, figure)) {
                                inside = Math.max(inside, luminance(p - k * step));
                            }
                        }
                        for (int k = 2; k <= 4; k++) {
                            outside += luminance(p + k * step) / 3;
                        }
                        found[n++] =
                                Math.log(Math.max(inside, BLACK) / Math.max(outside, BLACK))
                                        / Math.log(2);
                        break;
                    }
                }
            }
        }
        if (n == 0) {
            return Double.NaN;
        }
        double[] sorted = Arrays.copyOf(found, n);
        Arrays.sort(sorted);
        return sorted[n / 2];
    }

    /**
     * The picture as a screen shows it: sRGB, TYPE_INT_RGB. A colour that does not fit keeps its
     * hue: it is scaled by its largest channel (clipping each channel alone would turn a pale blue
     * into cyan), and only beyond two stops over white fades to white as an overfull sensor does. A
     * negative channel is mixed with grey of the same luminance until it is 0.
     */
    public BufferedImage toImage() {
        BufferedImage image = new BufferedImage(width(), height(), BufferedImage.TYPE_INT_RGB);
        int[] row = new int[width()];
        float[] c = new float[3];
        for (int y = 0; y < height(); y++) {
            for (int x = 0; x < width(); x++) {
                System.arraycopy(rgb, (y * width() + x) * 3, c, 0, 3);
                intoRange(c);
                row[x] = code(c[0]) << 16 | code(c[1]) << 8 | code(c[2]);
            }
            image.setRGB(0, y, width(), 1, row, 0, width());
        }
        return image;
    }

    private double luminance(int pixel) {
        return Srgb.luminance(rgb[pixel * 3], rgb[pixel * 3 + 1], rgb[pixel * 3 + 2]);
    }

    private static void intoRange(float[] c) {
        float least = Math.min(c[0], Math.min(c[1], c[2]));
        if (least < 0) {
            float grey = (float) Srgb.luminance(c[0], c[1], c[2]);
            float keep = grey <= 0 ? 0 : grey / (grey - least);
            for (int i = 0; i < 3; i++) {
                c[i] = Math.max(0, grey + (c[i] - grey) * keep);
            }
        }
        float most = Math.max(c[0], Math.max(c[1], c[2]));
        if (most > 1) {
            double over = Math.log(most) / Math.log(2);
            float bleach = (float) Math.min(1, Math.max(0, (over - BLEACH_FROM) / BLEACH_STOPS));
            for (int i = 0; i < 3; i++) {
                c[i] = c[i] / most * (1 - bleach) + bleach;
            }
        }
    }

    private static int code(float linear) {
        // The table is even in the square root, which is close to the sRGB curve.
        return ENCODED[(int) (Math.sqrt(linear) * (CODES - 1) + 0.5)] & 0xff;
    }

    private static byte[] encodeTable() {
        byte[] table = new byte[CODES];
        for (int i = 0; i < CODES; i++) {
            double root = i / (double) (CODES - 1);
            table[i] = (byte) Srgb.encode8(root * root);
        }
        return table;
    }
}

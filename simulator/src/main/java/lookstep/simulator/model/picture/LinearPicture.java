package lookstep.simulator.model.picture;

import java.awt.image.BufferedImage;
import lookstep.simulator.model.colour.DisplayRange;
import lookstep.simulator.model.colour.Srgb;

/** A picture in linear sRGB: 1 is white at the metered exposure, more is over. */
public final class LinearPicture {
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

    /** Linear red, green, blue of every pixel, rows from the top, not clipped; a copy. */
    public float[] toLinear() {
        return rgb.clone();
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
        return Outline.mask(width(), height(), p -> plates.shows(p, figure));
    }

    /**
     * Separation of a figure from what is behind it, as {@link Outline} measures it.
     *
     * @return stops, positive where the edge is brighter; NaN if no edge is in the picture
     */
    public double separationStops(int figure) {
        return Outline.separationStops(
                width(), height(), p -> plates.shows(p, figure), this::luminance);
    }

    /**
     * The picture as a screen shows it: sRGB, TYPE_INT_RGB; what does not fit as {@link
     * DisplayRange} has it.
     */
    public BufferedImage toImage() {
        BufferedImage image = new BufferedImage(width(), height(), BufferedImage.TYPE_INT_RGB);
        int[] row = new int[width()];
        float[] c = new float[3];
        for (int y = 0; y < height(); y++) {
            for (int x = 0; x < width(); x++) {
                System.arraycopy(rgb, (y * width() + x) * 3, c, 0, 3);
                DisplayRange.fit(c, 0);
                row[x] = code(c[0]) << 16 | code(c[1]) << 8 | code(c[2]);
            }
            image.setRGB(0, y, width(), 1, row, 0, width());
        }
        return image;
    }

    private double luminance(int pixel) {
        return Srgb.luminance(rgb[pixel * 3], rgb[pixel * 3 + 1], rgb[pixel * 3 + 2]);
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

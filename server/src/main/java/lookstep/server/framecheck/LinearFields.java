package lookstep.server.framecheck;

import java.awt.image.BufferedImage;
import lookstep.simulator.model.colour.Srgb;

/**
 * A picture thinned to at most 480 fields on its longer side: linear sRGB, mean of the pixels of
 * each field, and the share of them that is clipped.
 */
final class LinearFields {
    private static final int LONG = 480;

    /** A channel from this code on holds nothing more; JPEG moves a full one by a code. */
    private static final int FULL_CODE = 254;

    private static final float[] DECODED = new float[256];

    static {
        for (int code = 0; code < DECODED.length; code++) {
            DECODED[code] = (float) Srgb.decode(code / 255.0);
        }
    }

    private final int width;
    private final int height;
    private final float[] rgb;
    private final float[] clipped;

    private LinearFields(int width, int height) {
        this.width = width;
        this.height = height;
        rgb = new float[width * height * 3];
        clipped = new float[width * height];
    }

    static LinearFields of(BufferedImage picture) {
        int w = picture.getWidth();
        int h = picture.getHeight();
        double thin = Math.max(1, Math.max(w, h) / (double) LONG);
        LinearFields out =
                new LinearFields(
                        Math.max(1, (int) Math.round(w / thin)),
                        Math.max(1, (int) Math.round(h / thin)));
        int[] column = new int[w];
        for (int x = 0; x < w; x++) {
            column[x] = (int) ((long) x * out.width / w);
        }
        int[] count = new int[out.width * out.height];
        int[] row = new int[w];
        for (int y = 0; y < h; y++) {
            picture.getRGB(0, y, w, 1, row, 0, w);
            int line = (int) ((long) y * out.height / h) * out.width;
            for (int x = 0; x < w; x++) {
                int at = line + column[x];
                int r = row[x] >> 16 & 0xff;
                int g = row[x] >> 8 & 0xff;
                int b = row[x] & 0xff;
                out.rgb[at * 3] += DECODED[r];
                out.rgb[at * 3 + 1] += DECODED[g];
                out.rgb[at * 3 + 2] += DECODED[b];
                if (r >= FULL_CODE || g >= FULL_CODE || b >= FULL_CODE) {
                    out.clipped[at]++;
                }
                count[at]++;
            }
        }
        for (int at = 0; at < count.length; at++) {
            out.clipped[at] /= count[at];
            for (int c = 0; c < 3; c++) {
                out.rgb[at * 3 + c] /= count[at];
            }
        }
        return out;
    }

    int width() {
        return width;
    }

    int height() {
        return height;
    }

    float channel(int at, int c) {
        return rgb[at * 3 + c];
    }

    double luminance(int at) {
        return Srgb.luminance(rgb[at * 3], rgb[at * 3 + 1], rgb[at * 3 + 2]);
    }

    /** Share of the pixels of a field of which a channel is full. */
    double clipped(int at) {
        return clipped[at];
    }

    /** Mean linear red, green, blue of a part; of the nearest field if it is smaller than one. */
    double[] mean(Box box) {
        int[] b = fields(box);
        double[] sum = new double[3];
        for (int y = b[1]; y < b[3]; y++) {
            for (int x = b[0]; x < b[2]; x++) {
                for (int c = 0; c < 3; c++) {
                    sum[c] += rgb[(y * width + x) * 3 + c];
                }
            }
        }
        int n = (b[2] - b[0]) * (b[3] - b[1]);
        return new double[] {sum[0] / n, sum[1] / n, sum[2] / n};
    }

    /** Mean linear luminance of a part. */
    double meanLuminance(Box box) {
        double[] c = mean(box);
        return Srgb.luminance(c[0], c[1], c[2]);
    }

    /** Share of the pixels of a part of which a channel is full. */
    double clippedShare(Box box) {
        int[] b = fields(box);
        double sum = 0;
        for (int y = b[1]; y < b[3]; y++) {
            for (int x = b[0]; x < b[2]; x++) {
                sum += clipped[y * width + x];
            }
        }
        return sum / ((b[2] - b[0]) * (b[3] - b[1]));
    }

    /** Left, top, right (not in it), bottom (not in it): at least one field, none outside. */
    private int[] fields(Box box) {
        int left = within((int) Math.round(box.x() * width), width - 1);
        int top = within((int) Math.round(box.y() * height), height - 1);
        int right = within((int) Math.round((box.x() + box.width()) * width), width);
        int bottom = within((int) Math.round((box.y() + box.height()) * height), height);
        return new int[] {left, top, Math.max(left + 1, right), Math.max(top + 1, bottom)};
    }

    private static int within(int v, int most) {
        return Math.min(most, Math.max(0, v));
    }
}

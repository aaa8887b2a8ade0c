package lookstep.server.framecheck;

import java.awt.image.BufferedImage;
import java.util.Random;
import lookstep.simulator.model.colour.Srgb;

/** A picture out of focus: each point becomes a disc of even light. */
final class DiscBlur {
    private static final int FINE = 16;

    private DiscBlur() {}

    /** In linear light; the rim is repeated. */
    static BufferedImage of(BufferedImage picture, double discPixels) {
        if (discPixels < 0.2) {
            return picture;
        }
        int reach = (int) Math.ceil(discPixels / 2 + 0.5);
        int side = 2 * reach + 1;
        double[] kernel = new double[side * side];
        double sum = 0;
        for (int i = 0; i < kernel.length; i++) {
            int inside = 0;
            for (int k = 0; k < FINE * FINE; k++) {
                double dx = i % side - reach + (k % FINE + 0.5) / FINE - 0.5;
                double dy =
                        Math.floorDiv(i, side)
                                - reach
                                + (Math.floorDiv(k, FINE) + 0.5) / FINE
                                - 0.5;
                inside += dx * dx + dy * dy < discPixels * discPixels / 4 ? 1 : 0;
            }
            kernel[i] = inside;
            sum += inside;
        }
        int w = picture.getWidth();
        int h = picture.getHeight();
        BufferedImage out = new BufferedImage(w, h, BufferedImage.TYPE_INT_RGB);
        double[][] linear = new double[3][w * h];
        for (int p = 0; p < w * h; p++) {
            int rgb = picture.getRGB(p % w, p / w);
            for (int c = 0; c < 3; c++) {
                linear[c][p] = Srgb.decode((rgb >> (16 - 8 * c) & 0xff) / 255.0);
            }
        }
        for (int p = 0; p < w * h; p++) {
            int rgb = 0;
            for (int c = 0; c < 3; c++) {
                double v = 0;
                for (int i = 0; i < kernel.length; i++) {
                    if (kernel[i] > 0) {
                        int x = Math.min(w - 1, Math.max(0, p % w + i % side - reach));
                        int y = Math.min(h - 1, Math.max(0, p / w + i / side - reach));
                        v += kernel[i] / sum * linear[c][y * w + x];
                    }
                }
                rgb = rgb << 8 | Srgb.encode8(v);
            }
            out.setRGB(p % w, p / w, rgb);
        }
        return out;
    }

    /** Adds noise of this standard deviation, in 8-bit codes, to each channel. */
    static BufferedImage noisy(BufferedImage picture, double codes, long seed) {
        Random random = new Random(seed);
        int w = picture.getWidth();
        int h = picture.getHeight();
        BufferedImage out = new BufferedImage(w, h, BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < h; y++) {
            for (int x = 0; x < w; x++) {
                int rgb = 0;
                for (int shift = 16; shift >= 0; shift -= 8) {
                    double v =
                            (picture.getRGB(x, y) >> shift & 0xff) + codes * random.nextGaussian();
                    rgb |= (int) Math.round(Math.min(255, Math.max(0, v))) << shift;
                }
                out.setRGB(x, y, rgb);
            }
        }
        return out;
    }
}

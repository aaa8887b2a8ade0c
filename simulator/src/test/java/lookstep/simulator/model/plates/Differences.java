package lookstep.simulator.model.plates;

import java.awt.image.BufferedImage;
import java.util.Arrays;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.Ciede2000;
import lookstep.simulator.model.colour.Lab;
import lookstep.simulator.model.colour.Srgb;

/**
 * CIEDE2000 of each pixel between two pictures, as a screen shows them.
 *
 * @param median half of the pixels differ by less
 * @param p95 95 of 100 pixels differ by less
 */
record Differences(double median, double p95) {
    static Differences of(BufferedImage a, BufferedImage b) {
        double[] each = new double[a.getWidth() * a.getHeight()];
        for (int p = 0; p < each.length; p++) {
            int x = p % a.getWidth();
            int y = p / a.getWidth();
            each[p] = Ciede2000.difference(lab(a.getRGB(x, y)), lab(b.getRGB(x, y)));
        }
        Arrays.sort(each);
        return new Differences(each[each.length / 2], each[each.length * 95 / 100]);
    }

    private static Lab lab(int rgb) {
        return Lab.of(
                Srgb.toXyz(
                        Srgb.decode((rgb >> 16 & 255) / 255.0),
                        Srgb.decode((rgb >> 8 & 255) / 255.0),
                        Srgb.decode((rgb & 255) / 255.0)),
                Chromaticity.D65);
    }
}

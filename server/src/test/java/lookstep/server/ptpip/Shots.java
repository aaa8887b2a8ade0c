package lookstep.server.ptpip;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.Random;
import javax.imageio.ImageIO;

/** JPEG files for a camera's card. */
final class Shots {
    private Shots() {}

    /** Noise, which does not compress: about 0.6 octets a pixel. */
    static byte[] jpeg(int widthPixels, int heightPixels, long seed) {
        Random random = new Random(seed);
        BufferedImage picture =
                new BufferedImage(widthPixels, heightPixels, BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < heightPixels; y++) {
            for (int x = 0; x < widthPixels; x++) {
                picture.setRGB(x, y, random.nextInt(0x1000000));
            }
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try {
            ImageIO.write(picture, "jpg", out);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toByteArray();
    }

    /** A few kilobytes. */
    static byte[] small(long seed) {
        return jpeg(64, 48, seed);
    }

    /** More than three parts of {@link Fetching#PART_OCTETS}. */
    static byte[] large(long seed) {
        byte[] jpeg = jpeg(1300, 1200, seed);
        if (jpeg.length < 3 * Fetching.PART_OCTETS) {
            throw new AssertionError("only " + jpeg.length + " octets");
        }
        return jpeg;
    }

    /** Octets that are no picture, as a raw file looks to those who do not know it. */
    static byte[] raw(int octets, long seed) {
        byte[] raw = new byte[octets];
        new Random(seed).nextBytes(raw);
        return Arrays.copyOf(raw, octets);
    }
}

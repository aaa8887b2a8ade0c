package lookstep.simulator.gear;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;
import java.util.Optional;
import javax.imageio.ImageIO;

/**
 * The small picture of a picture, as a camera gives it over the network: the one in its Exif (CIPA
 * DC-008, 4.5.3: tags 0x0201 and 0x0202 of the first IFD's successor), or one made from it.
 */
final class ThumbFile {
    /** The size of an Exif thumbnail (CIPA DC-008 recommends 160 x 120). */
    static final int WIDTH_PIXELS = 160;

    private static final int START_OF_SCAN = 0xDA;
    private static final int APP1 = 0xE1;
    private static final int EXIF_OCTETS = 6;
    private static final int OFFSET = 0x0201;
    private static final int LENGTH = 0x0202;
    private static final float QUALITY = 0.8f;

    private ThumbFile() {}

    /** Empty if the file is no picture. */
    static Optional<byte[]> of(byte[] jpeg) {
        Optional<byte[]> inside = inExif(jpeg);
        return inside.isPresent() ? inside : made(jpeg);
    }

    /** What the Exif holds; empty if it holds none. */
    static Optional<byte[]> inExif(byte[] jpeg) {
        try {
            ByteBuffer file = ByteBuffer.wrap(jpeg);
            int at = 2;
            while ((file.get(at) & 0xFF) == 0xFF && (file.get(at + 1) & 0xFF) != START_OF_SCAN) {
                int length = file.getShort(at + 2) & 0xFFFF;
                if ((file.get(at + 1) & 0xFF) == APP1 && file.getInt(at + 4) == 0x45786966) {
                    int from = at + 4 + EXIF_OCTETS;
                    return inTiff(Arrays.copyOfRange(jpeg, from, at + 2 + length));
                }
                at += 2 + length;
            }
            return Optional.empty();
        } catch (IndexOutOfBoundsException | IllegalArgumentException noPicture) {
            return Optional.empty();
        }
    }

    private static Optional<byte[]> inTiff(byte[] block) {
        ByteBuffer tiff = ByteBuffer.wrap(block);
        tiff.order(block[0] == 'I' ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN);
        int first = tiff.getInt(4);
        int second = tiff.getInt(first + 2 + 12 * (tiff.getShort(first) & 0xFFFF));
        if (second == 0) {
            return Optional.empty();
        }
        int offset = 0;
        int length = 0;
        for (int i = 0; i < (tiff.getShort(second) & 0xFFFF); i++) {
            int field = second + 2 + 12 * i;
            int tag = tiff.getShort(field) & 0xFFFF;
            if (tag == OFFSET) {
                offset = tiff.getInt(field + 8);
            } else if (tag == LENGTH) {
                length = tiff.getInt(field + 8);
            }
        }
        if (offset <= 0 || length <= 0 || length > block.length - offset) {
            return Optional.empty();
        }
        return Optional.of(Arrays.copyOfRange(block, offset, offset + length));
    }

    private static Optional<byte[]> made(byte[] jpeg) {
        try {
            BufferedImage picture = ImageIO.read(new ByteArrayInputStream(jpeg));
            if (picture == null) {
                return Optional.empty();
            }
            int height = Math.max(1, WIDTH_PIXELS * picture.getHeight() / picture.getWidth());
            BufferedImage small =
                    new BufferedImage(WIDTH_PIXELS, height, BufferedImage.TYPE_INT_RGB);
            Graphics2D draw = small.createGraphics();
            draw.setRenderingHint(
                    RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
            draw.drawImage(picture, 0, 0, WIDTH_PIXELS, height, null);
            draw.dispose();
            return Optional.of(JpegFile.encode(small, QUALITY));
        } catch (IOException | RuntimeException noPicture) {
            return Optional.empty();
        }
    }
}

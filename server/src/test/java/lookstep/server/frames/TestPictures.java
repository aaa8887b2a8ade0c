package lookstep.server.frames;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import javax.imageio.ImageIO;

/** Pictures made by the JDK's own encoder, not by the project's code. */
final class TestPictures {
    /** The corners of {@link #corners}, clockwise from the top left. */
    static final Color[] CORNERS = {Color.RED, Color.GREEN, Color.BLUE, Color.YELLOW};

    private TestPictures() {}

    /** A picture with four corners that can be told apart. */
    static BufferedImage corners(int width, int height) {
        BufferedImage picture = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D pen = picture.createGraphics();
        int w = width / 2;
        int h = height / 2;
        int[][] at = {{0, 0}, {w, 0}, {w, h}, {0, h}};
        for (int i = 0; i < 4; i++) {
            pen.setColor(CORNERS[i]);
            pen.fillRect(at[i][0], at[i][1], width - w, height - h);
        }
        pen.dispose();
        return picture;
    }

    static byte[] jpeg(int width, int height) {
        return jpeg(corners(width, height));
    }

    static byte[] jpeg(BufferedImage picture) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try {
            ImageIO.write(picture, "jpeg", bytes);
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
        return bytes.toByteArray();
    }

    /**
     * Two JPEGs in one file with an index at its front, laid out octet by octet as in CIPA DC-007
     * (MP Index IFD: version, number of images, one entry of 16 octets each).
     *
     * @param mainLength gets the length of the first picture with its index, where the second
     *     begins
     */
    static byte[] twoInOne(byte[] first, byte[] second, int[] mainLength) {
        int indexOctets = 4 + 8 + 2 + 3 * 12 + 4 + 2 * 16;
        int length = first.length + 4 + indexOctets;
        // Offsets in the index count from its byte order mark: after SOI, marker, length, "MPF\0".
        int mark = 2 + 2 + 2 + 4;
        ByteBuffer file = ByteBuffer.allocate(length + second.length);
        file.put(first, 0, 2);
        file.putShort((short) 0xFFE2).putShort((short) (2 + indexOctets));
        file.put("MPF\0".getBytes(StandardCharsets.US_ASCII));
        file.order(ByteOrder.LITTLE_ENDIAN);
        file.put((byte) 'I').put((byte) 'I').putShort((short) 42).putInt(8);
        file.putShort((short) 3);
        file.putShort((short) 0xB000).putShort((short) 7).putInt(4);
        file.put("0100".getBytes(StandardCharsets.US_ASCII));
        file.putShort((short) 0xB001).putShort((short) 4).putInt(1).putInt(2);
        file.putShort((short) 0xB002).putShort((short) 7).putInt(32).putInt(8 + 2 + 36 + 4);
        file.putInt(0);
        file.putInt(0x20030000).putInt(length).putInt(0).putInt(0);
        file.putInt(0x00010002).putInt(second.length).putInt(length - mark).putInt(0);
        file.put(first, 2, first.length - 2);
        file.put(second);
        mainLength[0] = length;
        return file.array();
    }
}

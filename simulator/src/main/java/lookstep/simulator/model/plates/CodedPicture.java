package lookstep.simulator.model.plates;

import java.awt.image.BufferedImage;

/** A picture as the camera wrote it: three codes, 0..255, for every pixel, rows from the top. */
public final class CodedPicture {
    private final int width;
    private final int height;
    private final byte[] rgb;

    private CodedPicture(int width, int height, byte[] rgb) {
        this.width = width;
        this.height = height;
        this.rgb = rgb;
    }

    /** Of any kind of image in sRGB, which stays the caller's. */
    public static CodedPicture of(BufferedImage image) {
        int w = image.getWidth();
        int h = image.getHeight();
        byte[] rgb = new byte[w * h * 3];
        int[] row = new int[w];
        for (int y = 0; y < h; y++) {
            image.getRGB(0, y, w, 1, row, 0, w);
            for (int x = 0; x < w; x++) {
                int i = (y * w + x) * 3;
                rgb[i] = (byte) (row[x] >> 16);
                rgb[i + 1] = (byte) (row[x] >> 8);
                rgb[i + 2] = (byte) row[x];
            }
        }
        return new CodedPicture(w, h, rgb);
    }

    public int width() {
        return width;
    }

    public int height() {
        return height;
    }

    /** A code, 0..255; channel 0 is red, 1 green, 2 blue. */
    public int code(int x, int y, int channel) {
        return rgb[(y * width + x) * 3 + channel] & 0xff;
    }

    /** Red, green, blue of every pixel; not copied. */
    byte[] rgb() {
        return rgb;
    }
}

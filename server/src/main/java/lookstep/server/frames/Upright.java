package lookstep.server.frames;

import java.awt.Rectangle;
import java.awt.image.BufferedImage;
import java.awt.image.DataBufferInt;

/** Turns a picture upright as the Exif tag 0x0112 Orientation says (CIPA DC-008). */
final class Upright {
    private Upright() {}

    /**
     * The picture as it is to be shown.
     *
     * @param stored TYPE_INT_RGB, as it lies in the file
     * @param orientation 1..8; anything else counts as 1
     */
    static BufferedImage turn(BufferedImage stored, int orientation) {
        if (orientation < 2 || orientation > 8) {
            return stored;
        }
        int w = stored.getWidth();
        int h = stored.getHeight();
        boolean sideways = orientation >= 5;
        BufferedImage shown =
                new BufferedImage(sideways ? h : w, sideways ? w : h, BufferedImage.TYPE_INT_RGB);
        int[] from = ((DataBufferInt) stored.getRaster().getDataBuffer()).getData();
        int[] to = ((DataBufferInt) shown.getRaster().getDataBuffer()).getData();
        int shownWidth = shown.getWidth();
        for (int y = 0; y < h; y++) {
            for (int x = 0; x < w; x++) {
                int right = w - 1 - x;
                int up = h - 1 - y;
                int at =
                        switch (orientation) {
                            case 2 -> y * shownWidth + right;
                            case 3 -> up * shownWidth + right;
                            case 4 -> up * shownWidth + x;
                            case 5 -> x * shownWidth + y;
                            case 6 -> x * shownWidth + up;
                            case 7 -> right * shownWidth + up;
                            default -> right * shownWidth + y;
                        };
                to[at] = from[y * w + x];
            }
        }
        return shown;
    }

    /**
     * Where a part of the upright picture lies in the stored one: the reverse of {@link #turn}.
     *
     * @param shown inside the upright picture
     * @param width of the stored picture
     * @param height of the stored picture
     */
    static Rectangle stored(Rectangle shown, int orientation, int width, int height) {
        int right = shown.x + shown.width;
        int bottom = shown.y + shown.height;
        boolean sideways = orientation >= 5 && orientation <= 8;
        int x =
                switch (orientation) {
                    case 2, 3 -> width - right;
                    case 5, 6 -> shown.y;
                    case 7, 8 -> width - bottom;
                    default -> shown.x;
                };
        int y =
                switch (orientation) {
                    case 3, 4 -> height - bottom;
                    case 5, 8 -> shown.x;
                    case 6, 7 -> height - right;
                    default -> shown.y;
                };
        return new Rectangle(
                x, y, sideways ? shown.height : shown.width, sideways ? shown.width : shown.height);
    }
}

package lookstep.server.frames;

import java.awt.Rectangle;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;

/**
 * Parts of a picture pixel by pixel, to judge sharpness. Places and sizes count in the upright
 * picture. Of a RAW file it is the largest JPEG inside, which may be smaller than the sensor. Any
 * thread.
 */
public final class FullSize {
    /** Longest side of a part. */
    public static final int MOST_PIXELS = 2000;

    private static final double QUALITY = 0.9;

    /**
     * Size of an upright picture.
     *
     * @param widthPixels 1 or more
     * @param heightPixels 1 or more
     */
    public record Size(int widthPixels, int heightPixels) {}

    private FullSize() {}

    /** The size of the whole; empty if the file cannot be shown. */
    public static Optional<Size> size(Path original) {
        try (PictureFile file = PictureFile.open(original)) {
            return Optional.of(file.decode(picture -> size(file, picture)));
        } catch (IOException | RuntimeException refused) {
            // a crop says why
            return Optional.empty();
        }
    }

    /**
     * A part at 100 %, as a JPEG of quality 0.9; what sticks out of the picture is cut off.
     *
     * @param x left edge, in pixels from the left
     * @param y upper edge, in pixels from the top
     * @param w width, 1..2000
     * @param h height, 1..2000
     * @return a problem also if the part lies outside the picture
     */
    public static PreviewResult crop(Path original, int x, int y, int w, int h) {
        if (w < 1 || h < 1 || w > MOST_PIXELS || h > MOST_PIXELS) {
            throw new IllegalArgumentException(
                    "a part of %d x %d pixels: must be 1 to %d".formatted(w, h, MOST_PIXELS));
        }
        Rectangle wanted = new Rectangle(x, y, w, h);
        return PictureFile.use(original, file -> EncodedPicture.of(upright(file, wanted), QUALITY));
    }

    /**
     * The pixels of a part at 100 %, upright, in sRGB; what sticks out of the picture is cut off.
     *
     * @throws IOException if the file cannot be read, or the part lies outside the picture
     */
    public static BufferedImage pixels(Path original, int x, int y, int w, int h)
            throws IOException {
        try (PictureFile file = PictureFile.open(original)) {
            return upright(file, new Rectangle(x, y, w, h));
        }
    }

    private static BufferedImage upright(PictureFile file, Rectangle wanted) throws IOException {
        return Upright.turn(
                file.decode(picture -> part(file, picture, wanted)), file.orientation());
    }

    private static BufferedImage part(PictureFile file, StoredPicture picture, Rectangle wanted)
            throws IOException {
        Size size = size(file, picture);
        Rectangle part =
                wanted.intersection(new Rectangle(size.widthPixels(), size.heightPixels()));
        if (part.isEmpty()) {
            throw new IOException(
                    "%d, %d is outside the picture of %d x %d pixels"
                            .formatted(
                                    wanted.x, wanted.y, size.widthPixels(), size.heightPixels()));
        }
        return picture.part(
                Upright.stored(part, file.orientation(), picture.width(), picture.height()));
    }

    private static Size size(PictureFile file, StoredPicture picture) {
        return file.orientation() >= 5
                ? new Size(picture.height(), picture.width())
                : new Size(picture.width(), picture.height());
    }
}

package lookstep.server.framecheck;

import java.awt.image.BufferedImage;
import java.util.Optional;

/** Parts of an original, pixel for pixel and upright. */
public interface DetailSource {
    /**
     * A part of it, sRGB; wholly inside the picture.
     *
     * @param x from the left, pixels
     * @param y from the top, pixels
     * @return empty if it cannot be read
     */
    Optional<BufferedImage> region(int x, int y, int w, int h);

    /** Of the whole upright picture, pixels. */
    int width();

    /** Of the whole upright picture, pixels. */
    int height();
}

package lookstep.server.intake;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import lookstep.server.framecheck.DetailSource;
import lookstep.server.frames.FullSize;

/**
 * An original for the checks of its sharpness.
 *
 * @param original where it is
 * @param size of the whole
 */
public record FullSizeDetail(Path original, FullSize.Size size) implements DetailSource {
    /** Empty if the original cannot be read. */
    public static Optional<DetailSource> of(Path original) {
        return FullSize.size(original).map(size -> new FullSizeDetail(original, size));
    }

    @Override
    public Optional<BufferedImage> region(int x, int y, int w, int h) {
        try {
            return Optional.of(FullSize.pixels(original, x, y, w, h));
        } catch (IOException gone) {
            return Optional.empty();
        }
    }

    @Override
    public int width() {
        return size.widthPixels();
    }

    @Override
    public int height() {
        return size.heightPixels();
    }
}

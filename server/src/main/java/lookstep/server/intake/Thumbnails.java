package lookstep.server.intake;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Optional;
import javax.imageio.ImageIO;
import lookstep.server.frames.PreviewResult.Preview;
import lookstep.server.frames.ShownPixels;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Small pictures from previews. */
final class Thumbnails {
    static final int LONG_SIDE_PIXELS = 320;

    private static final Logger LOG = LoggerFactory.getLogger(Thumbnails.class);

    private Thumbnails() {}

    /** Empty if the preview cannot be decoded here, whatever browsers make of it. */
    static Optional<Preview> of(Preview preview) {
        try {
            BufferedImage small = ShownPixels.of(preview, LONG_SIDE_PIXELS);
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            ImageIO.write(small, "jpeg", bytes);
            return Optional.of(
                    new Preview(bytes.toByteArray(), small.getWidth(), small.getHeight()));
        } catch (IOException | RuntimeException broken) {
            LOG.warn("no small picture: {}", broken.toString());
            return Optional.empty();
        }
    }
}

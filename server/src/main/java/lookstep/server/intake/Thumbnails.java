package lookstep.server.intake;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Optional;
import javax.imageio.ImageIO;
import lookstep.server.frames.PreviewResult.Preview;
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
            BufferedImage from = ImageIO.read(new ByteArrayInputStream(preview.jpeg()));
            if (from == null) {
                return Optional.empty();
            }
            double scale =
                    Math.min(
                            1,
                            (double) LONG_SIDE_PIXELS
                                    / Math.max(from.getWidth(), from.getHeight()));
            int width = Math.max(1, (int) Math.round(from.getWidth() * scale));
            int height = Math.max(1, (int) Math.round(from.getHeight() * scale));
            BufferedImage to = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
            Graphics2D pen = to.createGraphics();
            try {
                pen.setRenderingHint(
                        RenderingHints.KEY_INTERPOLATION,
                        RenderingHints.VALUE_INTERPOLATION_BILINEAR);
                pen.drawImage(from, 0, 0, width, height, null);
            } finally {
                pen.dispose();
            }
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            ImageIO.write(to, "jpeg", bytes);
            return Optional.of(new Preview(bytes.toByteArray(), width, height));
        } catch (IOException | RuntimeException broken) {
            LOG.warn("no small picture: {}", broken.toString());
            return Optional.empty();
        }
    }
}

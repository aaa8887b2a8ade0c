package lookstep.server.frames;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import javax.imageio.ImageIO;
import lookstep.protocols.image.ExifReader;
import lookstep.server.frames.PreviewResult.Preview;

/** The pixels of a preview as a browser shows them: upright, in sRGB. */
public final class ShownPixels {
    private ShownPixels() {}

    /**
     * Decodes it.
     *
     * @return TYPE_INT_RGB
     * @throws IOException if it cannot be decoded here, whatever browsers make of it
     */
    public static BufferedImage of(Preview preview) throws IOException {
        return of(preview, Integer.MAX_VALUE);
    }

    /**
     * Decodes it, smaller if need be.
     *
     * @param longSidePixels the longer side at most
     */
    public static BufferedImage of(Preview preview, int longSidePixels) throws IOException {
        BufferedImage stored = ImageIO.read(new ByteArrayInputStream(preview.jpeg()));
        if (stored == null) {
            throw new IOException("the preview is no picture that can be decoded");
        }
        double scale =
                Math.min(
                        1,
                        (double) longSidePixels / Math.max(stored.getWidth(), stored.getHeight()));
        int width = Math.max(1, (int) Math.round(stored.getWidth() * scale));
        int height = Math.max(1, (int) Math.round(stored.getHeight() * scale));
        BufferedImage plain = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D pen = plain.createGraphics();
        try {
            pen.setRenderingHint(
                    RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
            // into sRGB on the way
            pen.drawImage(stored, 0, 0, width, height, null);
        } finally {
            pen.dispose();
        }
        return Upright.turn(plain, ExifReader.read(preview.jpeg()).data().orientation());
    }
}

package lookstep.server.frames;

import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.util.Iterator;
import java.util.Locale;
import java.util.Optional;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import org.w3c.dom.Element;
import org.w3c.dom.Node;

/**
 * A JPEG in a file, open for decoding: as stored, not turned. What would take too much memory, or
 * has colours that screens do not have, is refused before a pixel is read.
 */
final class StoredPicture implements AutoCloseable {
    /** Above this a picture is refused: no camera makes it, and it would take too much memory. */
    static final long MOST_PIXELS = 300_000_000;

    /** A progressive JPEG is held whole while it is decoded (ITU-T T.81, annex G). */
    static final long MOST_PROGRESSIVE_PIXELS = 100_000_000;

    private final ImageReader reader;
    private final int width;
    private final int height;

    private StoredPicture(ImageReader reader) throws IOException {
        this.reader = reader;
        this.width = reader.getWidth(0);
        this.height = reader.getHeight(0);
    }

    /**
     * Opens the picture that the stream begins with; closing it leaves the stream open.
     *
     * @throws IOException if it cannot be read or is refused; the message says why in plain words
     */
    static StoredPicture open(PictureStream in) throws IOException {
        Iterator<ImageReader> readers = ImageIO.getImageReaders(in);
        if (!readers.hasNext()) {
            throw new IOException("it is not a picture that can be decoded");
        }
        ImageReader reader = readers.next();
        try {
            if (!reader.getFormatName().toLowerCase(Locale.ROOT).startsWith("jp")) {
                throw new IOException("it is not a JPEG");
            }
            reader.setInput(in, true, true);
            StoredPicture picture = new StoredPicture(reader);
            picture.refuse();
            return picture;
        } catch (IOException | RuntimeException e) {
            reader.dispose();
            throw e;
        }
    }

    int width() {
        return width;
    }

    int height() {
        return height;
    }

    private void refuse() throws IOException {
        long pixels = (long) width * height;
        Optional<Element> frame = frameHeader();
        if (pixels > (mayBeProgressive(frame) ? MOST_PROGRESSIVE_PIXELS : MOST_PIXELS)) {
            throw new IOException(
                    "it is "
                            + width
                            + " x "
                            + height
                            + " pixels, more than can be shown here; the original is fine");
        }
        // Without a known header the decoder itself says what it cannot do.
        if (frame.filter(sof -> sof.getAttribute("numFrameComponents").equals("4")).isPresent()
                || !reader.getImageTypes(0).hasNext()) {
            throw new IOException(
                    "it is in a colour system that screens do not have, such as CMYK for print;"
                            + " set the camera, or the program that made it, to sRGB");
        }
    }

    /** Empty if the file is too odd for the JDK to describe, though perhaps not to decode. */
    private Optional<Element> frameHeader() {
        try {
            Node tree = reader.getImageMetadata(0).getAsTree("javax_imageio_jpeg_image_1.0");
            return Optional.ofNullable(
                    (Element) ((Element) tree).getElementsByTagName("sof").item(0));
        } catch (IOException | RuntimeException odd) {
            return Optional.empty();
        }
    }

    /** Baseline is process 0, extended sequential 1. */
    private static boolean mayBeProgressive(Optional<Element> frame) {
        return frame.map(sof -> !sof.getAttribute("process").matches("[01]")).orElse(true);
    }

    /** All of it in sRGB, without alpha, its longer side at most so long; never enlarged. */
    BufferedImage reduced(int longSidePixels) throws IOException {
        ImageReadParam thinning = reader.getDefaultReadParam();
        int step = Math.max(1, Math.max(width, height) / longSidePixels);
        thinning.setSourceSubsampling(step, step, 0, 0);
        double scale = Math.min(1, (double) longSidePixels / Math.max(width, height));
        return drawn(
                reader.read(0, thinning),
                Math.max(1, (int) Math.round(width * scale)),
                Math.max(1, (int) Math.round(height * scale)));
    }

    /** A part of it, pixel by pixel, in sRGB, without alpha; inside the picture. */
    BufferedImage part(Rectangle part) throws IOException {
        ImageReadParam only = reader.getDefaultReadParam();
        only.setSourceRegion(part);
        return drawn(reader.read(0, only), part.width, part.height);
    }

    private static BufferedImage drawn(BufferedImage from, int width, int height) {
        BufferedImage to = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D pen = to.createGraphics();
        try {
            pen.setRenderingHint(
                    RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
            pen.drawImage(from, 0, 0, width, height, null);
        } finally {
            pen.dispose();
        }
        return to;
    }

    @Override
    public void close() {
        reader.dispose();
    }
}

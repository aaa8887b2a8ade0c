package lookstep.server.frames;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Iterator;
import java.util.Locale;
import java.util.Optional;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.FileImageInputStream;
import javax.imageio.stream.MemoryCacheImageOutputStream;
import lookstep.protocols.image.ExifReader;
import lookstep.server.frames.PreviewResult.FrameProblem;
import lookstep.server.frames.PreviewResult.Preview;
import org.w3c.dom.Element;
import org.w3c.dom.Node;

/**
 * Makes tablet-size previews of JPEG files. Reads pixels thinned out, so that the memory it takes
 * hangs on the preview's size and not on the camera's; turns them upright as Exif says; never
 * enlarges. Any thread, several at once.
 *
 * @param longSidePixels the longer side of a preview at most
 * @param quality of the JPEG, 0..1
 */
public record PreviewMaker(int longSidePixels, double quality) {
    /** Above this a picture is refused: no camera makes it, and it would take too much memory. */
    static final long MOST_PIXELS = 300_000_000;

    /** A progressive JPEG is held whole while it is decoded (ITU-T T.81, annex G). */
    static final long MOST_PROGRESSIVE_PIXELS = 100_000_000;

    public PreviewMaker {
        if (longSidePixels < 1 || !(quality >= 0 && quality <= 1)) {
            throw new IllegalArgumentException(
                    "preview of " + longSidePixels + " pixels, quality " + quality);
        }
    }

    /** The size for tablets: 1600 pixels, quality 0.85. */
    public PreviewMaker() {
        this(1600, 0.85);
    }

    /** A preview of the file, or why there is none. Never throws for what a file may hold. */
    public PreviewResult make(Path original) {
        try (FileImageInputStream in = new FileImageInputStream(original.toFile())) {
            Iterator<ImageReader> readers = ImageIO.getImageReaders(in);
            if (!readers.hasNext()) {
                return problem(original, "it is not a picture that can be decoded");
            }
            ImageReader reader = readers.next();
            try {
                if (!reader.getFormatName().toLowerCase(Locale.ROOT).startsWith("jp")) {
                    return problem(original, "it is not a JPEG");
                }
                reader.setInput(in, true, true);
                return make(original, reader);
            } finally {
                reader.dispose();
            }
        } catch (FileNotFoundException | NoSuchFileException gone) {
            return problem(original, "the file is not there any more, or may not be read");
        } catch (IOException | RuntimeException broken) {
            // The JDK's decoder throws unchecked exceptions too, such as for broken profiles.
            return problem(original, String.valueOf(broken.getMessage()));
        }
    }

    private PreviewResult make(Path original, ImageReader reader) throws IOException {
        int width = reader.getWidth(0);
        int height = reader.getHeight(0);
        long pixels = (long) width * height;
        Optional<Element> frame = frameHeader(reader);
        if (pixels > (mayBeProgressive(frame) ? MOST_PROGRESSIVE_PIXELS : MOST_PIXELS)) {
            return problem(
                    original,
                    "it is "
                            + width
                            + " x "
                            + height
                            + " pixels, more than can be shown here; the original is fine");
        }
        // Without a known header the decoder itself says what it cannot do.
        if (frame.filter(sof -> sof.getAttribute("numFrameComponents").equals("4")).isPresent()
                || !reader.getImageTypes(0).hasNext()) {
            return problem(
                    original,
                    "it is in a colour system that screens do not have, such as CMYK for print;"
                            + " set the camera, or the program that made it, to sRGB");
        }
        ImageReadParam thinning = reader.getDefaultReadParam();
        int step = Math.max(1, Math.max(width, height) / longSidePixels);
        thinning.setSourceSubsampling(step, step, 0, 0);
        BufferedImage thinned = reader.read(0, thinning);
        BufferedImage upright = Upright.turn(scaled(thinned, width, height), orientation(original));
        return new Preview(encode(upright), upright.getWidth(), upright.getHeight());
    }

    /** Empty if the file is too odd for the JDK to describe, though perhaps not to decode. */
    private static Optional<Element> frameHeader(ImageReader reader) {
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

    private static int orientation(Path original) throws IOException {
        try (SeekableByteChannel channel =
                Files.newByteChannel(original, StandardOpenOption.READ)) {
            return ExifReader.read(channel).data().orientation();
        }
    }

    /** To the preview's size in sRGB, without alpha. */
    private BufferedImage scaled(BufferedImage from, int fullWidth, int fullHeight) {
        double scale = Math.min(1, (double) longSidePixels / Math.max(fullWidth, fullHeight));
        int width = Math.max(1, (int) Math.round(fullWidth * scale));
        int height = Math.max(1, (int) Math.round(fullHeight * scale));
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

    private byte[] encode(BufferedImage picture) throws IOException {
        ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
        ByteArrayOutputStream bytes = new ByteArrayOutputStream(1 << 18);
        try (MemoryCacheImageOutputStream out = new MemoryCacheImageOutputStream(bytes)) {
            ImageWriteParam how = writer.getDefaultWriteParam();
            how.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
            how.setCompressionQuality((float) quality);
            writer.setOutput(out);
            writer.write(null, new IIOImage(picture, null, null), how);
        } finally {
            writer.dispose();
        }
        return bytes.toByteArray();
    }

    private static FrameProblem problem(Path original, String why) {
        return new FrameProblem(
                original, "No preview of " + original.getFileName() + ": " + why + ".");
    }
}

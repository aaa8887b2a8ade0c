package lookstep.simulator.gear;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.protocols.image.DngWriter;
import lookstep.protocols.image.ExifData;
import lookstep.protocols.image.ExifWriter;
import lookstep.protocols.image.MpfWriter;

/** From an exposed picture to the files that leave the camera. */
final class Development {
    /** JPEG qualities, 0..1. */
    private static final float QUALITY = 0.92f;

    private static final float PREVIEW_QUALITY = 0.85f;
    private static final float THUMBNAIL_QUALITY = 0.8f;

    private static final int PREVIEW_PIXELS = 1600;
    private static final int THUMBNAIL_WIDTH = 160;
    private static final int THUMBNAIL_HEIGHT = 120;

    private Development() {}

    /** The JPEG first. */
    static List<CameraFile> files(BufferedImage picture, ExifData data, CameraFiles what)
            throws IOException {
        Optional<byte[]> thumbnail =
                what.thumbnail()
                        ? Optional.of(
                                JpegFile.encode(
                                        fitted(picture, THUMBNAIL_WIDTH, THUMBNAIL_HEIGHT),
                                        THUMBNAIL_QUALITY))
                        : Optional.empty();
        byte[] jpeg = ExifWriter.insert(JpegFile.encode(picture, QUALITY), data, thumbnail);
        List<CameraFile> files = new ArrayList<>();
        if (!what.largePreview() && !what.rawBeside()) {
            files.add(new CameraFile("JPG", jpeg));
            return files;
        }
        byte[] preview = JpegFile.encode(reduced(picture), PREVIEW_QUALITY);
        files.add(
                new CameraFile(
                        "JPG", what.largePreview() ? MpfWriter.append(jpeg, preview) : jpeg));
        if (what.rawBeside()) {
            int width = picture.getWidth();
            int height = picture.getHeight();
            files.add(
                    new CameraFile(
                            "DNG", DngWriter.write(data, preview, width, height, sensor(picture))));
        }
        return files;
    }

    private static BufferedImage reduced(BufferedImage picture) {
        int width = picture.getWidth();
        int height = picture.getHeight();
        double scale = Math.min(1, (double) PREVIEW_PIXELS / Math.max(width, height));
        return fitted(
                picture,
                Math.max(1, (int) Math.round(width * scale)),
                Math.max(1, (int) Math.round(height * scale)));
    }

    /** As large as fits, in the middle; the rest is black. */
    private static BufferedImage fitted(BufferedImage picture, int width, int height) {
        double scale =
                Math.min(
                        (double) width / picture.getWidth(), (double) height / picture.getHeight());
        int w = Math.max(1, (int) Math.round(picture.getWidth() * scale));
        int h = Math.max(1, (int) Math.round(picture.getHeight() * scale));
        BufferedImage to = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D pen = to.createGraphics();
        pen.setRenderingHint(
                RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
        pen.drawImage(picture, (width - w) / 2, (height - h) / 2, w, h, null);
        pen.dispose();
        return to;
    }

    /** One colour a pixel, red green over green blue, as filters on a sensor lie. */
    private static byte[] sensor(BufferedImage picture) {
        int width = picture.getWidth();
        byte[] values = new byte[width * picture.getHeight()];
        for (int i = 0; i < values.length; i++) {
            int x = i % width;
            int y = i / width;
            int shift = 16 - 8 * (x % 2 + y % 2);
            values[i] = (byte) (picture.getRGB(x, y) >> shift);
        }
        return values;
    }
}

package lookstep.server.frames;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.MemoryCacheImageOutputStream;
import lookstep.server.frames.PreviewResult.Preview;

/** Pixels as a JPEG for the pages. */
final class EncodedPicture {
    private EncodedPicture() {}

    /** Encodes a picture that is upright already; quality 0..1. */
    static Preview of(BufferedImage upright, double quality) throws IOException {
        ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
        ByteArrayOutputStream bytes = new ByteArrayOutputStream(1 << 18);
        try (MemoryCacheImageOutputStream out = new MemoryCacheImageOutputStream(bytes)) {
            ImageWriteParam how = writer.getDefaultWriteParam();
            how.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
            how.setCompressionQuality((float) quality);
            writer.setOutput(out);
            writer.write(null, new IIOImage(upright, null, null), how);
        } finally {
            writer.dispose();
        }
        return new Preview(bytes.toByteArray(), upright.getWidth(), upright.getHeight());
    }
}

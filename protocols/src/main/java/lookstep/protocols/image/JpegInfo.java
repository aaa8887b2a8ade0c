package lookstep.protocols.image;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.util.Optional;

/**
 * Size of a JPEG picture as stored, before any Exif orientation is applied.
 *
 * @param width pixels, 1..65535
 * @param height pixels, 1..65535
 */
public record JpegInfo(int width, int height) {
    /** Reads it from a file's bytes; empty if it is not there. */
    public static Optional<JpegInfo> read(byte[] jpeg) {
        try {
            return read(Octets.of(jpeg));
        } catch (IOException e) {
            throw new IllegalStateException("reading an array", e);
        }
    }

    /**
     * Reads it from a file; empty if it is not there (yet). Moves the channel's position.
     *
     * @throws IOException if the file cannot be read
     */
    public static Optional<JpegInfo> read(SeekableByteChannel jpeg) throws IOException {
        return read(Octets.of(jpeg));
    }

    private static Optional<JpegInfo> read(Octets octets) throws IOException {
        // height 0 means that a DNL segment gives it after the first scan: cameras do not
        return JpegFrame.read(octets)
                .filter(frame -> frame.width() > 0 && frame.height() > 0)
                .map(frame -> new JpegInfo(frame.width(), frame.height()));
    }
}

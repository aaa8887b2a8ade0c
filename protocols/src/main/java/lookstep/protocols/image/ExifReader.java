package lookstep.protocols.image;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * Reads the Exif of a JPEG file (CIPA DC-008). A bad part becomes a note, never an exception, and
 * the rest is still read. It reads no further than the first scan, and at most one Exif segment.
 */
public final class ExifReader {
    private static final byte[] EXIF = "Exif\0\0".getBytes(StandardCharsets.US_ASCII);

    private ExifReader() {}

    /** Reads a file's bytes, or as much of them as there is. */
    public static ExifReading read(byte[] jpeg) {
        try {
            return read(Octets.of(jpeg));
        } catch (IOException e) {
            throw new IllegalStateException("reading an array", e);
        }
    }

    /**
     * Reads a file. Moves the channel's position.
     *
     * @throws IOException if the file cannot be read, whatever is in it
     */
    public static ExifReading read(SeekableByteChannel jpeg) throws IOException {
        return read(Octets.of(jpeg));
    }

    private static ExifReading read(Octets octets) throws IOException {
        List<String> notes = new ArrayList<>();
        JpegHeader header = JpegHeader.read(octets);
        Optional<byte[]> found = Optional.empty();
        for (JpegWalk.Segment segment : header.segments()) {
            if (segment.marker() == JpegWalk.APP1) {
                byte[] content = octets.copy(segment.start(), segment.length());
                if (content.length >= EXIF.length
                        && Arrays.equals(content, 0, EXIF.length, EXIF, 0, EXIF.length)) {
                    found = Optional.of(Arrays.copyOfRange(content, EXIF.length, content.length));
                    break;
                }
            }
        }
        header.trouble().ifPresent(notes::add);
        if (found.isEmpty()) {
            notes.add("there is no Exif");
            return new ExifReading(ExifData.UNKNOWN, notes);
        }
        Optional<TiffBlock> block = TiffBlock.of(found.get());
        if (block.isEmpty()) {
            notes.add("the Exif has no byte order mark");
            return new ExifReading(ExifData.UNKNOWN, notes);
        }
        ExifFields fields = new ExifFields(block.get(), notes);
        fields.readAll();
        return new ExifReading(fields.data(), notes);
    }
}

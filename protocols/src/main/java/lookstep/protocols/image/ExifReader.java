package lookstep.protocols.image;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Reads the Exif of a JPEG file, or of a RAW file (CIPA DC-008). A bad part becomes a note, never
 * an exception, and the rest is still read. Of a JPEG it reads no further than the first scan, and
 * at most one Exif segment.
 */
public final class ExifReader {
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

    private static ExifReading read(Octets file) throws IOException {
        List<String> notes = new ArrayList<>();
        // once only: the JPEG inside may be anything, also such a file again
        Octets octets = RawHead.picture(file).orElse(file);
        Optional<TiffBlock> block = TiffBlock.of(octets);
        if (block.isEmpty()) {
            JpegHeader header = JpegHeader.read(octets);
            Optional<Octets> exif = header.exif(octets);
            header.trouble().ifPresent(notes::add);
            if (exif.isEmpty()) {
                notes.add("there is no Exif");
                return new ExifReading(ExifData.UNKNOWN, notes);
            }
            block = TiffBlock.of(exif.get());
        }
        if (block.isEmpty()) {
            notes.add("the Exif has no byte order mark");
            return new ExifReading(ExifData.UNKNOWN, notes);
        }
        ExifFields fields = new ExifFields(block.get(), notes);
        fields.readAll();
        return new ExifReading(fields.data(), notes);
    }
}

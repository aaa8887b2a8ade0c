package lookstep.server.frames;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import lookstep.protocols.image.ExifData;
import lookstep.protocols.image.ExifReader;
import lookstep.protocols.image.ExifReading;
import lookstep.protocols.image.JpegStructure;
import lookstep.protocols.image.Wholeness;

/**
 * What a file's bytes say at one moment.
 *
 * @param verdict whether to take it
 * @param words why not; empty if whole
 * @param exif only if whole
 * @param notes on the Exif, only if whole
 */
record PictureCheck(Verdict verdict, String words, ExifData exif, List<String> notes) {
    enum Verdict {
        WHOLE,
        NOT_YET,
        NOT_A_PICTURE
    }

    /**
     * Reads the file once, and its head once more if it is whole.
     *
     * @throws IOException if it cannot be read
     */
    static PictureCheck of(Path file) throws IOException {
        try (SeekableByteChannel channel = Files.newByteChannel(file, StandardOpenOption.READ)) {
            Wholeness wholeness = JpegStructure.wholeness(channel);
            if (wholeness instanceof Wholeness.Whole) {
                ExifReading reading = ExifReader.read(channel);
                return new PictureCheck(Verdict.WHOLE, "", reading.data(), reading.notes());
            }
            return wholeness instanceof Wholeness.Partial partial
                    ? without(Verdict.NOT_YET, partial.why())
                    : without(Verdict.NOT_A_PICTURE, ((Wholeness.Foreign) wholeness).why());
        }
    }

    private static PictureCheck without(Verdict verdict, String words) {
        return new PictureCheck(verdict, words, ExifData.UNKNOWN, List.of());
    }
}

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
import lookstep.protocols.image.TiffStructure;
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
    static final String NOT_CHECKED =
            "whether this kind of RAW file is whole cannot be told: it was taken because it had"
                    + " stopped growing";

    enum Verdict {
        WHOLE,
        NOT_YET,
        NOT_A_PICTURE
    }

    /**
     * Reads a JPEG once, of a RAW file the directories only; and the words once more if it is
     * whole.
     *
     * @throws IOException if it cannot be read
     */
    static PictureCheck of(Path file, PictureKind kind) throws IOException {
        try (SeekableByteChannel channel = Files.newByteChannel(file, StandardOpenOption.READ)) {
            if (kind == PictureKind.OTHER_RAW) {
                return channel.size() == 0
                        ? without(Verdict.NOT_YET, "the file is empty")
                        : new PictureCheck(
                                Verdict.WHOLE,
                                "",
                                ExifReader.read(channel).data(),
                                List.of(NOT_CHECKED));
            }
            Wholeness wholeness =
                    kind == PictureKind.JPEG
                            ? JpegStructure.wholeness(channel)
                            : TiffStructure.wholeness(channel);
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

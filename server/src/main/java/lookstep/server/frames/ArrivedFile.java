package lookstep.server.frames;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import lookstep.protocols.image.ExifData;

/**
 * A picture that lies whole in the watched folder.
 *
 * @param path where the original is; it is only ever read
 * @param sizeBytes its length when it was found whole
 * @param modified its time of change then
 * @param exif what the camera said of it; fields that are missing stay empty
 * @param raw whether it is a RAW file, by its name; a camera may have sent a JPEG beside it under
 *     the same name with another ending
 * @param notes what was odd about it, in plain words; empty when nothing was
 */
public record ArrivedFile(
        Path path,
        long sizeBytes,
        Instant modified,
        ExifData exif,
        boolean raw,
        List<String> notes) {
    public ArrivedFile {
        notes = List.copyOf(notes);
    }
}

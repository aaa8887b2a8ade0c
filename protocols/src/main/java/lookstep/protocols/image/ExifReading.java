package lookstep.protocols.image;

import java.util.List;

/**
 * What was found in a file.
 *
 * @param data what could be read
 * @param notes what could not, in plain words; empty if all was well
 */
public record ExifReading(ExifData data, List<String> notes) {
    public ExifReading {
        notes = List.copyOf(notes);
    }
}

package lookstep.protocols.image;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Optional;

/**
 * The head of RAF files, which is not TIFF: "CCD-RAW " at octet 8, and at octets 84 and 88 where
 * the JPEG inside lies and how long it is, most significant octet first (the first was read in a
 * public file, the others are from memory). That JPEG has the camera's Exif.
 */
final class RawHead {
    private static final byte[] MARK = "CCD-RAW ".getBytes(StandardCharsets.US_ASCII);
    private static final int MARK_AT = 8;
    private static final int OFFSET_AT = 84;
    private static final int LENGTH_AT = 88;

    private RawHead() {}

    /** The JPEG inside, or as much of it as there is; empty if the file is of another kind. */
    static Optional<Octets> picture(Octets file) throws IOException {
        if (!file.holds(MARK_AT, MARK) || file.at(LENGTH_AT + 3) < 0) {
            return Optional.empty();
        }
        return Optional.of(file.part(u32(file, OFFSET_AT), u32(file, LENGTH_AT)));
    }

    private static long u32(Octets file, long at) throws IOException {
        return (long) file.u16(at) << 16 | file.u16(at + 2);
    }
}

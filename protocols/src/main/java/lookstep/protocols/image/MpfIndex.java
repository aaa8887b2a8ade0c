package lookstep.protocols.image;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The index of further pictures in a file (CIPA DC-007: APP2 "MPF", MP Index IFD, MP Entry). What
 * cannot be read is left out: the index then names no pictures.
 */
final class MpfIndex {
    private static final byte[] MPF = "MPF\0".getBytes(StandardCharsets.US_ASCII);
    private static final int MP_ENTRY = 0xB002;
    private static final int ENTRY_OCTETS = 16;

    /** More pictures than any camera puts into one file. */
    private static final int MOST = 1000;

    /**
     * One picture in the file.
     *
     * @param attribute what kind of picture it is: bits 26 to 24 its format, 23 to 0 its type
     * @param start position of its first octet in the file
     * @param size octets
     */
    record Entry(long attribute, long start, long size) {
        long end() {
            return start + size;
        }

        /** A JPEG of class 1, large thumbnails: 1 VGA, 2 full HD, 3 and more larger still. */
        boolean isLargeThumbnail() {
            return (attribute & 0x0700_0000) == 0 && (attribute & 0x00FF_0000) == 0x0001_0000;
        }
    }

    private MpfIndex() {}

    /** All entries, the main picture's as well; none if the segment holds no MPF index. */
    static List<Entry> read(Octets octets, JpegWalk.Segment segment) throws IOException {
        if (segment.length() < MPF.length || !octets.holds(segment.start(), MPF)) {
            return List.of();
        }
        // offsets count from the byte order mark, which follows the four letters
        long base = segment.start() + MPF.length;
        Optional<TiffBlock> header = TiffBlock.of(octets.part(base, segment.length() - MPF.length));
        if (header.isEmpty()) {
            return List.of();
        }
        TiffBlock tiff = header.get();
        List<Entry> entries = new ArrayList<>();
        for (TiffBlock.Field field : tiff.directory(tiff.firstDirectory()).fields()) {
            if (field.tag() == MP_ENTRY) {
                long named = Math.min(field.octets() / ENTRY_OCTETS, MOST - entries.size());
                for (long i = 0; i < named; i++) {
                    long at = field.valueAt() + i * ENTRY_OCTETS;
                    long attribute = tiff.u32(at);
                    long size = tiff.u32(at + 4);
                    long offset = tiff.u32(at + 8);
                    // offset 0 is the main picture, which begins with the file
                    entries.add(new Entry(attribute, offset == 0 ? 0 : base + offset, size));
                }
            }
        }
        return entries;
    }
}

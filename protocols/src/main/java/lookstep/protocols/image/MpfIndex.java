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

    /**
     * One picture in the file.
     *
     * @param start position of its first octet in the file
     * @param size octets
     */
    record Entry(long start, long size) {
        long end() {
            return start + size;
        }
    }

    private MpfIndex() {}

    /** All entries, the main picture's as well; none if the segment holds no MPF index. */
    static List<Entry> read(Octets octets, JpegWalk.Segment segment) throws IOException {
        for (int i = 0; i < MPF.length; i++) {
            if (i >= segment.length() || octets.at(segment.start() + i) != MPF[i]) {
                return List.of();
            }
        }
        // offsets count from the byte order mark, which follows the four letters
        long base = segment.start() + MPF.length;
        byte[] block = octets.copy(base, segment.length() - MPF.length);
        Optional<TiffBlock> header = TiffBlock.of(block);
        if (header.isEmpty()) {
            return List.of();
        }
        TiffBlock tiff = header.get();
        List<Entry> entries = new ArrayList<>();
        for (TiffBlock.Field field : tiff.directory(tiff.firstDirectory()).fields()) {
            if (field.tag() == MP_ENTRY) {
                int value = field.valueAt();
                for (long i = 0; (i + 1) * ENTRY_OCTETS <= field.octets(); i++) {
                    int at = (int) (value + i * ENTRY_OCTETS);
                    long size = tiff.u32(at + 4);
                    long offset = tiff.u32(at + 8);
                    // offset 0 is the main picture, which begins with the file
                    entries.add(new Entry(offset == 0 ? 0 : base + offset, size));
                }
            }
        }
        return entries;
    }
}

package lookstep.protocols.image;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Directories of fields as in TIFF 6.0, which Exif, MPF and many RAW files share: a byte order
 * mark, then directories reached by offsets from it. Offsets that lead out of the block, and fields
 * too long for it, become notes.
 */
final class TiffBlock {
    static final int BYTE = 1;
    static final int ASCII = 2;
    static final int SHORT = 3;
    static final int LONG = 4;
    static final int RATIONAL = 5;
    static final int UNDEFINED = 7;

    /** A LONG that leads to a directory (Adobe's TIFF Technical Note 1). */
    static final int DIRECTORY = 13;

    private static final int TIFF = 42;

    /** What stands there in RW2 files (from memory; read in a public one). */
    private static final int RW2 = 0x55;

    /** More fields than any camera writes into one directory. */
    static final int MOST_FIELDS = 2000;

    private static final int FIELD_OCTETS = 12;

    /**
     * One field whose value lies inside the block.
     *
     * @param valueAt where the value begins in the block
     * @param octets length of the value
     */
    record Field(int tag, int type, long count, long valueAt, long octets) {}

    /**
     * What could be read of a directory, and what could not.
     *
     * @param outside tags of those fields whose values lie outside the block
     * @param next offset of the directory after it; 0 if there is none
     * @param missing true if it, or an end of it, would lie after the block's end
     */
    record Directory(
            List<Field> fields,
            Set<Integer> outside,
            long next,
            boolean missing,
            List<String> notes) {}

    private final Octets block;
    private final boolean leastFirst;

    private TiffBlock(Octets block, boolean leastFirst) {
        this.block = block;
        this.leastFirst = leastFirst;
    }

    /** Empty if the block does not begin with a byte order mark and the number 42, or RW2's. */
    static Optional<TiffBlock> of(Octets block) throws IOException {
        // II or MM, given twice, so its order does not matter
        int mark = block.u16(0);
        if (block.size() < 8 || (mark != 0x4949 && mark != 0x4D4D)) {
            return Optional.empty();
        }
        TiffBlock tiff = new TiffBlock(block, mark == 0x4949);
        int number = tiff.u16(2);
        return number == TIFF || number == RW2 ? Optional.of(tiff) : Optional.empty();
    }

    long size() {
        return block.size();
    }

    /** Offset of the first directory, unchecked. */
    long firstDirectory() throws IOException {
        return u32(4);
    }

    int u8(long at) throws IOException {
        // nothing is there only if the file became shorter while it was read
        return Math.max(0, block.at(at));
    }

    int u16(long at) throws IOException {
        int one = u8(at);
        int other = u8(at + 1);
        return leastFirst ? other << 8 | one : one << 8 | other;
    }

    long u32(long at) throws IOException {
        long one = u16(at);
        long other = u16(at + 2);
        return leastFirst ? other << 16 | one : one << 16 | other;
    }

    byte[] octets(long at, int length) throws IOException {
        return block.copy(at, length);
    }

    /** The whole numbers of a field, at most so many of them; none if it holds no such numbers. */
    long[] numbers(Field field, int most) throws IOException {
        int each =
                switch (field.type()) {
                    case BYTE -> 1;
                    case SHORT -> 2;
                    case LONG, DIRECTORY -> 4;
                    default -> 0;
                };
        long[] numbers = new long[each == 0 ? 0 : (int) Math.min(field.count(), most)];
        for (int i = 0; i < numbers.length; i++) {
            long at = field.valueAt() + (long) i * each;
            numbers[i] = each == 1 ? u8(at) : each == 2 ? u16(at) : u32(at);
        }
        return numbers;
    }

    /** The directory at an offset; follows no further offset, so it cannot loop. */
    Directory directory(long offset) throws IOException {
        List<Field> fields = new ArrayList<>();
        Set<Integer> outside = new HashSet<>();
        List<String> notes = new ArrayList<>();
        long size = block.size();
        if (offset < 8 || offset + 2 > size) {
            notes.add("a directory at offset " + offset + ", outside the block");
            return new Directory(fields, outside, 0, offset >= 8, notes);
        }
        int count = u16(offset);
        long end = offset + 2 + (long) count * FIELD_OCTETS;
        for (int i = 0; i < count; i++) {
            long at = offset + 2 + (long) i * FIELD_OCTETS;
            if (at + FIELD_OCTETS > size) {
                notes.add("a directory of %d fields is cut after %d".formatted(count, i));
                break;
            }
            if (i == MOST_FIELDS) {
                notes.add("a directory of %d fields is read up to %d".formatted(count, i));
                break;
            }
            field(at, size, fields, outside, notes);
        }
        boolean missing = end + 4 > size;
        return new Directory(fields, outside, missing ? 0 : u32(end), missing, notes);
    }

    private void field(
            long at, long size, List<Field> fields, Set<Integer> outside, List<String> notes)
            throws IOException {
        int tag = u16(at);
        int type = u16(at + 2);
        long count = u32(at + 4);
        int each =
                switch (type) {
                    case 1, 2, 6, 7, 129 -> 1;
                    case 3, 8 -> 2;
                    case 4, 9, 11, DIRECTORY -> 4;
                    case 5, 10, 12 -> 8;
                    default -> 0;
                };
        if (each == 0) {
            notes.add("tag 0x%04X: unknown type %d".formatted(tag, type));
            return;
        }
        // at most 2^32 times 8: no overflow
        long octets = count * each;
        long valueAt = octets <= 4 ? at + 8 : u32(at + 8);
        if (valueAt + octets > size) {
            outside.add(tag);
            notes.add("tag 0x%04X: its value lies outside the block".formatted(tag));
            return;
        }
        fields.add(new Field(tag, type, count, valueAt, octets));
    }
}

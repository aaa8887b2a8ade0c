package lookstep.protocols.image;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Directories of fields as in TIFF 6.0, which Exif and MPF share: a byte order mark, then
 * directories reached by offsets from it. Offsets that lead out of the block, and fields too long
 * for it, become notes.
 */
final class TiffBlock {
    static final int BYTE = 1;
    static final int ASCII = 2;
    static final int SHORT = 3;
    static final int LONG = 4;
    static final int RATIONAL = 5;
    static final int UNDEFINED = 7;

    private static final int FIELD_OCTETS = 12;

    /**
     * One field whose value lies inside the block.
     *
     * @param valueAt where the value begins in the block
     * @param octets length of the value
     */
    record Field(int tag, int type, long count, int valueAt, long octets) {}

    /** What could be read of a directory, and what could not. */
    record Directory(List<Field> fields, List<String> notes) {}

    private final ByteBuffer block;

    private TiffBlock(ByteBuffer block) {
        this.block = block;
    }

    /** Empty if the block does not begin with a byte order mark and the number 42. */
    static Optional<TiffBlock> of(byte[] bytes) {
        if (bytes.length < 8) {
            return Optional.empty();
        }
        ByteBuffer block = ByteBuffer.wrap(bytes);
        // II or MM, given twice, so its order does not matter
        int mark = block.getShort(0);
        if (mark == 0x4949) {
            block.order(ByteOrder.LITTLE_ENDIAN);
        } else if (mark != 0x4D4D) {
            return Optional.empty();
        }
        return block.getShort(2) == 42 ? Optional.of(new TiffBlock(block)) : Optional.empty();
    }

    /** Offset of the first directory, unchecked. */
    long firstDirectory() {
        return u32(4);
    }

    int u8(int at) {
        return block.get(at) & 0xFF;
    }

    int u16(int at) {
        return block.getShort(at) & 0xFFFF;
    }

    long u32(int at) {
        return block.getInt(at) & 0xFFFFFFFFL;
    }

    byte[] octets(int at, int length) {
        byte[] copy = new byte[length];
        block.get(at, copy);
        return copy;
    }

    /** The directory at an offset; follows no further offset, so it cannot loop. */
    Directory directory(long offset) {
        List<Field> fields = new ArrayList<>();
        List<String> notes = new ArrayList<>();
        int size = block.capacity();
        if (offset < 8 || offset + 2 > size) {
            notes.add("a directory at offset " + offset + ", outside the block");
            return new Directory(fields, notes);
        }
        int count = u16((int) offset);
        for (int i = 0; i < count; i++) {
            long at = offset + 2 + (long) i * FIELD_OCTETS;
            if (at + FIELD_OCTETS > size) {
                notes.add("a directory of %d fields is cut after %d".formatted(count, i));
                break;
            }
            field((int) at, size, fields, notes);
        }
        return new Directory(fields, notes);
    }

    private void field(int at, int size, List<Field> fields, List<String> notes) {
        int tag = u16(at);
        int type = u16(at + 2);
        long count = u32(at + 4);
        int each =
                switch (type) {
                    case 1, 2, 6, 7, 129 -> 1;
                    case 3, 8 -> 2;
                    case 4, 9, 11 -> 4;
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
            notes.add("tag 0x%04X: its value lies outside the block".formatted(tag));
            return;
        }
        fields.add(new Field(tag, type, count, (int) valueAt, octets));
    }
}

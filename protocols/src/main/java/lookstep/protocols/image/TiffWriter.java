package lookstep.protocols.image;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * One TIFF 6.0 directory, least significant octet first: its fields in order of tag, then the
 * values that are too long for their field.
 */
final class TiffWriter {
    private static final int FIELD_OCTETS = 12;

    private static final class Field {
        private final int type;
        private final int count;
        private final byte[] value;

        Field(int type, int count, byte[] value) {
            this.type = type;
            this.count = count;
            this.value = value;
        }

        /** Values of up to four octets stand in the field; the others begin at even offsets. */
        int outside() {
            return value.length <= 4 ? 0 : value.length + value.length % 2;
        }
    }

    private final SortedMap<Integer, Field> fields = new TreeMap<>();

    /** ASCII, with the NUL that ends it. */
    void text(int tag, String text) {
        byte[] value = (text + "\0").getBytes(StandardCharsets.US_ASCII);
        fields.put(tag, new Field(TiffBlock.ASCII, value.length, value));
    }

    /** SHORTs, 0..65535. */
    void shorts(int tag, int... values) {
        byte[] octets = new byte[2 * values.length];
        ByteBuffer out = over(octets);
        for (int value : values) {
            out.putShort((short) value);
        }
        fields.put(tag, new Field(TiffBlock.SHORT, values.length, octets));
    }

    /** BYTEs. */
    void octets(int tag, byte... value) {
        fields.put(tag, new Field(TiffBlock.BYTE, value.length, value));
    }

    /** One LONG. */
    void longs(int tag, int value) {
        byte[] octets = new byte[4];
        over(octets).putInt(value);
        fields.put(tag, new Field(TiffBlock.LONG, 1, octets));
    }

    void rational(int tag, Rational value) {
        byte[] octets = new byte[8];
        over(octets).putInt((int) value.numerator()).putInt((int) value.denominator());
        fields.put(tag, new Field(TiffBlock.RATIONAL, 1, octets));
    }

    void undefined(int tag, byte[] value) {
        fields.put(tag, new Field(TiffBlock.UNDEFINED, value.length, value));
    }

    /** Octets it takes as it is. */
    int size() {
        return tableOctets(fields.size()) + outside();
    }

    /** A header, least significant octet first, that leads to a directory right after it. */
    static byte[] block(byte[] directory) {
        byte[] octets = new byte[8 + directory.length];
        over(octets).put((byte) 'I').put((byte) 'I').putShort((short) 42).putInt(8).put(directory);
        return octets;
    }

    /**
     * The directory, with no other after it.
     *
     * @param offset where it will stand, counted from the byte order mark; even
     */
    byte[] bytes(int offset) {
        return bytes(offset, 0);
    }

    /**
     * The directory.
     *
     * @param offset where it will stand, counted from the byte order mark; even
     * @param following where the directory after it will stand; 0 for none
     */
    byte[] bytes(int offset, int following) {
        int table = tableOctets(fields.size());
        byte[] octets = new byte[table + outside()];
        ByteBuffer out = over(octets);
        out.putShort((short) fields.size());
        int[] next = {offset + table};
        fields.forEach(
                (tag, field) -> {
                    out.putShort((short) (int) tag).putShort((short) field.type);
                    out.putInt(field.count);
                    int value = out.position();
                    if (field.outside() == 0) {
                        out.put(field.value);
                    } else {
                        out.putInt(next[0]);
                        out.put(next[0] - offset, field.value);
                        next[0] += field.outside();
                    }
                    out.position(value + 4);
                });
        out.putInt(following);
        return octets;
    }

    private int outside() {
        return fields.values().stream().mapToInt(Field::outside).sum();
    }

    private static int tableOctets(int count) {
        return 2 + count * FIELD_OCTETS + 4;
    }

    private static ByteBuffer over(byte[] octets) {
        return ByteBuffer.wrap(octets).order(ByteOrder.LITTLE_ENDIAN);
    }
}

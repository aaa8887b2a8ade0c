package lookstep.protocols.gdtf;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.zip.CRC32;
import java.util.zip.Deflater;

/** Writes zip archives that may lie (PKWARE APPNOTE 6.3, 4.3.7, 4.3.12, 4.3.16). */
final class RawZip {
    /** What one entry claims, and what it has. */
    static final class Entry {
        final String name;
        final byte[] packed;
        String localName;
        int flags;
        int method;
        long crc;
        long size;
        long packedSize;

        private Entry(String name, int method, byte[] plain, byte[] packed) {
            CRC32 sum = new CRC32();
            sum.update(plain);
            this.name = name;
            this.localName = name;
            this.method = method;
            this.packed = packed;
            this.crc = sum.getValue();
            this.size = plain.length;
            this.packedSize = packed.length;
        }

        static Entry stored(String name, String text) {
            byte[] plain = text.getBytes(StandardCharsets.UTF_8);
            return new Entry(name, 0, plain, plain);
        }

        static Entry deflated(String name, byte[] plain) {
            Deflater deflater = new Deflater(9, true);
            deflater.setInput(plain);
            deflater.finish();
            byte[] packed = new byte[plain.length + 1000];
            int length = deflater.deflate(packed);
            deflater.end();
            return new Entry(name, 8, plain, Arrays.copyOf(packed, length));
        }
    }

    private RawZip() {}

    private static int length(Entry... entries) {
        int length = 22;
        for (Entry e : entries) {
            length += 76 + 4 * (e.name.length() + e.localName.length()) + e.packed.length;
        }
        return length;
    }

    static byte[] of(Entry... entries) {
        ByteBuffer out = ByteBuffer.allocate(length(entries)).order(ByteOrder.LITTLE_ENDIAN);
        List<Integer> offsets = new ArrayList<>();
        for (Entry e : entries) {
            offsets.add(out.position());
            byte[] name = e.localName.getBytes(StandardCharsets.UTF_8);
            out.putInt(0x04034b50).putShort((short) 20).putShort((short) e.flags);
            out.putShort((short) e.method).putInt(0); // time and date
            out.putInt((int) e.crc).putInt((int) e.packedSize).putInt((int) e.size);
            out.putShort((short) name.length).putShort((short) 0).put(name).put(e.packed);
        }
        int directory = out.position();
        for (int i = 0; i < entries.length; i++) {
            Entry e = entries[i];
            byte[] name = e.name.getBytes(StandardCharsets.UTF_8);
            out.putInt(0x02014b50).putShort((short) 20).putShort((short) 20);
            out.putShort((short) e.flags).putShort((short) e.method).putInt(0);
            out.putInt((int) e.crc).putInt((int) e.packedSize).putInt((int) e.size);
            out.putShort((short) name.length).putShort((short) 0).putShort((short) 0);
            out.putShort((short) 0).putShort((short) 0).putInt(0); // disk, attributes
            out.putInt(offsets.get(i)).put(name);
        }
        int length = out.position() - directory;
        out.putInt(0x06054b50).putShort((short) 0).putShort((short) 0);
        out.putShort((short) entries.length).putShort((short) entries.length);
        out.putInt(length).putInt(directory).putShort((short) 0);
        byte[] bytes = new byte[out.position()];
        out.flip().get(bytes);
        return bytes;
    }
}

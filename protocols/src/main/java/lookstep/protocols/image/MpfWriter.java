package lookstep.protocols.image;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;

/** Puts a large thumbnail behind a picture, with the index that names both (CIPA DC-007). */
public final class MpfWriter {
    private static final byte[] MPF = "MPF\0".getBytes(StandardCharsets.US_ASCII);
    private static final int VERSION = 0xB000;
    private static final int NUMBER_OF_IMAGES = 0xB001;
    private static final int MP_ENTRY = 0xB002;
    private static final int ENTRY_OCTETS = 16;

    // representative image; baseline primary picture
    private static final int PRIMARY = 0x2003_0000;
    private static final int LARGE_THUMBNAIL = 0x0001_0000;

    private MpfWriter() {}

    /**
     * A file of both pictures.
     *
     * @param main a whole JPEG file, as a rule with its Exif, and without an MPF index
     * @param large a whole JPEG file
     * @throws IllegalArgumentException if one of them is no JPEG, or the first has an index
     */
    public static byte[] append(byte[] main, byte[] large) {
        JpegHeader header = JpegHeader.read(main);
        // the index stands after the Exif, or first
        int at = 2;
        for (JpegWalk.Segment segment : header.segments()) {
            if (JpegHeader.isMpf(main, segment)) {
                throw new IllegalArgumentException("the file has an MPF index already");
            }
            if (JpegHeader.isExif(main, segment)) {
                at = (int) segment.end();
            }
        }
        JpegInfo size =
                JpegInfo.read(large)
                        .orElseThrow(
                                () -> new IllegalArgumentException("the thumbnail is no JPEG"));
        int segmentOctets = segment(0, 0, 0, 0).length;
        int mainSize = main.length + segmentOctets;
        // marker, length and "MPF" come before the byte order mark, which offsets count from
        int mark = at + 4 + MPF.length;
        ByteArrayOutputStream out = new ByteArrayOutputStream(mainSize + large.length);
        out.write(main, 0, at);
        out.writeBytes(segment(mainSize, type(size), large.length, mainSize - mark));
        out.write(main, at, main.length - at);
        out.writeBytes(large);
        return out.toByteArray();
    }

    /** Classes of large thumbnails: VGA, full HD, and those above in later editions. */
    private static int type(JpegInfo size) {
        int longSide = Math.max(size.width(), size.height());
        int step = longSide <= 640 ? 1 : longSide <= 1920 ? 2 : longSide <= 3840 ? 3 : 4;
        return LARGE_THUMBNAIL + step;
    }

    private static byte[] segment(int mainSize, int type, int largeSize, int largeAt) {
        ByteBuffer entries = ByteBuffer.allocate(2 * ENTRY_OCTETS).order(ByteOrder.LITTLE_ENDIAN);
        // the first image's offset is 0; none depends on another
        entries.putInt(PRIMARY).putInt(mainSize).putInt(0).putInt(0);
        entries.putInt(type).putInt(largeSize).putInt(largeAt).putInt(0);
        TiffWriter index = new TiffWriter();
        index.undefined(VERSION, "0100".getBytes(StandardCharsets.US_ASCII));
        index.longs(NUMBER_OF_IMAGES, 2);
        index.undefined(MP_ENTRY, entries.array());
        byte[] block = TiffWriter.block(index.bytes(8));
        ByteBuffer segment = ByteBuffer.allocate(4 + MPF.length + block.length);
        segment.put((byte) 0xFF).put((byte) JpegWalk.APP2);
        segment.putShort((short) (2 + MPF.length + block.length)).put(MPF).put(block);
        return segment.array();
    }
}

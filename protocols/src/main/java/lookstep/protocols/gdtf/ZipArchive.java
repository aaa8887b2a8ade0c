package lookstep.protocols.gdtf;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.CRC32;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;

/**
 * A zip archive in memory, by its central directory (PKWARE APPNOTE 6.3, 4.3.7 local header, 4.3.12
 * central directory, 4.3.16 end record). Stricter than need be, for a file that two programs read
 * differently is no file to trust: nothing in front, nothing behind, both headers of an entry must
 * agree. Only what is asked for is inflated.
 */
final class ZipArchive {
    private static final int LOCAL = 0x04034b50;
    private static final int CENTRAL = 0x02014b50;
    private static final int END = 0x06054b50;
    private static final int END_OCTETS = 22;
    private static final int CENTRAL_OCTETS = 46;
    private static final int LOCAL_OCTETS = 30;
    private static final int MOST_COMMENT = 0xFFFF;

    /** General purpose bits (APPNOTE 4.4.4): encrypted, strong encryption, masked headers. */
    private static final int ENCRYPTED = 1 | 1 << 6 | 1 << 13;

    private static final int UTF_8_NAME = 1 << 11;
    private static final int STORED = 0;
    private static final int DEFLATED = 8;
    private static final long IN_ZIP64 = 0xFFFFFFFFL;

    private static final String AGAIN = "fetch or export the file again";

    /** One file in it, as the central directory says. */
    record Entry(
            String name, int flags, int method, long crc, long packed, long size, long offset) {}

    private final ByteBuffer octets;
    private final List<Entry> entries = new ArrayList<>();
    private int directory;

    /**
     * @throws Unreadable if it is no whole zip archive, or one that means ill
     */
    ZipArchive(byte[] archive) throws Unreadable {
        octets = ByteBuffer.wrap(archive).order(ByteOrder.LITTLE_ENDIAN);
        readDirectory(end());
    }

    List<Entry> entries() {
        return entries;
    }

    private int end() throws Unreadable {
        int last = octets.limit() - END_OCTETS;
        for (int at = last; at >= 0 && at >= last - MOST_COMMENT; at--) {
            if (octets.getInt(at) == END && u16(at + 20) == last - at) {
                return at;
            }
        }
        boolean zip = octets.limit() >= 4 && octets.getInt(0) == LOCAL;
        throw zip
                ? new Unreadable("the zip archive is cut off: its end is missing", AGAIN)
                : new Unreadable(
                        "this is no zip archive, as a GDTF file is", "give the .gdtf file itself");
    }

    private void readDirectory(int end) throws Unreadable {
        int count = u16(end + 10);
        long length = u32(end + 12);
        long start = u32(end + 16);
        if (count == 0xFFFF || length == IN_ZIP64 || start == IN_ZIP64) {
            throw new Unreadable(
                    "the zip archive is of the kind for huge archives (ZIP64)",
                    "pack its files again as an ordinary zip");
        }
        if (u16(end + 4) != 0 || u16(end + 6) != 0 || u16(end + 8) != count) {
            throw new Unreadable(
                    "the zip archive is one part of several", "pack its files again as one zip");
        }
        if (count > Limits.ENTRIES) {
            throw new Unreadable(
                    "the zip archive has %d entries, more than %d".formatted(count, Limits.ENTRIES),
                    "this is no GDTF file; " + AGAIN);
        }
        if (start + length != end) {
            throw damaged("its directory is not where its end record says");
        }
        directory = (int) start;
        int at = directory;
        for (int i = 0; i < count; i++) {
            at = readEntry(at, end);
        }
        if (at != end) {
            throw damaged("its directory is longer than its entries");
        }
    }

    private int readEntry(int at, int end) throws Unreadable {
        if (end - at < CENTRAL_OCTETS || octets.getInt(at) != CENTRAL) {
            throw damaged("its directory breaks off");
        }
        int nameLength = u16(at + 28);
        int extraLength = u16(at + 30);
        int commentLength = u16(at + 32);
        int next = at + CENTRAL_OCTETS + nameLength + extraLength + commentLength;
        if (next > end) {
            throw damaged("its directory breaks off");
        }
        int flags = u16(at + 8);
        String name = name(at + CENTRAL_OCTETS, nameLength, flags);
        requireTame(name);
        entries.add(
                new Entry(
                        name,
                        flags,
                        u16(at + 10),
                        u32(at + 16),
                        u32(at + 20),
                        u32(at + 24),
                        u32(at + 42)));
        return next;
    }

    /** Nothing is ever unpacked; but who writes such names means ill. */
    private static void requireTame(String name) throws Unreadable {
        String slashed = name.replace('\\', '/');
        boolean climbs = List.of(slashed.split("/", -1)).contains("..");
        boolean absolute = slashed.startsWith("/") || slashed.matches("(?s)[A-Za-z]:.*");
        if (name.isEmpty() || name.indexOf('\0') >= 0 || climbs || absolute) {
            throw new Unreadable(
                    "the zip archive has an entry '%s', which points out of the archive"
                            .formatted(Shown.of(name)),
                    "do not trust this file; fetch it from its maker again");
        }
    }

    /**
     * The content of one entry. Limits are counted while it is inflated; what the headers say of
     * sizes is only checked.
     *
     * @param most octets taken
     * @throws Unreadable if it is damaged, locked, too much, or packed in another way than the
     *     standard has
     */
    byte[] content(Entry entry, int most) throws Unreadable {
        String name = "'" + Shown.of(entry.name()) + "'";
        if ((entry.flags() & ENCRYPTED) != 0) {
            throw new Unreadable(
                    name + " is encrypted", "pack it again without a password, or fetch it again");
        }
        if (entry.method() != STORED && entry.method() != DEFLATED) {
            throw new Unreadable(
                    "%s is packed by method %d; GDTF has stored (0) and deflate (8)"
                            .formatted(name, entry.method()),
                    "pack it again with deflate");
        }
        if (entry.packed() == IN_ZIP64 || entry.size() == IN_ZIP64) {
            throw new Unreadable(
                    name + " is packed in the way of huge files (ZIP64)",
                    "pack it again as an ordinary zip");
        }
        if (entry.size() > most) {
            throw tooMuch(name, most);
        }
        int data = data(entry, name);
        byte[] content =
                entry.method() == STORED
                        ? stored(entry, data, name, most)
                        : inflated(entry, data, name, most);
        CRC32 crc = new CRC32();
        crc.update(content);
        if (content.length != entry.size() || crc.getValue() != entry.crc()) {
            throw damaged(name + " does not have the length and the CRC-32 that it should have");
        }
        return content;
    }

    /** Where the entry's data begin, once its local header agrees with the directory. */
    private int data(Entry entry, String name) throws Unreadable {
        long at = entry.offset();
        if (at + LOCAL_OCTETS > directory || octets.getInt((int) at) != LOCAL) {
            throw damaged(name + " is not where the directory says");
        }
        int local = (int) at;
        int nameLength = u16(local + 26);
        long data = at + LOCAL_OCTETS + nameLength + u16(local + 28);
        if (data + entry.packed() > directory) {
            throw damaged(name + " runs into the directory");
        }
        int flags = u16(local + 6);
        if (flags != entry.flags()
                || u16(local + 8) != entry.method()
                || !name(local + LOCAL_OCTETS, nameLength, flags).equals(entry.name())) {
            throw damaged("the two headers of " + name + " say different things");
        }
        return (int) data;
    }

    private byte[] stored(Entry entry, int data, String name, int most) throws Unreadable {
        if (entry.packed() > most) {
            throw tooMuch(name, most);
        }
        byte[] content = new byte[(int) entry.packed()];
        octets.get(data, content);
        return content;
    }

    private byte[] inflated(Entry entry, int data, String name, int most) throws Unreadable {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        byte[] piece = new byte[1 << 15];
        Inflater inflater = new Inflater(true);
        try {
            inflater.setInput(octets.array(), data, (int) entry.packed());
            while (!inflater.finished()) {
                int got = inflater.inflate(piece);
                if (got == 0 && !inflater.finished()) {
                    throw damaged(name + " breaks off");
                }
                out.write(piece, 0, got);
                if (out.size() > most) {
                    throw tooMuch(name, most);
                }
                if (out.size() > Limits.RATIO_FREE_OCTETS
                        && inflater.getBytesWritten() > Limits.RATIO * inflater.getBytesRead()) {
                    throw new Unreadable(
                            "%s inflates to more than %d times its packed size"
                                    .formatted(name, Limits.RATIO),
                            "do not trust this file; fetch it from its maker again");
                }
            }
        } catch (DataFormatException e) {
            throw damaged(name + " cannot be inflated");
        } finally {
            inflater.end();
        }
        return out.toByteArray();
    }

    /** UTF-8 where the entry says so; else the old code page, whose plain letters are ASCII. */
    private String name(int at, int length, int flags) {
        return new String(
                octets.array(),
                at,
                length,
                (flags & UTF_8_NAME) != 0 ? StandardCharsets.UTF_8 : StandardCharsets.ISO_8859_1);
    }

    private int u16(int at) {
        return octets.getShort(at) & 0xFFFF;
    }

    private long u32(int at) {
        return octets.getInt(at) & 0xFFFFFFFFL;
    }

    private static Unreadable tooMuch(String name, int most) {
        return new Unreadable(
                "%s is longer than %d MiB".formatted(name, most >> 20),
                "this is no GDTF file; fetch it from its maker again");
    }

    private static Unreadable damaged(String how) {
        return new Unreadable("the zip archive is damaged: " + how, AGAIN);
    }
}

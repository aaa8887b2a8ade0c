package lookstep.protocols.gdtf;

import static lookstep.protocols.gdtf.TestFiles.bad;
import static lookstep.protocols.gdtf.TestFiles.channels;
import static lookstep.protocols.gdtf.TestFiles.gdtf;
import static lookstep.protocols.gdtf.TestFiles.good;
import static lookstep.protocols.gdtf.TestFiles.zip;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import lookstep.protocols.gdtf.RawZip.Entry;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class HostileArchiveTest {
    private static final String DESCRIPTION = channels("");

    private static void refused(String what, byte[] file) {
        GdtfReading.Bad bad = bad(file);
        assertTrue(bad.what().contains(what), bad.text());
        assertTrue(!bad.mend().isBlank());
    }

    /** What the tests write by hand is a zip archive, or its refusals would show nothing. */
    @Test
    void honestOnesAreRead() {
        byte[] plain = DESCRIPTION.getBytes(StandardCharsets.UTF_8);
        assertEquals(
                1,
                good(RawZip.of(Entry.stored("description.xml", DESCRIPTION)))
                        .type()
                        .dmxModes()
                        .size());
        assertEquals(
                1,
                good(RawZip.of(Entry.deflated("description.xml", plain))).type().dmxModes().size());
    }

    @Test
    void cutAtEveryLength() {
        byte[] whole = gdtf(DESCRIPTION);
        assertEquals("Plain panel", good(whole).type().name());
        for (int length = 0; length < whole.length; length++) {
            assertTrue(!bad(Arrays.copyOf(whole, length)).what().isBlank());
        }
    }

    @Test
    void anythingBehindOrInFrontIsRefused() {
        byte[] whole = gdtf(DESCRIPTION);
        refused("no zip archive", Arrays.copyOf(new byte[0], 5));
        refused("cut off", Arrays.copyOf(whole, whole.length + 1));
        byte[] shifted = new byte[whole.length + 3];
        System.arraycopy(whole, 0, shifted, 3, whole.length);
        refused("directory is not where", shifted);
    }

    /** Every octet, and seeded handfuls of them: a reading or a refusal, never a stumble. */
    @Test
    void flippedOctets() {
        byte[] whole = gdtf(DESCRIPTION);
        int refused = 0;
        for (int at = 0; at < whole.length; at++) {
            for (int mask : new int[] {0x01, 0x80, 0xFF}) {
                byte[] flipped = whole.clone();
                flipped[at] ^= (byte) mask;
                refused += reading(flipped) instanceof GdtfReading.Bad ? 1 : 0;
            }
        }
        // times, attributes and the like may be anything; what counts is guarded
        assertTrue(refused > 2 * whole.length, refused + " of " + 3 * whole.length);
        Random random = new Random(1);
        for (int round = 0; round < 3000; round++) {
            byte[] flipped = whole.clone();
            for (int n = random.nextInt(8); n >= 0; n--) {
                flipped[random.nextInt(whole.length)] = (byte) random.nextInt();
            }
            reading(flipped);
        }
    }

    private static GdtfReading reading(byte[] file) {
        GdtfReading reading = GdtfReader.read(file);
        if (reading instanceof GdtfReading.Bad bad) {
            assertTrue(!bad.what().contains("stumbles"), bad.text());
        }
        return reading;
    }

    @Test
    void bombsByRatio() {
        Entry bomb = Entry.deflated("description.xml", new byte[12 << 20]);
        refused("inflates to more than 200 times", RawZip.of(bomb));
        // headers that make little of it change nothing
        bomb.size = 100;
        refused("inflates to more than 200 times", RawZip.of(bomb));
    }

    @Test
    void bombsBySize() {
        // 17 MiB that deflate only halves
        byte[] much = new byte[17 << 20];
        Random random = new Random(2);
        for (int i = 0; i < much.length; i++) {
            much[i] = (byte) ('a' + random.nextInt(16));
        }
        Entry bomb = Entry.deflated("description.xml", much);
        refused("longer than 16 MiB", RawZip.of(bomb));
        bomb.size = 100;
        refused("longer than 16 MiB", RawZip.of(bomb));
        Entry stored = Entry.stored("description.xml", "x".repeat(17 << 20));
        stored.size = 100;
        refused("longer than 16 MiB", RawZip.of(stored));
        Entry claims = Entry.deflated("description.xml", new byte[10]);
        claims.size = 4_000_000_000L;
        refused("longer than 16 MiB", RawZip.of(claims));
    }

    /** What is not asked for is not inflated. */
    @Test
    void aBombBesideTheDescriptionDoesNothing() {
        Entry bomb = Entry.deflated("models/3ds/lamp.3ds", new byte[12 << 20]);
        bomb.size = 4_000_000_000L;
        assertEquals(
                "Plain panel",
                good(RawZip.of(bomb, Entry.stored("description.xml", DESCRIPTION))).type().name());
    }

    @Test
    void archivesWithoutEnd() {
        InputStream endless =
                new InputStream() {
                    @Override
                    public int read() {
                        return 'P';
                    }

                    @Override
                    public int read(byte[] into, int at, int length) {
                        Arrays.fill(into, at, at + length, (byte) 'P');
                        return length;
                    }
                };
        GdtfReading.Bad bad = (GdtfReading.Bad) GdtfReader.read(endless);
        assertEquals("the file is longer than 64 MiB; export it without its 3D models", bad.text());
        InputStream broken =
                new InputStream() {
                    @Override
                    public int read() throws IOException {
                        throw new IOException("the stick is gone");
                    }

                    @Override
                    public int read(byte[] into, int at, int length) throws IOException {
                        throw new IOException("the stick is gone");
                    }
                };
        assertTrue(
                ((GdtfReading.Bad) GdtfReader.read(broken)).what().endsWith("the stick is gone"));
        assertEquals(
                "Plain panel",
                ((GdtfReading.Good) GdtfReader.read(new ByteArrayInputStream(gdtf(DESCRIPTION))))
                        .type()
                        .name());
    }

    @Test
    void tooManyEntries() {
        Map<String, String> files = new TreeMap<>();
        for (int i = 0; i < 5000; i++) {
            files.put("f" + i, "");
        }
        files.put("description.xml", DESCRIPTION);
        refused("has 5001 entries", zip(files));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "../description.xml",
                "a/../../b",
                "..",
                "/etc/passwd",
                "\\windows\\x",
                "..\\x",
                "C:\\x",
                "c:x",
                "a\0b",
            })
    void namesThatPointOutOfTheArchive(String name) {
        refused(
                "points out of the archive",
                RawZip.of(Entry.stored("description.xml", DESCRIPTION), Entry.stored(name, "x")));
    }

    @Test
    void anEntryWithoutName() {
        refused(
                "points out of the archive",
                RawZip.of(Entry.stored("description.xml", DESCRIPTION), Entry.stored("", "x")));
    }

    @Test
    void moreThanOneDescription() {
        Entry one = Entry.stored("description.xml", DESCRIPTION);
        Entry other = Entry.stored("description.xml", channels("<!-- other -->"));
        refused("has 2 files description.xml", RawZip.of(one, other));
        refused(
                "has 2 files description.xml",
                RawZip.of(one, Entry.stored("Description.XML", DESCRIPTION)));
    }

    @Test
    void descriptionsInFolders() {
        refused(
                "is 'panel/description.xml'",
                RawZip.of(Entry.stored("panel/description.xml", DESCRIPTION)));
        GdtfReading.Good reading =
                good(
                        RawZip.of(
                                Entry.stored("old/description.xml", "no XML"),
                                Entry.stored("description.xml", DESCRIPTION)));
        assertEquals("'old/description.xml' is not read", reading.notes().get(0).text());
    }

    @Test
    void otherZips() {
        refused("has no description.xml", zip(Map.of("readme.txt", "x")));
        refused("has no description.xml", zip(Map.of()));
        refused("packed around 'panel.gdtf'", zip(Map.of("panel.gdtf", "x")));
        refused("no zip archive", "<GDTF/>".getBytes(StandardCharsets.UTF_8));
        refused("no zip archive", new byte[0]);
    }

    @Test
    void lockedAndStrangelyPacked() {
        for (int flag : new int[] {1, 1 << 6, 1 << 13}) {
            Entry locked = Entry.stored("description.xml", DESCRIPTION);
            locked.flags = flag;
            refused("is encrypted", RawZip.of(locked));
        }
        Entry strange = Entry.stored("description.xml", DESCRIPTION);
        strange.method = 9;
        refused("is packed by method 9", RawZip.of(strange));
    }

    @Test
    void headersThatContradictEachOther() {
        Entry named = Entry.stored("description.xml", DESCRIPTION);
        named.localName = "description.xm_";
        refused("two headers", RawZip.of(named));
        Entry summed = Entry.stored("description.xml", DESCRIPTION);
        summed.crc ^= 1;
        refused("CRC-32", RawZip.of(summed));
        Entry longer = Entry.stored("description.xml", DESCRIPTION);
        longer.packedSize += 1000;
        refused("runs into the directory", RawZip.of(longer));
        Entry sized = Entry.stored("description.xml", DESCRIPTION);
        sized.size -= 1;
        refused("length", RawZip.of(sized));
        Entry huge = Entry.stored("description.xml", DESCRIPTION);
        huge.size = 0xFFFFFFFFL;
        huge.packedSize = 0xFFFFFFFFL;
        refused("ZIP64", RawZip.of(huge));
        Entry broken = Entry.stored("description.xml", "\u0007 no deflate");
        broken.method = 8;
        refused("cannot be inflated", RawZip.of(broken));
    }
}

package lookstep.protocols.image;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Stream;
import lookstep.protocols.Annotated;
import lookstep.protocols.image.Wholeness.Foreign;
import lookstep.protocols.image.Wholeness.Partial;
import lookstep.protocols.image.Wholeness.Whole;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Structure after ITU-T T.81 annex B and CIPA DC-007. */
class JpegStructureTest {
    @TempDir Path dir;

    static Stream<Arguments> small() throws IOException {
        byte[] plain = Pictures.encoded(24, 16, false);
        byte[] progressive = Pictures.encoded(24, 16, true);
        return Stream.of(
                Arguments.of("baseline", plain),
                Arguments.of("progressive", progressive),
                Arguments.of("awkward", Pictures.awkward()),
                Arguments.of("with a further picture", Pictures.withFurther(plain, progressive)),
                Arguments.of("with Exif", ExifWriter.insert(plain, ExifData.UNKNOWN)));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("small")
    void isWholeWithItsLastOctetAndNotBefore(String name, byte[] jpeg) {
        for (int cut = 0; cut < jpeg.length; cut++) {
            Wholeness found = JpegStructure.wholeness(Arrays.copyOf(jpeg, cut));
            assertInstanceOf(Partial.class, found, name + " cut at " + cut);
        }
        assertEquals(new Whole(jpeg.length), JpegStructure.wholeness(jpeg));
        // what follows belongs to no picture
        assertEquals(
                new Whole(jpeg.length),
                JpegStructure.wholeness(Arrays.copyOf(jpeg, jpeg.length + 1000)));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("small")
    void reservedRoomIsNotWhole(String name, byte[] jpeg) throws IOException {
        // a writer that makes the file as long as it will be and fills it from the front
        // of a further picture only the beginning is looked at: here the rule ends
        int mainEnd =
                name.equals("with a further picture")
                        ? jpeg.length - Pictures.encoded(24, 16, true).length
                        : jpeg.length;
        for (int cut = 0; cut < jpeg.length; cut++) {
            byte[] reserved = Arrays.copyOf(Arrays.copyOf(jpeg, cut), jpeg.length);
            Wholeness found = JpegStructure.wholeness(reserved);
            assertEquals(cut > mainEnd, found instanceof Whole, name + " filled to " + cut);
        }
    }

    @Test
    void furtherPictureMustBeIn() throws Exception {
        byte[] main = Pictures.encoded(24, 16, false);
        byte[] further = Pictures.encoded(16, 8, false);
        byte[] file = Pictures.withFurther(main, further);
        // the independent program sees the same two pictures in these octets
        Path path = Files.write(dir.resolve("two.jpg"), file);
        Map<String, String> words = ExifTool.read(path, "-ee", "-MPF:all");
        assertEquals("2", words.get("NumberOfImages"));
        assertTrue(words.get("MPImageLength").contains(String.valueOf(further.length)));
        assertTrue(words.get("MPImageStart").contains(String.valueOf(main.length + 90)));

        int mainEnd = main.length + 90;
        assertEquals((byte) 0xD9, file[mainEnd - 1]);
        for (int cut = mainEnd; cut < file.length; cut++) {
            assertEquals(
                    new Partial("a further picture in the file has not come yet"),
                    JpegStructure.wholeness(Arrays.copyOf(file, cut)));
        }
        assertEquals(new Whole(file.length), JpegStructure.wholeness(file));
        byte[] reserved = Arrays.copyOf(Arrays.copyOf(file, mainEnd), file.length);
        assertEquals(
                new Partial("a further picture in the file is not written yet"),
                JpegStructure.wholeness(reserved));
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void largeFileIsReadThroughASmallWindow(boolean progressive) throws Exception {
        byte[] jpeg = Pictures.encoded(700, 500, progressive);
        assertTrue(jpeg.length > 3 * 64 * 1024, "long enough to need several windows");
        Path path = Files.write(dir.resolve("large.jpg"), jpeg);
        try (SeekableByteChannel channel = Files.newByteChannel(path)) {
            assertEquals(new Whole(jpeg.length), JpegStructure.wholeness(channel));
            assertEquals(Optional.of(new JpegInfo(700, 500)), JpegInfo.read(channel));
        }
        Random random = new Random(5);
        for (int i = 0; i < 20; i++) {
            int cut = i == 0 ? jpeg.length - 1 : random.nextInt(jpeg.length);
            Files.write(path, Arrays.copyOf(jpeg, cut));
            try (SeekableByteChannel channel = Files.newByteChannel(path)) {
                assertInstanceOf(Partial.class, JpegStructure.wholeness(channel), "cut at " + cut);
            }
        }
    }

    @Test
    void channelMayGiveOneOctetAtATime() throws IOException {
        byte[] jpeg = Pictures.withFurther(Pictures.awkward(), Pictures.awkward());
        assertEquals(new Whole(jpeg.length), JpegStructure.wholeness(new Drip(jpeg, jpeg.length)));
        // a file that has become shorter since its size was taken
        for (int cut = 0; cut < Pictures.awkward().length; cut++) {
            assertInstanceOf(Partial.class, JpegStructure.wholeness(new Drip(jpeg, cut)));
        }
    }

    static Stream<Arguments> foreign() {
        return Stream.of(
                Arguments.of("words", "48656C6C6F"),
                Arguments.of("PNG", "89504E470D0A1A0A"),
                Arguments.of("no marker after the start", "FFD8 00"),
                Arguments.of("end without a picture", "FFD8 FFD9"),
                Arguments.of("segment shorter than its length field", "FFD8 FFE0 0001 00"),
                Arguments.of("no marker after a segment", "FFD8 FFE0 0002 1234"),
                Arguments.of("second start", "FFD8 FFD8 FFD9"),
                Arguments.of("reserved marker", "FFD8 FF02 0002"),
                Arguments.of("stuffed octet outside a scan", "FFD8 FF00 0002"),
                Arguments.of("scan without a frame", "FFD8 FFDA 0002 1234 FFD9"));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("foreign")
    void whatIsNoJpegIsForeign(String name, String hex) {
        assertInstanceOf(Foreign.class, JpegStructure.wholeness(Annotated.bytes(hex)), name);
        assertEquals(Optional.empty(), JpegInfo.read(Annotated.bytes(hex)), name);
    }

    static Stream<Arguments> brokenIndexes() {
        // each replaces octets of the index in a whole file; positions count from the file's start
        return Stream.of(
                Arguments.of("no byte order mark", 10, "0000"),
                Arguments.of("directory outside the segment", 14, "7FFFFFFF"),
                Arguments.of("directory on top of the header", 14, "00000000"),
                Arguments.of("more fields than there is room for", 18, "FFFF"),
                Arguments.of("entries outside the segment", 52, "FFFFFFF0"),
                Arguments.of("more entries than there is room for", 48, "FFFFFFF0"),
                Arguments.of("entries of unknown type", 46, "00FF"));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("brokenIndexes")
    void brokenIndexIsLeftOut(String name, int at, String hex) {
        byte[] main = Pictures.awkward();
        byte[] file = Pictures.withFurther(main, main);
        byte[] change = Annotated.bytes(hex);
        System.arraycopy(change, 0, file, at, change.length);
        Wholeness found = JpegStructure.wholeness(file);
        // where the entries can still be found they still count
        boolean counts = name.startsWith("more fields");
        assertEquals(new Whole(counts ? file.length : main.length + 90), found, name);
    }

    @Test
    void bitFlipsNeverThrow() {
        Random random = new Random(81);
        byte[] file = Pictures.withFurther(Pictures.awkward(), Pictures.awkward());
        int kinds = 0;
        for (int round = 0; round < 5_000; round++) {
            byte[] flipped = file.clone();
            for (int i = 0; i <= round % 4; i++) {
                flipped[random.nextInt(flipped.length)] ^= (byte) (1 << random.nextInt(8));
            }
            Wholeness found = JpegStructure.wholeness(flipped);
            if (found instanceof Whole whole) {
                assertTrue(whole.length() <= flipped.length);
                kinds |= 1;
            } else {
                kinds |= found instanceof Partial ? 2 : 4;
            }
        }
        assertEquals(7, kinds, "all three answers came up");
    }

    @Test
    void sizeIsReadAsSoonAsItIsThere() throws IOException {
        byte[] jpeg = Pictures.awkward();
        // up to and with SOF2, which ends after 41 octets
        assertEquals(Optional.of(new JpegInfo(24, 16)), JpegInfo.read(Arrays.copyOf(jpeg, 41)));
        assertEquals(Optional.empty(), JpegInfo.read(Arrays.copyOf(jpeg, 40)));
        assertEquals(
                Optional.of(new JpegInfo(33, 21)), JpegInfo.read(Pictures.encoded(33, 21, true)));
    }

    /** Gives one octet a read, and ends where it is told to, whatever size it states. */
    private static final class Drip implements SeekableByteChannel {
        private final byte[] bytes;
        private final int end;
        private int position;

        Drip(byte[] bytes, int end) {
            this.bytes = bytes;
            this.end = end;
        }

        @Override
        public int read(ByteBuffer into) {
            if (position >= end) {
                return -1;
            }
            into.put(bytes[position++]);
            return 1;
        }

        @Override
        public int write(ByteBuffer from) {
            throw new UnsupportedOperationException();
        }

        @Override
        public long position() {
            return position;
        }

        @Override
        public SeekableByteChannel position(long newPosition) {
            position = (int) newPosition;
            return this;
        }

        @Override
        public long size() {
            return bytes.length;
        }

        @Override
        public SeekableByteChannel truncate(long size) {
            throw new UnsupportedOperationException();
        }

        @Override
        public boolean isOpen() {
            return true;
        }

        @Override
        public void close() {
            // nothing to close
        }
    }
}

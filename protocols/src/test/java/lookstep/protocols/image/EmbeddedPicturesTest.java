package lookstep.protocols.image;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.drew.imaging.ImageMetadataReader;
import com.drew.metadata.Metadata;
import com.drew.metadata.exif.ExifIFD0Directory;
import com.drew.metadata.exif.ExifThumbnailDirectory;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import lookstep.protocols.Annotated;
import lookstep.protocols.image.EmbeddedPicture.Kind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** exiftool and metadata-extractor stand on the other side; hand-laid octets after TIFF 6.0. */
class EmbeddedPicturesTest {
    private static final ExifData DATA =
            ExifData.builder()
                    .bodySerial("0042")
                    .fNumber(4)
                    .orientation(6)
                    .takenAt(LocalDateTime.of(2031, 5, 2, 14, 3, 5))
                    .build();

    @TempDir Path dir;

    private static byte[] bytes(byte[] file, EmbeddedPicture picture) {
        return Arrays.copyOfRange(
                file, (int) picture.start(), (int) (picture.start() + picture.length()));
    }

    private static EmbeddedPicture only(EmbeddedPictures.Reading reading) {
        assertEquals(1, reading.pictures().size(), reading::toString);
        return reading.pictures().get(0);
    }

    /** A camera's file: Exif with a thumbnail, MPF with a large one. */
    private static byte[] cameraFile(byte[] thumbnail, byte[] large) throws IOException {
        return MpfWriter.append(
                ExifWriter.insert(Pictures.encoded(64, 48, false), DATA, Optional.of(thumbnail)),
                large);
    }

    @Test
    void findsThePictureThatAnIndexLaidOutByHandNames() throws IOException {
        byte[] main = Pictures.encoded(64, 48, false);
        byte[] further = Pictures.encoded(24, 16, true);
        byte[] file = Pictures.withFurther(main, further);
        EmbeddedPicture picture = only(EmbeddedPictures.of(file));
        assertEquals(
                new EmbeddedPicture(Kind.MPF_LARGE, main.length + 90, further.length, 24, 16),
                picture);
        assertArrayEquals(further, bytes(file, picture));
    }

    @Test
    void othersThanLargeThumbnailsAreLeftAlone() throws IOException {
        byte[] file =
                Pictures.withFurther(
                        Pictures.encoded(64, 48, false), Pictures.encoded(24, 16, false));
        // type of the second entry: SOI 2, APP2 4, "MPF" 4, header and directory 50, one entry 16
        int type = 2 + 4 + 4 + 50 + 16;
        assertEquals(0x00010002, ByteBuffer.wrap(file).getInt(type));
        for (String other : List.of("00020002", "00030000", "01010002")) {
            System.arraycopy(Annotated.bytes(other), 0, file, type, 4);
            assertEquals(
                    new EmbeddedPictures.Reading(List.of(), List.of()),
                    EmbeddedPictures.of(file),
                    other);
        }
        System.arraycopy(Annotated.bytes("00010005"), 0, file, type, 4);
        assertEquals(Kind.MPF_LARGE, only(EmbeddedPictures.of(file)).kind());
    }

    @Test
    void whatIsWrittenIsWhatOthersAndWeFind() throws Exception {
        byte[] thumbnail = Pictures.encoded(160, 120, false);
        byte[] large = Pictures.encoded(320, 240, false);
        byte[] file = cameraFile(thumbnail, large);
        Path path = Files.write(dir.resolve("a.jpg"), file);
        assertArrayEquals(thumbnail, ExifTool.run(path, "-b", "-ThumbnailImage"));
        assertArrayEquals(large, ExifTool.run(path, "-b", "-PreviewImage"));
        Map<String, String> words = ExifTool.read(path, "-validate", "-warning", "-all");
        assertFalse(words.containsKey("Warning"), words::toString);
        assertEquals("0042", words.get("SerialNumber"));
        assertEquals("196608 | 65537", words.get("MPImageType"));

        try (SeekableByteChannel channel = Files.newByteChannel(path)) {
            EmbeddedPictures.Reading reading = EmbeddedPictures.of(channel);
            assertEquals(List.of(), reading.notes());
            assertEquals(2, reading.pictures().size());
            EmbeddedPicture first = reading.pictures().get(0);
            assertEquals(Kind.EXIF_THUMBNAIL, first.kind());
            assertEquals(160, first.width());
            assertEquals(120, first.height());
            assertArrayEquals(thumbnail, bytes(file, first));
            EmbeddedPicture second = reading.pictures().get(1);
            assertEquals(Kind.MPF_LARGE, second.kind());
            assertEquals(320, second.longSide());
            assertArrayEquals(large, bytes(file, second));
            assertEquals(new Wholeness.Whole(file.length), JpegStructure.wholeness(channel));
        }

        Metadata metadata = ImageMetadataReader.readMetadata(new ByteArrayInputStream(file));
        ExifThumbnailDirectory ifd1 =
                metadata.getFirstDirectoryOfType(ExifThumbnailDirectory.class);
        // counted from the TIFF header, after SOI, marker, length and "Exif" with two NULs
        int at = 12 + ifd1.getInt(ExifThumbnailDirectory.TAG_THUMBNAIL_OFFSET);
        int length = ifd1.getInt(ExifThumbnailDirectory.TAG_THUMBNAIL_LENGTH);
        assertArrayEquals(thumbnail, Arrays.copyOfRange(file, at, at + length));
    }

    @Test
    void aThumbnailThatExiftoolPutInIsFound() throws Exception {
        byte[] thumbnail = Pictures.encoded(96, 64, false);
        Path small = Files.write(dir.resolve("small.jpg"), thumbnail);
        Path path = Files.write(dir.resolve("b.jpg"), Pictures.encoded(64, 48, false));
        ExifTool.run(path, "-overwrite_original", "-ThumbnailImage<=" + small);
        byte[] file = Files.readAllBytes(path);
        EmbeddedPicture found = only(EmbeddedPictures.of(file));
        assertEquals(Kind.EXIF_THUMBNAIL, found.kind());
        assertArrayEquals(thumbnail, bytes(file, found));
    }

    @Test
    void aRawFileIsReadByOthersAndUs() throws Exception {
        byte[] preview = Pictures.encoded(320, 240, false);
        byte[] sensor = new byte[80 * 60];
        new Random(7).nextBytes(sensor);
        byte[] file = DngWriter.write(DATA, preview, 80, 60, sensor);
        Path path = Files.write(dir.resolve("a.DNG"), file);
        assertArrayEquals(preview, ExifTool.run(path, "-b", "-PreviewImage"));
        Map<String, String> words = ExifTool.read(path);
        assertEquals("DNG", words.get("FileType"));
        assertFalse(words.containsKey("Warning"), words::toString);
        assertEquals("6", words.get("Orientation"));
        assertEquals("4", words.get("FNumber"));
        assertEquals("80", words.get("ImageWidth").substring(words.get("ImageWidth").length() - 2));

        Metadata metadata = ImageMetadataReader.readMetadata(new ByteArrayInputStream(file));
        ExifIFD0Directory ifd0 = metadata.getFirstDirectoryOfType(ExifIFD0Directory.class);
        int at = ifd0.getInt(0x0111);
        assertArrayEquals(preview, Arrays.copyOfRange(file, at, at + ifd0.getInt(0x0117)));

        EmbeddedPicture found = only(EmbeddedPictures.of(file));
        assertEquals(Kind.RAW_PREVIEW, found.kind());
        assertArrayEquals(preview, bytes(file, found));
        ExifData read = ExifReader.read(file).data();
        assertEquals(6, read.orientation());
        assertEquals(4, read.fNumber().orElseThrow());
        assertEquals("0042", read.bodySerial().orElseThrow());
        assertEquals(DATA.takenAt(), read.takenAt());
        assertThrows(
                IllegalArgumentException.class,
                () -> DngWriter.write(DATA, preview, 80, 61, sensor));
    }

    /**
     * Most significant octet first: IFD0 with a JPEG by its offset, a SubIFD with a lossless strip
     * and one with a JPEG strip, all at known places.
     */
    private static byte[] raw(byte[] preview, byte[] lossless, byte[] strip) {
        int at = 8 + 30 + 2 * 54 + 8;
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        // IFD0: 2 + 3 x 12 + 4 = 42 octets, from 8; its SubIFDs' offsets at 50, the SubIFDs at 58
        int first = 58 + 2 * 54;
        assertEquals(at + 12, first);
        out.writeBytes(
                Annotated.bytes(
                        """
                        4D4D 002A 00000008          # most significant first, 42, directory at 8
                        0003                        # 8: three fields
                        014A 0004 00000002 00000032 # SubIFDs: two LONGs at 50
                        0201 0004 00000001 %08X     # JPEGInterchangeFormat
                        0202 0004 00000001 %08X     # JPEGInterchangeFormatLength
                        00000000                    # no further directory
                        0000003A 00000070           # 50: SubIFDs at 58 and 112
                        0004                        # 58: four fields
                        0103 0003 00000001 0007 0000 # Compression 7
                        0106 0003 00000001 0006 0000 # YCbCr
                        0111 0004 00000001 %08X     # StripOffsets
                        0117 0004 00000001 %08X     # StripByteCounts
                        00000000
                        0004                        # 112: four fields
                        0103 0003 00000001 0006 0000 # Compression 6
                        0106 0003 00000001 0002 0000 # RGB
                        0111 0004 00000001 %08X     # StripOffsets
                        0117 0004 00000001 %08X     # StripByteCounts
                        00000000
                        """
                                .formatted(
                                        first,
                                        preview.length,
                                        first + preview.length,
                                        lossless.length,
                                        first + preview.length + lossless.length,
                                        strip.length)));
        assertEquals(first, out.size());
        out.writeBytes(preview);
        out.writeBytes(lossless);
        out.writeBytes(strip);
        return out.toByteArray();
    }

    private static byte[] raw() throws IOException {
        byte[] lossless = Pictures.awkward();
        // SOF2 becomes SOF3, lossless
        lossless[29] = (byte) 0xC3;
        return raw(Pictures.encoded(64, 48, false), lossless, Pictures.encoded(24, 16, true));
    }

    @Test
    void aLosslessStripIsNoPreview() throws IOException {
        byte[] awkward = Pictures.awkward();
        assertEquals((byte) 0xC2, awkward[29]);
        byte[] file = raw();
        EmbeddedPictures.Reading reading = EmbeddedPictures.of(file);
        assertEquals(2, reading.pictures().size(), reading::toString);
        assertEquals(
                List.of(64, 24), reading.pictures().stream().map(EmbeddedPicture::width).toList());
        assertArrayEquals(Pictures.encoded(24, 16, true), bytes(file, reading.pictures().get(1)));
        assertTrue(
                reading.notes().stream().anyMatch(note -> note.contains("SOF3")),
                reading.notes()::toString);
    }

    /** Places as they were found in public files; the rest is laid out here. */
    @Test
    void twoKindsThatAreNotQuiteTiff() throws IOException {
        byte[] preview = ExifWriter.insert(Pictures.encoded(64, 48, false), DATA);
        ByteBuffer raf = ByteBuffer.allocate(200 + preview.length + 50);
        raf.put(8, "CCD-RAW ".getBytes(java.nio.charset.StandardCharsets.US_ASCII));
        raf.putInt(84, 200).putInt(88, preview.length).put(200, preview);
        EmbeddedPicture found = only(EmbeddedPictures.of(raf.array()));
        assertEquals(Kind.RAW_PREVIEW, found.kind());
        assertArrayEquals(preview, bytes(raf.array(), found));
        assertEquals(6, ExifReader.read(raf.array()).data().orientation());

        ByteArrayOutputStream rw2 = new ByteArrayOutputStream();
        rw2.writeBytes(
                Annotated.bytes(
                        """
                        4949 5500 08000000            # least significant first, 0x55
                        0200                          # two fields
                        2E00 0700 %02X%02X0000 26000000 # a JPEG as its value, at 38
                        1201 0300 01000000 0800 0000  # Orientation 8
                        00000000
                        """
                                .formatted(preview.length & 0xFF, preview.length >> 8)));
        rw2.writeBytes(preview);
        found = only(EmbeddedPictures.of(rw2.toByteArray()));
        assertEquals(38, found.start());
        assertArrayEquals(preview, bytes(rw2.toByteArray(), found));
        assertEquals(8, ExifReader.read(rw2.toByteArray()).data().orientation());
        // a head that leads to itself
        raf.putInt(84, 0).putInt(88, raf.capacity());
        assertEquals(List.of(), EmbeddedPictures.of(raf.array()).pictures());
        assertEquals(ExifData.UNKNOWN, ExifReader.read(raf.array()).data());
        raf.putInt(84, 200).putInt(88, preview.length);
        for (int cut = 0; cut < raf.capacity(); cut += 7) {
            checkInside(Arrays.copyOf(raf.array(), cut));
        }
    }

    @Test
    void loopsEnd() throws IOException {
        byte[] file = raw();
        // IFD0 follows itself
        System.arraycopy(Annotated.bytes("00000008"), 0, file, 46, 4);
        // the second SubIFD is the first again
        System.arraycopy(Annotated.bytes("0000003A"), 0, file, 54, 4);
        EmbeddedPictures.Reading reading = EmbeddedPictures.of(file);
        assertEquals(1, reading.pictures().size());
        assertTrue(
                reading.notes().contains("the directory at offset 8 is named twice"),
                reading.notes()::toString);
        assertTrue(
                reading.notes().contains("the directory at offset 58 is named twice"),
                reading.notes()::toString);
    }

    @Test
    void aLongChainEnds() {
        // directories of one field, each followed by the next: far more than any camera writes
        ByteBuffer file = ByteBuffer.allocate(8 + 5000 * 18);
        file.put(Annotated.bytes("4D4D 002A 00000008"));
        for (int i = 0; i < 5000; i++) {
            file.put(Annotated.bytes("0001 0100 0003 00000001 0001 0000"));
            file.putInt(8 + (i + 1) * 18);
        }
        EmbeddedPictures.Reading reading = EmbeddedPictures.of(file.array());
        assertEquals(List.of(), reading.pictures());
        assertTrue(
                reading.notes().get(reading.notes().size() - 1).startsWith("more than 64"),
                reading.notes()::toString);
    }

    @Test
    void whatLeadsOutOfTheFileIsANote() throws IOException {
        byte[] file = raw();
        // JPEGInterchangeFormat, whose value is at 30
        System.arraycopy(Annotated.bytes("FFFFFFF0"), 0, file, 30, 4);
        EmbeddedPictures.Reading reading = EmbeddedPictures.of(file);
        assertEquals(1, reading.pictures().size());
        assertTrue(
                reading.notes().contains("the picture at octet 4294967280 leads out of the file"),
                reading.notes()::toString);
    }

    @Test
    void cutsAndBitFlipsNeverThrowAndNothingLeadsOutside() throws IOException {
        Random random = new Random(2012);
        for (byte[] file :
                new byte[][] {
                    raw(),
                    cameraFile(Pictures.encoded(32, 24, false), Pictures.encoded(48, 32, false))
                }) {
            for (int percent = 0; percent < 100; percent++) {
                checkInside(Arrays.copyOf(file, file.length * percent / 100));
            }
            for (int round = 0; round < 4000; round++) {
                byte[] flipped = file.clone();
                for (int i = 0; i <= round % 4; i++) {
                    // the structure is at the front
                    int at = random.nextInt(round % 2 == 0 ? 400 : flipped.length);
                    flipped[at] ^= (byte) (1 << random.nextInt(8));
                }
                checkInside(flipped);
            }
        }
    }

    private static void checkInside(byte[] file) {
        for (EmbeddedPicture picture : EmbeddedPictures.of(file).pictures()) {
            assertTrue(picture.start() > 0 && picture.length() > 0);
            assertTrue(picture.start() + picture.length() <= file.length);
            assertTrue(picture.width() > 0 && picture.height() > 0);
            BareJpeg.of(bytes(file, picture), 1, List.of());
        }
        ExifReader.read(file);
        TiffStructure.wholeness(file);
        JpegStructure.wholeness(file);
    }

    /** Offsets up to 4 GiB in a file without data between; only directories and heads are read. */
    @Test
    void aHugeFileIsNotReadIntoMemory() throws IOException {
        byte[] preview = Pictures.encoded(64, 48, false);
        long at = 3_000_000_000L;
        ByteBuffer head =
                ByteBuffer.wrap(
                        Annotated.bytes(
                                """
                                4D4D 002A 00000008
                                0002
                                0201 0004 00000001 %08X
                                0202 0004 00000001 %08X
                                00000000
                                """
                                        .formatted(at, preview.length)));
        Path path = dir.resolve("huge.nef");
        try (SeekableByteChannel out =
                Files.newByteChannel(
                        path,
                        StandardOpenOption.CREATE_NEW,
                        StandardOpenOption.WRITE,
                        StandardOpenOption.SPARSE)) {
            out.write(head);
            out.position(at);
            out.write(ByteBuffer.wrap(preview));
        }
        try (SeekableByteChannel channel = Files.newByteChannel(path)) {
            var threads =
                    (com.sun.management.ThreadMXBean)
                            java.lang.management.ManagementFactory.getThreadMXBean();
            long before = threads.getCurrentThreadAllocatedBytes();
            EmbeddedPicture found = only(EmbeddedPictures.of(channel));
            Wholeness wholeness = TiffStructure.wholeness(channel);
            ExifReader.read(channel);
            long allocated = threads.getCurrentThreadAllocatedBytes() - before;
            assertEquals(at, found.start());
            assertEquals(new Wholeness.Whole(at + preview.length), wholeness);
            assertTrue(allocated < 4_000_000, allocated + " bytes");
        }
    }

    /** A text of a gigabyte and a list of offsets as long. */
    @Test
    void hugeCountsDoNotFillTheMemory() throws IOException {
        Path path = dir.resolve("counts.tif");
        try (SeekableByteChannel out =
                Files.newByteChannel(
                        path,
                        StandardOpenOption.CREATE_NEW,
                        StandardOpenOption.WRITE,
                        StandardOpenOption.SPARSE)) {
            out.write(
                    ByteBuffer.wrap(
                            Annotated.bytes(
                                    """
                                    4D4D 002A 00000008
                                    0003
                                    0110 0002 40000000 00000100 # Model: a gigabyte of text
                                    0111 0004 10000000 00000100 # StripOffsets: a gigabyte
                                    014A 0004 10000000 00000100 # SubIFDs: a gigabyte
                                    00000000
                                    """)));
            out.position(0x40000200L);
            out.write(ByteBuffer.wrap(new byte[1]));
        }
        try (SeekableByteChannel channel = Files.newByteChannel(path)) {
            var threads =
                    (com.sun.management.ThreadMXBean)
                            java.lang.management.ManagementFactory.getThreadMXBean();
            long before = threads.getCurrentThreadAllocatedBytes();
            EmbeddedPictures.of(channel);
            TiffStructure.wholeness(channel);
            ExifReader.read(channel);
            long allocated = threads.getCurrentThreadAllocatedBytes() - before;
            assertTrue(allocated < 8_000_000, allocated + " bytes");
        }
    }
}

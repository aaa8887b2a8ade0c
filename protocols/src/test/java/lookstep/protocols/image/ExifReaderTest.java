package lookstep.protocols.image;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Stream;
import lookstep.protocols.Annotated;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** What is read, from octets laid out by hand after CIPA DC-008 and TIFF 6.0. */
class ExifReaderTest {
    @TempDir Path dir;

    /** Most significant octet first, unlike what we write; offsets from the byte order mark. */
    private static final String BLOCK =
            """
            4D4D 002A 00000008            # most significant first, 42, directory at 8
            0003                          # 8: three fields
            0110 0002 00000007 000000F8   # 10: Model: ASCII, 7, at 248
            0112 0003 00000001 0003 0000  # 22: Orientation: SHORT, 3
            8769 0004 00000001 00000032   # 34: Exif directory at 50
            00000000                      # 46
            000A                          # 50: ten fields
            829A 0005 00000001 000000AE   # 52: ExposureTime, at 174
            829D 0005 00000001 000000B6   # 64: FNumber, at 182
            8827 0003 00000001 0320 0000  # 76: sensitivity 800
            9003 0002 00000014 000000BE   # 88: DateTimeOriginal, at 190
            9011 0002 00000007 000000D2   # 100: OffsetTimeOriginal, at 210
            9206 0005 00000001 000000DA   # 112: SubjectDistance, at 218
            920A 0005 00000001 000000E2   # 124: FocalLength, at 226
            9286 0007 0000001C 00000100   # 136: UserComment, 28, at 256
            9291 0002 00000002 35000000   # 148: SubSecTimeOriginal "5"
            A434 0002 0000000D 000000EA   # 160: LensModel, 13, at 234
            0000                          # 172: (next directory, cut short by the values)
            00000001 000000FA             # 174: 1/250
            0000001C 0000000A             # 182: 28/10
            323032353A30323A32382032333A35393A353900 # 190: 2025:02:28 23:59:59
            2B30353A343500 00             # 210: +05:45
            FFFFFFFF 00000001             # 218: infinite
            00000019 00000001             # 226: 25/1
            3235206D6D20662F312E342000 00 # 234: "25 mm f/1.4 "
            526F756E643100 00             # 248: "Round1"
            4153434949000000              # 256: character code ASCII
            77686974652062616C616E63652034353030204B # 264: white balance 4500 K
            """;

    private static final ExifData EXPECTED = expected().build();

    private static ExifData.Builder expected() {
        return ExifData.builder()
                .lensModel("25 mm f/1.4")
                .bodyModel("Round1")
                .fNumber(2.8)
                .seconds(0.004)
                .iso(800)
                .focalMillimetres(25)
                .subjectDistanceMetres(Double.POSITIVE_INFINITY)
                .whiteBalanceKelvin(4500)
                .orientation(3)
                .takenAt(LocalDateTime.of(2025, 2, 28, 23, 59, 59, 500_000_000))
                .zone(ZoneOffset.ofHoursMinutes(5, 45));
    }

    private static byte[] block() {
        return Annotated.bytes(BLOCK);
    }

    /** A JPEG file with that block in its Exif segment. */
    private static byte[] file(byte[] block) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.writeBytes(Annotated.bytes("FFD8 FFE1 %04X 45786966 0000".formatted(8 + block.length)));
        out.writeBytes(block);
        byte[] rest = Pictures.awkward();
        out.write(rest, 2, rest.length - 2);
        return out.toByteArray();
    }

    @Test
    void readsWhatTheOctetsSay() throws Exception {
        assertEquals(284, block().length);
        assertEquals(new ExifReading(EXPECTED, List.of()), ExifReader.read(file(block())));
        Path path = Files.write(dir.resolve("a.jpg"), file(block()));
        try (SeekableByteChannel channel = Files.newByteChannel(path)) {
            assertEquals(EXPECTED, ExifReader.read(channel).data());
        }
        // and the octets above are as the independent program understands them
        var words = ExifTool.read(path);
        assertEquals("0.004", words.get("ExposureTime"));
        assertEquals("25 mm f/1.4", words.get("LensModel").strip());
        assertEquals("white balance 4500 K", words.get("UserComment"));
        assertEquals("2025:02:28 23:59:59.5+05:45", words.get("SubSecDateTimeOriginal"));
    }

    /** Written by exiftool, into a JPEG and into a file that is built on TIFF. */
    @Test
    void readsWhichBodyItWas() throws Exception {
        Path jpeg = Files.write(dir.resolve("a.jpg"), Pictures.encoded(24, 16, false));
        Path tiff = Files.write(dir.resolve("a.tif"), Pictures.tiff(24, 16));
        for (Path file : List.of(jpeg, tiff)) {
            ExifTool.run(
                    file,
                    "-overwrite_original",
                    "-Make=Box works",
                    "-Model=Box 2",
                    "-ExifIFD:SerialNumber=0042-7",
                    "-ExifIFD:FNumber=5.6",
                    "-ExifIFD:DateTimeOriginal=2031:05:02 14:03:05",
                    "-IFD0:Orientation#=8");
            try (SeekableByteChannel channel = Files.newByteChannel(file)) {
                ExifReading reading = ExifReader.read(channel);
                assertEquals(List.of(), reading.notes());
                ExifData data = reading.data();
                assertEquals("Box works", data.bodyMake().orElseThrow());
                assertEquals("Box 2", data.bodyModel().orElseThrow());
                assertEquals("0042-7", data.bodySerial().orElseThrow());
                assertEquals(5.6, data.fNumber().orElseThrow(), 1e-9);
                assertEquals(LocalDateTime.of(2031, 5, 2, 14, 3, 5), data.takenAt().orElseThrow());
                assertEquals(8, data.orientation());
            }
        }
    }

    /** WhiteBalance of CIPA DC-008, written by exiftool: 0 automatic, 1 manual. */
    @Test
    void readsWhetherTheWhiteBalanceIsAutomatic() throws Exception {
        Path file = Files.write(dir.resolve("a.jpg"), Pictures.encoded(24, 16, false));
        ExifTool.run(file, "-overwrite_original", "-Make=Box works");
        assertEquals(
                Optional.empty(),
                ExifReader.read(Files.readAllBytes(file)).data().whiteBalanceAutomatic());
        ExifTool.run(file, "-overwrite_original", "-ExifIFD:WhiteBalance#=0");
        ExifReading automatic = ExifReader.read(Files.readAllBytes(file));
        assertEquals(List.of(), automatic.notes());
        assertEquals(Optional.of(true), automatic.data().whiteBalanceAutomatic());
        ExifTool.run(file, "-overwrite_original", "-ExifIFD:WhiteBalance#=1");
        assertEquals(
                Optional.of(false),
                ExifReader.read(Files.readAllBytes(file)).data().whiteBalanceAutomatic());
        ExifTool.run(file, "-overwrite_original", "-ExifIFD:WhiteBalance#=7");
        ExifReading odd = ExifReader.read(Files.readAllBytes(file));
        assertEquals(List.of("white balance 7: must be 0 or 1"), odd.notes());
        assertEquals(Optional.empty(), odd.data().whiteBalanceAutomatic());
    }

    static Stream<Arguments> bad() {
        // position in the block, what stands there instead, the note
        return Stream.of(
                Arguments.of("orientation 9", 30, "0009", "orientation 9: must be 1 to 8"),
                Arguments.of("divided by nothing", 186, "00000000", "f-number: 28/0"),
                Arguments.of("nothing divided", 226, "00000000", "focal length: 0/1"),
                Arguments.of("text as a number", 78, "0002", "sensitivity: type 2 instead"),
                Arguments.of("sensitivity 0", 84, "0000", "sensitivity 0"),
                Arguments.of("no such day", 196, "3330", "time taken: '2025:"),
                Arguments.of("no zone", 210, "2A", "time zone: '*05:45' is none"),
                Arguments.of("no digit", 156, "78", "fraction of a second: 'x'"),
                Arguments.of("unknown type", 126, "0063", "tag 0x920A: unknown type 99"),
                Arguments.of("value outside", 72, "FFFFFFFF", "tag 0x829D: its value lies outside"),
                Arguments.of("huge count", 164, "FFFFFFFF", "tag 0xA434: its value lies outside"),
                Arguments.of("directory outside", 42, "0000FFFF", "a directory at offset 65535"),
                Arguments.of("too many fields", 50, "FFFF", "a directory of 65535 fields is cut"),
                Arguments.of("directory in itself", 42, "00000008", ""),
                Arguments.of("no number 42", 2, "002B", "the Exif has no byte order mark"));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("bad")
    void badPartIsANoteAndTheRestIsRead(String name, int at, String hex, String note) {
        byte[] block = block();
        byte[] change = Annotated.bytes(hex);
        System.arraycopy(change, 0, block, at, change.length);
        ExifReading reading = ExifReader.read(file(block));
        assertTrue(
                note.isEmpty() || reading.notes().stream().anyMatch(n -> n.startsWith(note)),
                () -> name + ": " + reading.notes());
        // with too many fields said to be there, those that are there are still read
        assertEquals(name.equals("too many fields"), EXPECTED.equals(reading.data()));
        if (!name.equals("no number 42")) {
            assertEquals(EXPECTED.bodyModel(), reading.data().bodyModel());
        }
        if (at >= 64 && at != 72) {
            assertEquals(EXPECTED.seconds(), reading.data().seconds());
        }
    }

    @Test
    void unknownDistanceAndUnsetClockAreNoFaults() {
        byte[] block = block();
        Arrays.fill(block, 218, 222, (byte) 0); // distance 0/1: not known
        Arrays.fill(block, 190, 209, (byte) ' '); // time: blanks
        ExifReading reading = ExifReader.read(file(block));
        assertEquals(List.of(), reading.notes());
        assertTrue(reading.data().subjectDistanceMetres().isEmpty());
        assertTrue(reading.data().takenAt().isEmpty());
    }

    @Test
    void otherCommentsSayNothingOfWhiteBalance() {
        byte[] block = block();
        block[264] = 'b'; // "bhite balance"
        ExifReading reading = ExifReader.read(file(block));
        assertEquals(List.of(), reading.notes());
        assertTrue(reading.data().whiteBalanceKelvin().isEmpty());
    }

    @Test
    void fileWithoutExifSaysSo() throws IOException {
        assertEquals(
                new ExifReading(ExifData.UNKNOWN, List.of("there is no Exif")),
                ExifReader.read(Pictures.encoded(24, 16, false)));
        assertEquals(
                List.of("the file is empty", "there is no Exif"),
                ExifReader.read(new byte[0]).notes());
    }

    @Test
    void isReadFromTheHeadOfAFile() {
        byte[] file = file(block());
        byte[] whole = ExifWriter.insert(Pictures.awkward(), EXPECTED);
        for (byte[] jpeg : new byte[][] {file, whole}) {
            int segmentEnd = 4 + ((jpeg[4] & 0xFF) << 8 | (jpeg[5] & 0xFF));
            for (int cut = 0; cut <= jpeg.length; cut++) {
                ExifReading reading = ExifReader.read(Arrays.copyOf(jpeg, cut));
                // the writer names a maker where none is known
                ExifData all = jpeg == file ? EXPECTED : expected().bodyMake("Lookstep").build();
                assertEquals(
                        cut < segmentEnd ? ExifData.UNKNOWN : all, reading.data(), "cut at " + cut);
            }
        }
    }

    @Test
    void bitFlipsNeverThrow() {
        Random random = new Random(2008);
        int noted = 0;
        for (byte[] file :
                new byte[][] {file(block()), ExifWriter.insert(Pictures.awkward(), EXPECTED)}) {
            for (int round = 0; round < 5_000; round++) {
                byte[] flipped = file.clone();
                for (int i = 0; i <= round % 5; i++) {
                    flipped[random.nextInt(flipped.length)] ^= (byte) (1 << random.nextInt(8));
                }
                if (!ExifReader.read(flipped).notes().isEmpty()) {
                    noted++;
                }
            }
        }
        assertTrue(noted > 1000, "only " + noted + " were noticed");
    }

    @Test
    void manySmallSegmentsDoNotFillTheMemory() {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.writeBytes(Annotated.bytes("FFD8"));
        for (int i = 0; i < 5000; i++) {
            out.writeBytes(Annotated.bytes("FFFE 0002"));
        }
        assertEquals(
                List.of("more than 1000 segments", "there is no Exif"),
                ExifReader.read(out.toByteArray()).notes());
    }

    @Test
    void dataRefusesWhatNoCameraSays() {
        ExifData.Builder[] wrong = {
            ExifData.builder().fNumber(0),
            ExifData.builder().seconds(-1),
            ExifData.builder().seconds(Double.NaN),
            ExifData.builder().focalMillimetres(Double.POSITIVE_INFINITY),
            ExifData.builder().iso(0),
            ExifData.builder().orientation(9),
            ExifData.builder().orientation(0),
        };
        for (ExifData.Builder builder : wrong) {
            assertThrows(IllegalArgumentException.class, builder::build);
        }
    }
}

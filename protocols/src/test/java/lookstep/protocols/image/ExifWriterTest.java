package lookstep.protocols.image;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.drew.imaging.ImageMetadataReader;
import com.drew.metadata.Metadata;
import com.drew.metadata.exif.ExifIFD0Directory;
import com.drew.metadata.exif.ExifSubIFDDirectory;
import java.io.ByteArrayInputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.HexFormat;
import java.util.Map;
import javax.imageio.ImageIO;
import lookstep.protocols.Annotated;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is written, against octets worked out by hand and against two independent readers. */
class ExifWriterTest {
    @TempDir Path dir;

    private static final ExifData ALL =
            ExifData.builder()
                    .lensModel("35-105 mm f/4")
                    .bodyModel("stage camera")
                    .fNumber(5.6)
                    .seconds(1.0 / 125)
                    .iso(1600)
                    .focalMillimetres(52.5)
                    .subjectDistanceMetres(4.2)
                    .whiteBalanceKelvin(3000)
                    .orientation(6)
                    .takenAt(LocalDateTime.of(2025, 3, 9, 20, 15, 4, 87_900_000))
                    .zone(ZoneOffset.ofHoursMinutes(-3, -30))
                    .build();

    @Test
    void octetsAreAsTheStandardsLayThemOut() {
        ExifData data = ExifData.builder().bodyModel("Box").seconds(0.008).orientation(8).build();
        // TIFF 6.0 and CIPA DC-008; offsets count from the byte order mark
        byte[] expected =
                Annotated.bytes(
                        """
                        FFE1 00DA             # APP1, 218 octets with this length
                        45786966 0000         # "Exif" NUL NUL
                        4949 2A00 08000000    # least significant first, 42, directory at 8
                        0800                  # 8: eight fields
                        0F01 0200 09000000 6E000000 # Make: ASCII, 9, at 110
                        1001 0200 04000000 426F7800 # Model: ASCII, 4, "Box" NUL
                        1201 0300 01000000 08000000 # Orientation: SHORT, 8
                        1A01 0500 01000000 78000000 # XResolution: RATIONAL, at 120
                        1B01 0500 01000000 80000000 # YResolution: RATIONAL, at 128
                        2801 0300 01000000 02000000 # ResolutionUnit: SHORT, 2 = inch
                        1302 0300 01000000 01000000 # YCbCrPositioning: SHORT, 1 = centred
                        6987 0400 01000000 88000000 # Exif directory: LONG, at 136
                        00000000              # no further directory
                        4C6F6F6B73746570 00 00 # 110: "Lookstep" NUL, one to be even
                        48000000 01000000     # 120: 72/1
                        48000000 01000000     # 128: 72/1
                        0500                  # 136: five fields
                        9A82 0500 01000000 CA000000 # ExposureTime: RATIONAL, at 202
                        0090 0700 04000000 30323331 # ExifVersion: "0231"
                        0191 0700 04000000 01020300 # ComponentsConfiguration: Y Cb Cr
                        00A0 0700 04000000 30313030 # FlashpixVersion: "0100"
                        01A0 0300 01000000 01000000 # ColorSpace: SHORT, 1 = sRGB
                        00000000              # no further directory
                        01000000 7D000000     # 202: 1/125
                        """);
        byte[] written = ExifWriter.app1(data);
        assertEquals(HexFormat.of().formatHex(expected), HexFormat.of().formatHex(written));
    }

    @Test
    void exifToolReadsEveryTag() throws Exception {
        Path file =
                Files.write(
                        dir.resolve("a.jpg"),
                        ExifWriter.insert(Pictures.encoded(24, 16, false), ALL));
        Map<String, String> words = ExifTool.read(file, "-Exif:all");
        Map<String, String> expected =
                Map.ofEntries(
                        Map.entry("Make", "Lookstep"),
                        Map.entry("Model", "stage camera"),
                        Map.entry("Orientation", "6"),
                        Map.entry("XResolution", "72"),
                        Map.entry("YResolution", "72"),
                        Map.entry("ResolutionUnit", "2"),
                        Map.entry("YCbCrPositioning", "1"),
                        Map.entry("ExposureTime", "0.008"),
                        Map.entry("FNumber", "5.6"),
                        Map.entry("ISO", "1600"),
                        Map.entry("ExifVersion", "0231"),
                        Map.entry("DateTimeOriginal", "2025:03:09 20:15:04"),
                        Map.entry("CreateDate", "2025:03:09 20:15:04"),
                        Map.entry("OffsetTimeOriginal", "-03:30"),
                        Map.entry("ComponentsConfiguration", "1 2 3 0"),
                        Map.entry("SubjectDistance", "4.2"),
                        Map.entry("FocalLength", "52.5"),
                        Map.entry("UserComment", "white balance 3000 K"),
                        Map.entry("SubSecTimeOriginal", "087"),
                        Map.entry("FlashpixVersion", "0100"),
                        Map.entry("ColorSpace", "1"),
                        Map.entry("ExifImageWidth", "24"),
                        Map.entry("ExifImageHeight", "16"),
                        Map.entry("WhiteBalance", "1"),
                        Map.entry("LensModel", "35-105 mm f/4"));
        assertEquals(expected, words);
        assertEquals(
                "0 0 0",
                ExifTool.read(file, "-validate").get("Validate"),
                "no errors, no warnings");
    }

    @Test
    void otherReaderAgrees() throws Exception {
        byte[] jpeg = ExifWriter.insert(Pictures.encoded(24, 16, true), ALL);
        Metadata metadata = ImageMetadataReader.readMetadata(new ByteArrayInputStream(jpeg));
        metadata.getDirectories()
                .forEach(directory -> assertFalse(directory.hasErrors(), directory::toString));
        ExifIFD0Directory first = metadata.getFirstDirectoryOfType(ExifIFD0Directory.class);
        assertEquals("Lookstep", first.getString(ExifIFD0Directory.TAG_MAKE));
        assertEquals("stage camera", first.getString(ExifIFD0Directory.TAG_MODEL));
        assertEquals(6, first.getInt(ExifIFD0Directory.TAG_ORIENTATION));
        ExifSubIFDDirectory exif = metadata.getFirstDirectoryOfType(ExifSubIFDDirectory.class);
        assertEquals(5.6, exif.getDouble(ExifSubIFDDirectory.TAG_FNUMBER), 1e-12);
        assertEquals(0.008, exif.getDouble(ExifSubIFDDirectory.TAG_EXPOSURE_TIME), 1e-12);
        assertEquals(1600, exif.getInt(ExifSubIFDDirectory.TAG_ISO_EQUIVALENT));
        assertEquals(52.5, exif.getDouble(ExifSubIFDDirectory.TAG_FOCAL_LENGTH), 1e-12);
        assertEquals(4.2, exif.getDouble(ExifSubIFDDirectory.TAG_SUBJECT_DISTANCE), 1e-12);
        assertEquals(1, exif.getInt(ExifSubIFDDirectory.TAG_WHITE_BALANCE_MODE));
        assertEquals("35-105 mm f/4", exif.getString(ExifSubIFDDirectory.TAG_LENS_MODEL));
        assertEquals(
                "white balance 3000 K", exif.getDescription(ExifSubIFDDirectory.TAG_USER_COMMENT));
        // the moment, with zone and milliseconds: 20:15:04.087 at -03:30
        assertEquals(Instant.parse("2025-03-09T23:45:04.087Z"), exif.getDateOriginal().toInstant());
    }

    @Test
    void unknownThingsAreNotWritten() throws Exception {
        Path file =
                Files.write(
                        dir.resolve("a.jpg"),
                        ExifWriter.insert(Pictures.encoded(24, 16, false), ExifData.UNKNOWN));
        Map<String, String> words = ExifTool.read(file, "-Exif:all");
        assertEquals("simulated camera", words.get("Model"));
        assertEquals("1", words.get("Orientation"));
        for (String absent :
                new String[] {
                    "FNumber",
                    "ExposureTime",
                    "ISO",
                    "LensModel",
                    "WhiteBalance",
                    "UserComment",
                    "SubjectDistance",
                    "DateTimeOriginal",
                    "OffsetTimeOriginal"
                }) {
            assertNull(words.get(absent), absent);
        }
        assertEquals("0 0 0", ExifTool.read(file, "-validate").get("Validate"));
    }

    @ParameterizedTest
    @CsvSource({
        // exposure time as a fraction and as ExifTool shows it, sensitivity, distance
        "0.0005,       1, 100,    0.3",
        "0.0166666667, 60, 64000, 12.75",
        "0.3333333333, 3, 65535,  100",
        "30,           0, 102400, 1234.5",
    })
    void extremesAreRead(double seconds, int partOfASecond, int iso, double metres)
            throws Exception {
        ExifData data =
                ExifData.builder()
                        .seconds(partOfASecond > 1 ? 1.0 / partOfASecond : seconds)
                        .iso(iso)
                        .subjectDistanceMetres(metres)
                        .build();
        Path file =
                Files.write(
                        dir.resolve("a.jpg"),
                        ExifWriter.insert(Pictures.encoded(24, 16, false), data));
        Map<String, String> words = ExifTool.read(file, "-Exif:all");
        assertEquals(
                data.seconds().getAsDouble(),
                Double.parseDouble(words.get("ExposureTime")),
                seconds * 1e-8);
        assertEquals(metres, Double.parseDouble(words.get("SubjectDistance")), metres * 1e-8);
        if (iso >= 65535) {
            assertEquals("65535", words.get("ISO"));
            assertEquals("2", words.get("SensitivityType"));
            assertEquals(String.valueOf(iso), words.get("RecommendedExposureIndex"));
        } else {
            assertEquals(String.valueOf(iso), words.get("ISO"));
        }
        assertEquals(data, withoutBody(ExifReader.read(Files.readAllBytes(file)).data()));
    }

    /** The writer puts in a body of its own where there was none. */
    private static ExifData withoutBody(ExifData data) {
        assertEquals("simulated camera", data.bodyModel().orElseThrow());
        return ExifData.builder()
                .seconds(data.seconds().orElseThrow())
                .iso(data.iso().orElseThrow())
                .subjectDistanceMetres(data.subjectDistanceMetres().orElseThrow())
                .build();
    }

    @ParameterizedTest
    @CsvSource({
        "0.008, 1, 125",
        "2.8, 14, 5",
        "85, 85, 1",
        "0.3333333333333333, 1, 3",
        "1e-12, 1, 4294967294",
        "1e12, 4294967294, 1",
    })
    void fractionsAreTheSimplest(double value, long numerator, long denominator) {
        assertEquals(new Rational(numerator, denominator), Rational.nearest(value));
    }

    @Test
    void pictureIsUntouchedAndOldExifIsReplaced() throws Exception {
        byte[] plain = Pictures.encoded(24, 16, false);
        byte[] once = ExifWriter.insert(plain, ExifData.UNKNOWN);
        byte[] twice = ExifWriter.insert(once, ALL);
        assertArrayEquals(ExifWriter.insert(plain, ALL), twice);
        assertEquals(new Wholeness.Whole(twice.length), JpegStructure.wholeness(twice));
        var before = ImageIO.read(new ByteArrayInputStream(plain));
        var after = ImageIO.read(new ByteArrayInputStream(twice));
        assertArrayEquals(
                before.getRGB(0, 0, 24, 16, null, 0, 24), after.getRGB(0, 0, 24, 16, null, 0, 24));
    }

    @Test
    void charactersThatAsciiLacksAreReplaced() throws Exception {
        ExifData data = ExifData.builder().lensModel("50 mm \u00e0 f/2\0x").build();
        Path file =
                Files.write(
                        dir.resolve("a.jpg"),
                        ExifWriter.insert(Pictures.encoded(24, 16, false), data));
        assertEquals("50 mm ? f/2?x", ExifTool.read(file).get("LensModel"));
    }

    @Test
    void refusesWhatItWouldSpoil() {
        byte[] two = Pictures.withFurther(Pictures.awkward(), Pictures.awkward());
        assertTrue(
                assertThrows(
                                IllegalArgumentException.class,
                                () -> ExifWriter.insert(two, ExifData.UNKNOWN))
                        .getMessage()
                        .contains("MPF"));
        for (byte[] none : new byte[][] {{}, {1, 2, 3}, {(byte) 0xFF, (byte) 0xD8}}) {
            assertThrows(
                    IllegalArgumentException.class,
                    () -> ExifWriter.insert(none, ExifData.UNKNOWN));
        }
        ExifData tooLong = ExifData.builder().lensModel("x".repeat(70_000)).build();
        assertThrows(IllegalArgumentException.class, () -> ExifWriter.app1(tooLong));
    }
}

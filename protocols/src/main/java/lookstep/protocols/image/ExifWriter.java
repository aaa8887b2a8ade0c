package lookstep.protocols.image;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoField;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Writes Exif (CIPA DC-008, version 2.31) as a camera does: the APP1 segment, least significant
 * octet first.
 *
 * <p>Exif has no tag for a white balance in kelvin. It is written as WhiteBalance = manual and, to
 * the nearest kelvin, as the words "white balance 3000 K" in UserComment; {@link ExifReader} knows
 * them. Where it is not known, neither tag is written. Characters that ASCII lacks become '?'.
 */
public final class ExifWriter {
    private static final String MAKE = "Lookstep";
    private static final String MODEL = "simulated camera";
    private static final byte[] HEADER = "Exif\0\0".getBytes(StandardCharsets.US_ASCII);
    private static final String ASCII_CODE = "ASCII\0\0\0";
    private static final DateTimeFormatter DATE_TIME =
            DateTimeFormatter.ofPattern("uuuu:MM:dd HH:mm:ss", Locale.ROOT);

    // what SHORT cannot hold is said to be elsewhere
    private static final int ISO_ELSEWHERE = 65535;

    private ExifWriter() {}

    /**
     * The APP1 segment, marker and length included.
     *
     * @throws IllegalArgumentException if the words are too long for one segment (64 KiB)
     */
    public static byte[] app1(ExifData data) {
        return app1(data, Optional.empty(), Optional.empty());
    }

    /**
     * An APP1 segment, marker and length included, that says nothing but how to turn the picture.
     *
     * @param orientation 1..8
     */
    public static byte[] orientation(int orientation) {
        TiffWriter only = new TiffWriter();
        only.shorts(ExifTag.ORIENTATION, orientation);
        return segment(TiffWriter.block(only.bytes(8)));
    }

    /**
     * A JPEG file with this Exif as its first segment; Exif that it had is left out.
     *
     * @param jpeg a whole file with one picture
     * @throws IllegalArgumentException if it is no JPEG file, or has an MPF index, whose sizes
     *     would no longer hold
     */
    public static byte[] insert(byte[] jpeg, ExifData data) {
        return insert(jpeg, data, Optional.empty());
    }

    /**
     * The same with a thumbnail in the Exif's second directory.
     *
     * @param thumbnail a JPEG file, by CIPA DC-010 of 160 x 120 pixels; of less than 60 KB or so
     * @throws IllegalArgumentException likewise, and if the thumbnail is too long for the segment
     */
    public static byte[] insert(byte[] jpeg, ExifData data, Optional<byte[]> thumbnail) {
        JpegHeader header = JpegHeader.read(jpeg);
        ByteArrayOutputStream out = new ByteArrayOutputStream(jpeg.length + 1024);
        out.write(jpeg, 0, 2);
        byte[] segment = app1(data, JpegInfo.read(jpeg), thumbnail);
        out.write(segment, 0, segment.length);
        int kept = 2;
        for (JpegWalk.Segment old : header.segments()) {
            if (JpegHeader.isMpf(jpeg, old)) {
                throw new IllegalArgumentException("the file has an MPF index: cannot insert Exif");
            }
            if (JpegHeader.isExif(jpeg, old)) {
                out.write(jpeg, kept, (int) old.at() - kept);
                kept = (int) old.end();
            }
        }
        out.write(jpeg, kept, jpeg.length - kept);
        return out.toByteArray();
    }

    private static byte[] app1(ExifData data, Optional<JpegInfo> size, Optional<byte[]> thumbnail) {
        TiffWriter first = new TiffWriter();
        camera(first, data);
        resolution(first);
        first.shorts(ExifTag.Y_CB_CR_POSITIONING, 1);
        TiffWriter exif = exifDirectory(data, size);
        // links are of fixed size, so a trial one tells where the next directory will begin
        first.longs(ExifTag.EXIF_DIRECTORY, 0);
        int exifAt = 8 + first.size();
        int secondAt = exifAt + exif.size();
        first.longs(ExifTag.EXIF_DIRECTORY, exifAt);

        ByteArrayOutputStream directories = new ByteArrayOutputStream();
        directories.writeBytes(first.bytes(8, thumbnail.isPresent() ? secondAt : 0));
        directories.writeBytes(exif.bytes(exifAt));
        thumbnail.ifPresent(
                jpeg -> {
                    TiffWriter second = new TiffWriter();
                    // 6: JPEG
                    second.shorts(ExifTag.COMPRESSION, 6);
                    resolution(second);
                    second.longs(ExifTag.JPEG_OFFSET, 0);
                    second.longs(ExifTag.JPEG_LENGTH, jpeg.length);
                    second.longs(ExifTag.JPEG_OFFSET, secondAt + second.size());
                    directories.writeBytes(second.bytes(secondAt));
                    directories.writeBytes(jpeg);
                });
        return segment(TiffWriter.block(directories.toByteArray()));
    }

    private static byte[] segment(byte[] block) {
        int content = HEADER.length + block.length;
        if (content + 2 > 0xFFFF) {
            throw new IllegalArgumentException("Exif of " + content + " octets: too long");
        }
        ByteBuffer segment = ByteBuffer.allocate(4 + content);
        segment.put((byte) 0xFF).put((byte) JpegWalk.APP1).putShort((short) (content + 2));
        return segment.put(HEADER).put(block).array();
    }

    /** What the first directory says of the camera and how it was held. */
    static void camera(TiffWriter first, ExifData data) {
        first.text(ExifTag.MAKE, data.bodyMake().map(ExifWriter::ascii).orElse(MAKE));
        first.text(ExifTag.MODEL, data.bodyModel().map(ExifWriter::ascii).orElse(MODEL));
        first.shorts(ExifTag.ORIENTATION, data.orientation());
    }

    /** 72 to the inch, Exif's value for a resolution that means nothing. */
    static void resolution(TiffWriter directory) {
        directory.rational(ExifTag.X_RESOLUTION, new Rational(72, 1));
        directory.rational(ExifTag.Y_RESOLUTION, new Rational(72, 1));
        directory.shorts(ExifTag.RESOLUTION_UNIT, 2);
    }

    static TiffWriter exifDirectory(ExifData data, Optional<JpegInfo> size) {
        TiffWriter exif = new TiffWriter();
        rational(exif, ExifTag.EXPOSURE_TIME, data.seconds());
        rational(exif, ExifTag.F_NUMBER, data.fNumber());
        data.iso()
                .ifPresent(
                        iso -> {
                            exif.shorts(ExifTag.SENSITIVITY, Math.min(iso, ISO_ELSEWHERE));
                            if (iso >= ISO_ELSEWHERE) {
                                // 2: it is a recommended exposure index
                                exif.shorts(ExifTag.SENSITIVITY_TYPE, 2);
                                exif.longs(ExifTag.RECOMMENDED_EXPOSURE_INDEX, iso);
                            }
                        });
        exif.undefined(ExifTag.EXIF_VERSION, "0231".getBytes(StandardCharsets.US_ASCII));
        data.takenAt()
                .ifPresent(
                        time -> {
                            exif.text(ExifTag.DATE_TIME_ORIGINAL, DATE_TIME.format(time));
                            exif.text(ExifTag.DATE_TIME_DIGITIZED, DATE_TIME.format(time));
                        });
        data.zone().ifPresent(zone -> exif.text(ExifTag.OFFSET_TIME_ORIGINAL, offset(zone)));
        exif.undefined(ExifTag.COMPONENTS_CONFIGURATION, new byte[] {1, 2, 3, 0});
        data.subjectDistanceMetres()
                .ifPresent(
                        metres ->
                                exif.rational(
                                        ExifTag.SUBJECT_DISTANCE,
                                        Double.isInfinite(metres)
                                                ? Rational.INFINITE
                                                : Rational.nearest(metres)));
        rational(exif, ExifTag.FOCAL_LENGTH, data.focalMillimetres());
        data.whiteBalanceKelvin()
                .ifPresent(
                        kelvin ->
                                exif.undefined(
                                        ExifTag.USER_COMMENT,
                                        (ASCII_CODE + "white balance " + Math.round(kelvin) + " K")
                                                .getBytes(StandardCharsets.US_ASCII)));
        data.takenAt()
                .ifPresent(time -> exif.text(ExifTag.SUB_SEC_TIME_ORIGINAL, milliseconds(time)));
        exif.undefined(ExifTag.FLASHPIX_VERSION, "0100".getBytes(StandardCharsets.US_ASCII));
        // 1: sRGB
        exif.shorts(ExifTag.COLOUR_SPACE, 1);
        size.ifPresent(
                pixels -> {
                    exif.longs(ExifTag.PIXEL_X_DIMENSION, pixels.width());
                    exif.longs(ExifTag.PIXEL_Y_DIMENSION, pixels.height());
                });
        // 0: automatic, 1: manual
        data.whiteBalanceAutomatic()
                .ifPresent(auto -> exif.shorts(ExifTag.WHITE_BALANCE, auto ? 0 : 1));
        data.bodySerial().ifPresent(serial -> exif.text(ExifTag.BODY_SERIAL_NUMBER, ascii(serial)));
        data.lensModel().ifPresent(lens -> exif.text(ExifTag.LENS_MODEL, ascii(lens)));
        return exif;
    }

    private static void rational(TiffWriter into, int tag, OptionalDouble value) {
        value.ifPresent(v -> into.rational(tag, Rational.nearest(v)));
    }

    private static String milliseconds(LocalDateTime time) {
        return "%03d".formatted(time.get(ChronoField.MILLI_OF_SECOND));
    }

    private static String offset(ZoneOffset zone) {
        int minutes = zone.getTotalSeconds() / 60;
        return "%s%02d:%02d"
                .formatted(minutes < 0 ? "-" : "+", Math.abs(minutes) / 60, Math.abs(minutes) % 60);
    }

    /** A NUL inside would end the text early, so it goes the same way as what ASCII lacks. */
    private static String ascii(String text) {
        StringBuilder kept = new StringBuilder();
        text.codePoints().forEach(c -> kept.append(c >= 0x20 && c < 0x7F ? (char) c : '?'));
        return kept.toString();
    }
}

package lookstep.protocols.image;

import java.io.ByteArrayOutputStream;
import java.util.Optional;

/**
 * Writes a RAW file as a camera does: built on TIFF 6.0, laid out like a DNG, with the preview in
 * the first directory and the sensor's values in a SubIFD. For rehearsals and tests: the sensor's
 * values are octets without meaning, so it is no picture to be developed.
 */
public final class DngWriter {
    private static final int JPEG = 7;
    private static final int UNCOMPRESSED = 1;
    private static final int Y_CB_CR = 6;
    private static final int COLOUR_FILTER_ARRAY = 32803;
    private static final int REDUCED = 1;

    private DngWriter() {}

    /**
     * A whole file.
     *
     * @param data for its Exif; its orientation holds for the whole file
     * @param preview a JPEG file in colour
     * @param width of the sensor, in pixels
     * @param height of the sensor, in pixels
     * @param sensor one octet a pixel, row by row
     * @throws IllegalArgumentException if the preview is no JPEG, or the sensor's values are not
     *     width times height
     */
    public static byte[] write(
            ExifData data, byte[] preview, int width, int height, byte[] sensor) {
        if (sensor.length != (long) width * height) {
            throw new IllegalArgumentException(
                    "%d octets for %d x %d pixels".formatted(sensor.length, width, height));
        }
        JpegInfo size =
                JpegInfo.read(preview)
                        .orElseThrow(() -> new IllegalArgumentException("the preview is no JPEG"));
        TiffWriter first = new TiffWriter();
        first.longs(ExifTag.NEW_SUBFILE_TYPE, REDUCED);
        strip(first, size.width(), size.height(), JPEG, Y_CB_CR, 8, 8, 8);
        first.longs(ExifTag.STRIP_BYTE_COUNTS, preview.length);
        ExifWriter.camera(first, data);
        ExifWriter.resolution(first);
        first.octets(ExifTag.DNG_VERSION, (byte) 1, (byte) 4, (byte) 0, (byte) 0);
        first.octets(ExifTag.DNG_BACKWARD_VERSION, (byte) 1, (byte) 1, (byte) 0, (byte) 0);
        first.text(ExifTag.UNIQUE_CAMERA_MODEL, "Lookstep simulated camera");
        first.longs(ExifTag.STRIP_OFFSETS, 0);
        first.longs(ExifTag.SUB_DIRECTORIES, 0);
        first.longs(ExifTag.EXIF_DIRECTORY, 0);

        TiffWriter raw = new TiffWriter();
        raw.longs(ExifTag.NEW_SUBFILE_TYPE, 0);
        strip(raw, width, height, UNCOMPRESSED, COLOUR_FILTER_ARRAY, 8);
        raw.longs(ExifTag.STRIP_BYTE_COUNTS, sensor.length);
        raw.longs(ExifTag.STRIP_OFFSETS, 0);

        TiffWriter exif = ExifWriter.exifDirectory(data, Optional.empty());
        int rawAt = 8 + first.size();
        int exifAt = rawAt + raw.size();
        int previewAt = exifAt + exif.size();
        int sensorAt = previewAt + preview.length + preview.length % 2;
        first.longs(ExifTag.STRIP_OFFSETS, previewAt);
        first.longs(ExifTag.SUB_DIRECTORIES, rawAt);
        first.longs(ExifTag.EXIF_DIRECTORY, exifAt);
        raw.longs(ExifTag.STRIP_OFFSETS, sensorAt);

        ByteArrayOutputStream out = new ByteArrayOutputStream(sensorAt + sensor.length);
        out.writeBytes(first.bytes(8));
        out.writeBytes(raw.bytes(rawAt));
        out.writeBytes(exif.bytes(exifAt));
        out.writeBytes(preview);
        out.writeBytes(new byte[preview.length % 2]);
        out.writeBytes(sensor);
        return TiffWriter.block(out.toByteArray());
    }

    private static void strip(
            TiffWriter into, int width, int height, int compression, int colours, int... bits) {
        into.longs(ExifTag.IMAGE_WIDTH, width);
        into.longs(ExifTag.IMAGE_LENGTH, height);
        into.shorts(ExifTag.BITS_PER_SAMPLE, bits);
        into.shorts(ExifTag.COMPRESSION, compression);
        into.shorts(ExifTag.PHOTOMETRIC_INTERPRETATION, colours);
        into.shorts(ExifTag.SAMPLES_PER_PIXEL, bits.length);
        into.longs(ExifTag.ROWS_PER_STRIP, height);
    }
}

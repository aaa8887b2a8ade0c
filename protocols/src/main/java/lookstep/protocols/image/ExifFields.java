package lookstep.protocols.image;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.format.ResolverStyle;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Takes the fields of an Exif block one by one and keeps what they say, or a note. */
final class ExifFields {
    private static final long INFINITE = 0xFFFFFFFFL;

    /** A file may say that its camera has a name of a gigabyte. */
    private static final int MOST_TEXT_OCTETS = 1 << 16;

    private static final int ISO_ELSEWHERE = 65535;
    private static final DateTimeFormatter DATE_TIME =
            DateTimeFormatter.ofPattern("uuuu:MM:dd HH:mm:ss", Locale.ROOT)
                    .withResolverStyle(ResolverStyle.STRICT);

    /** What {@link ExifWriter} puts into UserComment, for want of a tag. */
    private static final Pattern WHITE_BALANCE =
            Pattern.compile("white balance ([1-9][0-9]{2,4}) K");

    private final TiffBlock block;
    private final List<String> notes;
    private final ExifData.Builder data = ExifData.builder();
    private Optional<LocalDateTime> time = Optional.empty();
    private int milliseconds;

    ExifFields(TiffBlock block, List<String> notes) {
        this.block = block;
        this.notes = notes;
    }

    void readAll() throws IOException {
        long exifAt = -1;
        for (TiffBlock.Field field : directory(block.firstDirectory())) {
            if (field.tag() == ExifTag.EXIF_DIRECTORY) {
                exifAt = integer(field, "link to the Exif directory").orElse(-1L);
            } else {
                inFirst(field);
            }
        }
        if (exifAt >= 0) {
            for (TiffBlock.Field field : directory(exifAt)) {
                inExif(field);
            }
        }
    }

    ExifData data() {
        time.ifPresent(t -> data.takenAt(t.plusNanos(milliseconds * 1_000_000L)));
        return data.build();
    }

    private List<TiffBlock.Field> directory(long offset) throws IOException {
        TiffBlock.Directory directory = block.directory(offset);
        notes.addAll(directory.notes());
        return directory.fields();
    }

    private void inFirst(TiffBlock.Field field) throws IOException {
        switch (field.tag()) {
            case ExifTag.MAKE -> text(field, "camera's maker").ifPresent(data::bodyMake);
            case ExifTag.MODEL -> text(field, "camera model").ifPresent(data::bodyModel);
            case ExifTag.ORIENTATION -> orientation(field);
            default -> {
                // not ours
            }
        }
    }

    private void inExif(TiffBlock.Field field) throws IOException {
        switch (field.tag()) {
            case ExifTag.EXPOSURE_TIME -> positive(field, "exposure time").ifPresent(data::seconds);
            case ExifTag.F_NUMBER -> positive(field, "f-number").ifPresent(data::fNumber);
            case ExifTag.FOCAL_LENGTH ->
                    positive(field, "focal length").ifPresent(data::focalMillimetres);
            case ExifTag.SUBJECT_DISTANCE -> distance(field).ifPresent(data::subjectDistanceMetres);
            case ExifTag.SENSITIVITY -> {
                Optional<Long> iso = integer(field, "sensitivity");
                iso.filter(v -> v != ISO_ELSEWHERE).ifPresent(this::iso);
            }
            case ExifTag.RECOMMENDED_EXPOSURE_INDEX -> {
                // below, the other tag has it
                Optional<Long> iso = integer(field, "recommended exposure index");
                iso.filter(v -> v >= ISO_ELSEWHERE).ifPresent(this::iso);
            }
            case ExifTag.BODY_SERIAL_NUMBER ->
                    text(field, "camera's serial number").ifPresent(data::bodySerial);
            case ExifTag.LENS_MODEL -> text(field, "lens model").ifPresent(data::lensModel);
            case ExifTag.DATE_TIME_ORIGINAL -> takenAt(field);
            case ExifTag.SUB_SEC_TIME_ORIGINAL -> subSeconds(field);
            case ExifTag.OFFSET_TIME_ORIGINAL -> zone(field);
            case ExifTag.USER_COMMENT -> userComment(field);
            case ExifTag.WHITE_BALANCE -> whiteBalance(field);
            default -> {
                // not ours
            }
        }
    }

    private void orientation(TiffBlock.Field field) throws IOException {
        integer(field, "orientation")
                .ifPresent(
                        value -> {
                            if (value >= 1 && value <= 8) {
                                data.orientation(value.intValue());
                            } else {
                                notes.add("orientation " + value + ": must be 1 to 8");
                            }
                        });
    }

    private void whiteBalance(TiffBlock.Field field) throws IOException {
        integer(field, "white balance")
                .ifPresent(
                        value -> {
                            if (value == 0 || value == 1) {
                                data.whiteBalanceAutomatic(value == 0);
                            } else {
                                notes.add("white balance " + value + ": must be 0 or 1");
                            }
                        });
    }

    private void iso(long value) {
        if (value >= 1 && value <= Integer.MAX_VALUE) {
            data.iso((int) value);
        } else {
            notes.add("sensitivity " + value);
        }
    }

    private void takenAt(TiffBlock.Field field) throws IOException {
        Optional<String> text = text(field, "time taken");
        // a camera without a set clock writes blanks or zeros
        if (text.isEmpty()) {
            return;
        }
        try {
            time = Optional.of(LocalDateTime.parse(text.get(), DATE_TIME));
        } catch (DateTimeException e) {
            notes.add("time taken: '" + text.get() + "' is no time");
        }
    }

    private void subSeconds(TiffBlock.Field field) throws IOException {
        text(field, "fraction of a second")
                .ifPresent(
                        digits -> {
                            if (digits.matches("[0-9]{1,20}")) {
                                milliseconds = Integer.parseInt((digits + "00").substring(0, 3));
                            } else {
                                notes.add("fraction of a second: '" + digits + "'");
                            }
                        });
    }

    private void zone(TiffBlock.Field field) throws IOException {
        text(field, "time zone")
                .ifPresent(
                        text -> {
                            try {
                                data.zone(ZoneOffset.of(text));
                            } catch (DateTimeException e) {
                                notes.add("time zone: '" + text + "' is none");
                            }
                        });
    }

    private void userComment(TiffBlock.Field field) throws IOException {
        if (field.type() != TiffBlock.UNDEFINED || field.octets() < 8) {
            notes.add("user comment: not as Exif has it");
            return;
        }
        String all = string(field);
        if (!all.startsWith("ASCII\0\0\0")) {
            // another character code: a comment that is not ours
            return;
        }
        Matcher words = WHITE_BALANCE.matcher(all.substring(8));
        if (words.find()) {
            data.whiteBalanceKelvin(Integer.parseInt(words.group(1)));
        }
    }

    /** The text up to its NUL, without blanks around it; empty if nothing is left. */
    private Optional<String> text(TiffBlock.Field field, String what) throws IOException {
        // 129 is the UTF-8 of Exif 3.0
        if (field.type() != TiffBlock.ASCII && field.type() != 129) {
            notes.add(what + ": type " + field.type() + " instead of text");
            return Optional.empty();
        }
        String text = string(field);
        int end = text.indexOf('\0');
        String stripped = (end < 0 ? text : text.substring(0, end)).strip();
        return stripped.isEmpty() ? Optional.empty() : Optional.of(stripped);
    }

    private String string(TiffBlock.Field field) throws IOException {
        return new String(
                block.octets(field.valueAt(), (int) Math.min(field.octets(), MOST_TEXT_OCTETS)),
                StandardCharsets.UTF_8);
    }

    private Optional<Long> integer(TiffBlock.Field field, String what) throws IOException {
        if (field.count() >= 1) {
            if (field.type() == TiffBlock.SHORT) {
                return Optional.of((long) block.u16(field.valueAt()));
            }
            if (field.type() == TiffBlock.LONG) {
                return Optional.of(block.u32(field.valueAt()));
            }
        }
        notes.add(what + ": type " + field.type() + " instead of a whole number");
        return Optional.empty();
    }

    private OptionalDouble positive(TiffBlock.Field field, String what) throws IOException {
        if (!isRational(field, what)) {
            return OptionalDouble.empty();
        }
        return fraction(field, what);
    }

    private OptionalDouble distance(TiffBlock.Field field) throws IOException {
        if (!isRational(field, "subject distance")) {
            return OptionalDouble.empty();
        }
        long numerator = block.u32(field.valueAt());
        if (numerator == INFINITE) {
            return OptionalDouble.of(Double.POSITIVE_INFINITY);
        }
        // 0 says that it is not known
        return numerator == 0 ? OptionalDouble.empty() : fraction(field, "subject distance");
    }

    private boolean isRational(TiffBlock.Field field, String what) {
        if (field.type() == TiffBlock.RATIONAL && field.count() >= 1) {
            return true;
        }
        notes.add(what + ": type " + field.type() + " instead of a fraction");
        return false;
    }

    private OptionalDouble fraction(TiffBlock.Field field, String what) throws IOException {
        long numerator = block.u32(field.valueAt());
        long denominator = block.u32(field.valueAt() + 4);
        if (numerator == 0 || denominator == 0) {
            notes.add("%s: %d/%d".formatted(what, numerator, denominator));
            return OptionalDouble.empty();
        }
        return OptionalDouble.of((double) numerator / denominator);
    }
}

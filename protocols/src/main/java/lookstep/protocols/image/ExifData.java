package lookstep.protocols.image;

import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/**
 * What a camera says of a picture (CIPA DC-008); empty where it is not known.
 *
 * @param lensModel as the lens or its maker names it, in ASCII
 * @param bodyMake the camera's maker, likewise
 * @param bodyModel the camera's model, likewise
 * @param bodySerial the camera's serial number, likewise: two bodies of one model differ in it
 * @param fNumber above 0
 * @param seconds exposure time, above 0
 * @param iso sensitivity, 1 or more
 * @param focalMillimetres real focal length, above 0
 * @param subjectDistanceMetres above 0; may be infinite
 * @param whiteBalanceKelvin what the white balance was set to, above 0; empty also when automatic
 * @param whiteBalanceAutomatic whether the camera chose the white balance by itself (Exif 2.3, CIPA
 *     DC-008, 4.6.5: WhiteBalance)
 * @param orientation 1..8 as in Exif: 1 upright, 6 to be turned by 90 degrees clockwise
 * @param takenAt local time, to the millisecond
 * @param zone of that time
 */
public record ExifData(
        Optional<String> lensModel,
        Optional<String> bodyMake,
        Optional<String> bodyModel,
        Optional<String> bodySerial,
        OptionalDouble fNumber,
        OptionalDouble seconds,
        OptionalInt iso,
        OptionalDouble focalMillimetres,
        OptionalDouble subjectDistanceMetres,
        OptionalDouble whiteBalanceKelvin,
        Optional<Boolean> whiteBalanceAutomatic,
        int orientation,
        Optional<LocalDateTime> takenAt,
        Optional<ZoneOffset> zone) {
    /** Nothing known, upright. */
    public static final ExifData UNKNOWN = builder().build();

    public ExifData {
        requirePositive(fNumber, "f-number", false);
        requirePositive(seconds, "exposure time", false);
        requirePositive(focalMillimetres, "focal length", false);
        requirePositive(subjectDistanceMetres, "subject distance", true);
        requirePositive(whiteBalanceKelvin, "white balance", false);
        if (iso.isPresent() && iso.getAsInt() < 1) {
            throw new IllegalArgumentException("ISO " + iso.getAsInt() + ": must be 1 or more");
        }
        if (orientation < 1 || orientation > 8) {
            throw new IllegalArgumentException("orientation " + orientation + ": must be 1 to 8");
        }
        takenAt = takenAt.map(time -> time.truncatedTo(ChronoUnit.MILLIS));
    }

    private static void requirePositive(OptionalDouble value, String what, boolean mayBeInfinite) {
        if (value.isPresent()) {
            double v = value.getAsDouble();
            if (!(v > 0) || (Double.isInfinite(v) && !mayBeInfinite)) {
                throw new IllegalArgumentException(what + " " + v + ": must be above 0");
            }
        }
    }

    /** Begins with nothing known. */
    public static Builder builder() {
        return new Builder();
    }

    /** Collects what is known; units and ranges as in {@link ExifData}. */
    public static final class Builder {
        private Optional<String> lensModel = Optional.empty();
        private Optional<String> bodyMake = Optional.empty();
        private Optional<String> bodyModel = Optional.empty();
        private Optional<String> bodySerial = Optional.empty();
        private OptionalDouble fNumber = OptionalDouble.empty();
        private OptionalDouble seconds = OptionalDouble.empty();
        private OptionalInt iso = OptionalInt.empty();
        private OptionalDouble focalMillimetres = OptionalDouble.empty();
        private OptionalDouble subjectDistanceMetres = OptionalDouble.empty();
        private OptionalDouble whiteBalanceKelvin = OptionalDouble.empty();
        private Optional<Boolean> whiteBalanceAutomatic = Optional.empty();
        private int orientation = 1;
        private Optional<LocalDateTime> takenAt = Optional.empty();
        private Optional<ZoneOffset> zone = Optional.empty();

        private Builder() {}

        public Builder lensModel(String value) {
            lensModel = Optional.of(value);
            return this;
        }

        public Builder bodyMake(String value) {
            bodyMake = Optional.of(value);
            return this;
        }

        public Builder bodyModel(String value) {
            bodyModel = Optional.of(value);
            return this;
        }

        public Builder bodySerial(String value) {
            bodySerial = Optional.of(value);
            return this;
        }

        public Builder fNumber(double value) {
            fNumber = OptionalDouble.of(value);
            return this;
        }

        public Builder seconds(double value) {
            seconds = OptionalDouble.of(value);
            return this;
        }

        public Builder iso(int value) {
            iso = OptionalInt.of(value);
            return this;
        }

        public Builder focalMillimetres(double value) {
            focalMillimetres = OptionalDouble.of(value);
            return this;
        }

        public Builder subjectDistanceMetres(double value) {
            subjectDistanceMetres = OptionalDouble.of(value);
            return this;
        }

        /** It was set by hand then. */
        public Builder whiteBalanceKelvin(double value) {
            whiteBalanceKelvin = OptionalDouble.of(value);
            return whiteBalanceAutomatic(false);
        }

        public Builder whiteBalanceAutomatic(boolean value) {
            whiteBalanceAutomatic = Optional.of(value);
            return this;
        }

        public Builder orientation(int value) {
            orientation = value;
            return this;
        }

        public Builder takenAt(LocalDateTime value) {
            takenAt = Optional.of(value);
            return this;
        }

        public Builder zone(ZoneOffset value) {
            zone = Optional.of(value);
            return this;
        }

        public ExifData build() {
            return new ExifData(
                    lensModel,
                    bodyMake,
                    bodyModel,
                    bodySerial,
                    fNumber,
                    seconds,
                    iso,
                    focalMillimetres,
                    subjectDistanceMetres,
                    whiteBalanceKelvin,
                    whiteBalanceAutomatic,
                    orientation,
                    takenAt,
                    zone);
        }
    }
}

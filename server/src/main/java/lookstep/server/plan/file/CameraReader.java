package lookstep.server.plan.file;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.Sensor;

/** Camera settings: what the top of the file says for all looks, and what a look says otherwise. */
final class CameraReader {
    static final String EXAMPLE = "{f: 8, time: 1/125, iso: 6400, kelvin: 5600}";

    private static final List<String> KEYS = List.of("f", "time", "iso", "kelvin");
    private static final List<String> COMMON_KEYS = List.of("f", "time", "iso", "kelvin", "sensor");
    private static final Quantity F = new Quantity("an f-number", "", 1, 32, 8);
    private static final Quantity ISO = new Quantity("an ISO value", "", 50, 204_800, 6400);

    /** Settings of which some may be left out. */
    record Some(
            Optional<Double> f,
            Optional<Double> seconds,
            Optional<Double> iso,
            Optional<Double> kelvin) {
        static final Some NONE =
                new Some(Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());
    }

    /** Something was reported; a look need not complain again. */
    private static final Some REPORTED =
            new Some(
                    Optional.of(8.0), Optional.of(0.008), Optional.of(6400.0), Optional.of(5600.0));

    private CameraReader() {}

    /** What holds for all looks, and the sensor. */
    record Common(Some some, Sensor sensor) {
        static final Common NONE = new Common(Some.NONE, Sensor.FULL_FRAME);
    }

    static Common common(Value value) {
        return value.fields(COMMON_KEYS, EXAMPLE)
                .map(f -> new Common(some(f), AroundReader.sensor(f)))
                .orElse(new Common(REPORTED, Sensor.FULL_FRAME));
    }

    static Some some(Value value) {
        return value.fields(KEYS, EXAMPLE).map(CameraReader::some).orElse(REPORTED);
    }

    private static Some some(Fields f) {
        return new Some(
                one(f, "f", "8", v -> v.number(F), 8),
                one(f, "time", "1/125", TimeWords::exposure, 0.008),
                one(f, "iso", "6400", v -> v.number(ISO), 6400),
                one(f, "kelvin", "5600", v -> v.number(Quantity.KELVIN), 5600));
    }

    private static Optional<Double> one(
            Fields f,
            String key,
            String example,
            Function<Value, Optional<Double>> read,
            double standIn) {
        return f.has(key)
                ? Optional.of(f.get(key, example).flatMap(read).orElse(standIn))
                : Optional.empty();
    }

    static CameraSettings settings(Some own, Some common, Mark at, String path, Problems p) {
        return new CameraSettings(
                pick(own.f(), common.f(), at, path + ".f", "f: 8", p),
                pick(own.seconds(), common.seconds(), at, path + ".time", "time: 1/125", p),
                pick(own.iso(), common.iso(), at, path + ".iso", "iso: 6400", p),
                pick(own.kelvin(), common.kelvin(), at, path + ".kelvin", "kelvin: 5600", p));
    }

    private static double pick(
            Optional<Double> own,
            Optional<Double> common,
            Mark at,
            String path,
            String example,
            Problems problems) {
        Optional<Double> found = own.or(() -> common);
        if (found.isEmpty()) {
            problems.error(
                    at,
                    path + " is missing",
                    "write " + example + " here, or in 'camera' at the top for all looks");
        }
        return found.orElse(1.0);
    }
}

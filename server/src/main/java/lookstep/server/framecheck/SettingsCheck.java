package lookstep.server.framecheck;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import lookstep.protocols.image.ExifData;
import lookstep.server.plan.CameraSettings;
import lookstep.simulator.model.colour.Mired;
import lookstep.simulator.model.optics.Scales;

/**
 * What the camera was set to against the look. A third of a stop is the dials' step, so a
 * difference counts from a quarter on; ten mired are about the least that is seen in a face (from
 * memory), 50 are a quarter of a full CTO. A camera that does not say a colour temperature is on
 * automatic, or silent: that is not remarked.
 */
final class SettingsCheck {
    private static final double LEAST_STOPS = 0.25;
    private static final double WRONG_STOPS = 0.9;
    private static final double LEAST_MIRED = 10;
    private static final double WRONG_MIRED = 50;

    private SettingsCheck() {}

    /**
     * Stops more light on the sensor's scale than the look's settings bring, by those settings that
     * the camera says.
     */
    static double stopsMore(Taken taken) {
        CameraSettings look = taken.look().camera();
        return apertureStops(taken.exif(), look).orElse(0)
                + timeStops(taken.exif(), look).orElse(0)
                + isoStops(taken.exif(), look).orElse(0);
    }

    static Optional<Remark> check(Taken taken) {
        ExifData exif = taken.exif();
        CameraSettings look = taken.look().camera();
        List<String> off = new ArrayList<>();
        List<String> mend = new ArrayList<>();
        apertureStops(exif, look)
                .ifPresent(
                        s ->
                                tell(
                                        s,
                                        Scales.formatFNumber(exif.fNumber().orElseThrow()),
                                        Scales.formatFNumber(look.fNumber()),
                                        off,
                                        mend));
        timeStops(exif, look)
                .ifPresent(
                        s ->
                                tell(
                                        s,
                                        Scales.formatTime(exif.seconds().orElseThrow()),
                                        Scales.formatTime(look.seconds()),
                                        off,
                                        mend));
        isoStops(exif, look)
                .ifPresent(
                        s ->
                                tell(
                                        s,
                                        "ISO " + exif.iso().orElseThrow(),
                                        Scales.formatIso(look.iso()),
                                        off,
                                        mend));
        double mired = 0;
        if (exif.whiteBalanceKelvin().isPresent()) {
            double kelvin = exif.whiteBalanceKelvin().getAsDouble();
            mired = Mired.shift(look.kelvin(), kelvin);
            if (Math.abs(mired) >= LEAST_MIRED) {
                String wanted = String.format(Locale.ROOT, "%.0f K", look.kelvin());
                off.add(
                        String.format(
                                Locale.ROOT,
                                "%.0f K instead of %s (%.0f mired, the picture turns %s)",
                                kelvin,
                                wanted,
                                Math.abs(mired),
                                mired < 0 ? "warmer" : "colder"));
                mend.add(wanted);
            }
        }
        List<String> silent = silent(exif);
        boolean wrong = Math.abs(stopsMore(taken)) >= WRONG_STOPS || Math.abs(mired) >= WRONG_MIRED;
        String silence =
                "the camera does not say its " + Say.names(silent) + ": check that on its display";
        if (!off.isEmpty()) {
            String says =
                    String.join("; ", off)
                            + ": set "
                            + Say.names(mend)
                            + (silent.isEmpty() ? "" : "; " + silence);
            double stops = stopsMore(taken);
            return Optional.of(
                    new Remark(
                            Kind.SETTINGS,
                            wrong ? Weight.WRONG : Weight.LOOK,
                            says,
                            Math.abs(stops) >= LEAST_STOPS || mired == 0 ? stops : mired));
        }
        return Optional.of(
                silent.isEmpty()
                        ? new Remark(Kind.SETTINGS, Weight.GOOD, "set as the look wants it", 0)
                        : new Remark(Kind.SETTINGS, Weight.LOOK, silence, Double.NaN));
    }

    private static List<String> silent(ExifData exif) {
        List<String> silent = new ArrayList<>();
        if (exif.fNumber().isEmpty()) {
            silent.add("f-number");
        }
        if (exif.seconds().isEmpty()) {
            silent.add("time");
        }
        if (exif.iso().isEmpty()) {
            silent.add("ISO");
        }
        return silent;
    }

    private static void tell(
            double stops, String is, String wanted, List<String> off, List<String> mend) {
        if (Math.abs(stops) >= LEAST_STOPS) {
            off.add(
                    is
                            + " instead of "
                            + wanted
                            + " ("
                            + Say.stops(stops)
                            + (stops > 0 ? " more light)" : " less light)"));
            mend.add(wanted);
        }
    }

    private static OptionalDouble apertureStops(ExifData exif, CameraSettings look) {
        return exif.fNumber().isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(
                        2
                                * Say.log2(
                                        Scales.exactFNumber(look.fNumber())
                                                / Scales.exactFNumber(
                                                        exif.fNumber().getAsDouble())));
    }

    private static OptionalDouble timeStops(ExifData exif, CameraSettings look) {
        return exif.seconds().isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(
                        Say.log2(
                                Scales.exactSeconds(exif.seconds().getAsDouble())
                                        / Scales.exactSeconds(look.seconds())));
    }

    private static OptionalDouble isoStops(ExifData exif, CameraSettings look) {
        return exif.iso().isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(
                        Say.log2(
                                Scales.exactIso(exif.iso().getAsInt())
                                        / Scales.exactIso(look.iso())));
    }
}

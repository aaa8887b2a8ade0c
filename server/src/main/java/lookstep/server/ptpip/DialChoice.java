package lookstep.server.ptpip;

import java.util.List;
import java.util.stream.LongStream;
import lookstep.protocols.ptpip.DevicePropDesc;
import lookstep.protocols.ptpip.DevicePropDesc.Form;
import lookstep.protocols.ptpip.PropertyValue;
import lookstep.server.plan.CameraSettings;

/** What to do with a dial so that it stands where it is wanted. */
sealed interface DialChoice {
    /**
     * A value this near to the one wanted is it: dials are marked in thirds of a stop, so half a
     * step.
     */
    double NEAR_STOPS = 1.0 / 6;

    /** It stands there. */
    record Stands() implements DialChoice {}

    /** It is to be set to this, in the property's unit. */
    record Set(long value) implements DialChoice {}

    /** It cannot be set to that from here; why, in plain words. */
    record ByHand(String why) implements DialChoice {}

    /** Decides by what the camera says of the setting. */
    static DialChoice of(Dial dial, DevicePropDesc described, CameraSettings settings) {
        double wanted = dial.wantedUnits(settings);
        if (described.current() instanceof PropertyValue.Whole now
                && near(dial, now.number(), wanted)) {
            return new Stands();
        }
        if (!described.settable()) {
            return new ByHand("it takes no " + dial.words() + " from here");
        }
        long nearest =
                candidates(described.form(), wanted)
                        .filter(value -> value > 0 && described.type().holds(value))
                        .boxed()
                        .min((a, b) -> Double.compare(away(dial, a, wanted), away(dial, b, wanted)))
                        .orElse(0L);
        if (nearest == 0 || !near(dial, nearest, wanted)) {
            return new ByHand(
                    nearest == 0
                            ? "it names no " + dial.words() + " that it takes from here"
                            : "the nearest that it takes from here is " + dial.onCamera(nearest));
        }
        return new Set(nearest);
    }

    private static boolean near(Dial dial, long value, double wanted) {
        return value > 0 && away(dial, value, wanted) <= NEAR_STOPS;
    }

    private static double away(Dial dial, long value, double wanted) {
        return dial.stopsBetween((double) value, wanted);
    }

    private static LongStream candidates(Form form, double wanted) {
        if (form instanceof Form.OneOf oneOf) {
            return numbers(oneOf.values());
        }
        if (form instanceof Form.Range range) {
            List<Long> ends =
                    numbers(List.of(range.least(), range.most(), range.step())).boxed().toList();
            if (ends.size() < 3) {
                return LongStream.empty();
            }
            long least = ends.get(0);
            long most = ends.get(1);
            long step = Math.max(1, ends.get(2));
            long below = least + (long) Math.floor((wanted - least) / step) * step;
            return LongStream.of(least, most, below, below + step)
                    .filter(value -> value >= least && value <= most);
        }
        return LongStream.of(Math.round(wanted));
    }

    private static LongStream numbers(List<PropertyValue> values) {
        return values.stream()
                .filter(PropertyValue.Whole.class::isInstance)
                .mapToLong(value -> ((PropertyValue.Whole) value).number());
    }
}

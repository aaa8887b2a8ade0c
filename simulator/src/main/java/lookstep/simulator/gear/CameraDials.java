package lookstep.simulator.gear;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import lookstep.protocols.ptpip.DevicePropDesc;
import lookstep.protocols.ptpip.DevicePropDesc.Form;
import lookstep.protocols.ptpip.DeviceProperty;
import lookstep.protocols.ptpip.PropertyValue;

/** What a camera is set to, and to what it lets itself be set. Any thread. */
final class CameraDials {
    /** Thirds of a stop as lenses mark them, times 100 (common practice). */
    private static final long[] F_NUMBERS = {
        280, 320, 350, 400, 450, 500, 560, 630, 710, 800, 900, 1000, 1100, 1300, 1400, 1600, 1800,
        2000, 2200
    };

    /** Thirds of a stop from 1/1000 s to 1 s, in 1/10000 s (common practice). */
    private static final long[] EXPOSURE_TIMES = {
        10, 13, 16, 20, 25, 31, 40, 50, 63, 80, 100, 125, 167, 200, 250, 333, 400, 500, 667, 769,
        1000, 1250, 1667, 2000, 2500, 3333, 4000, 5000, 6250, 7692, 10000
    };

    /** Thirds of a stop (common practice). */
    private static final long[] SPEEDS = {
        100, 125, 160, 200, 250, 320, 400, 500, 640, 800, 1000, 1250, 1600, 2000, 2500, 3200, 4000,
        5000, 6400
    };

    /** Manual, automatic, daylight, fluorescent, tungsten. */
    private static final long[] WHITES = {1, 2, 4, 5, 6};

    private static final Map<DeviceProperty, long[]> CAN_BE =
            Map.of(
                    DeviceProperty.F_NUMBER,
                    F_NUMBERS,
                    DeviceProperty.EXPOSURE_TIME,
                    EXPOSURE_TIMES,
                    DeviceProperty.EXPOSURE_INDEX,
                    SPEEDS,
                    DeviceProperty.WHITE_BALANCE,
                    WHITES);

    private final Map<DeviceProperty, Long> now = new EnumMap<>(DeviceProperty.class);
    private final Set<DeviceProperty> refused = EnumSet.noneOf(DeviceProperty.class);
    private final Set<DeviceProperty> missing = EnumSet.noneOf(DeviceProperty.class);

    /** How a wish to set something ended. */
    enum Outcome {
        SET,
        REFUSED,
        NO_SUCH_VALUE
    }

    CameraDials() {
        now.put(DeviceProperty.F_NUMBER, 560L);
        now.put(DeviceProperty.EXPOSURE_TIME, 80L);
        now.put(DeviceProperty.EXPOSURE_INDEX, 400L);
        now.put(DeviceProperty.WHITE_BALANCE, 2L);
    }

    synchronized List<DeviceProperty> offered() {
        return now.keySet().stream().filter(p -> !missing.contains(p)).toList();
    }

    synchronized long value(DeviceProperty property) {
        return now.get(property);
    }

    synchronized DevicePropDesc describe(DeviceProperty property) {
        List<PropertyValue> values =
                Arrays.stream(CAN_BE.get(property))
                        .<PropertyValue>mapToObj(PropertyValue.Whole::new)
                        .toList();
        return new DevicePropDesc(
                property.code(),
                property.type(),
                true,
                values.get(0),
                new PropertyValue.Whole(now.get(property)),
                new Form.OneOf(values));
    }

    synchronized Outcome set(DeviceProperty property, long value) {
        if (refused.contains(property)) {
            return Outcome.REFUSED;
        }
        if (Arrays.stream(CAN_BE.get(property)).noneMatch(allowed -> allowed == value)) {
            return Outcome.NO_SUCH_VALUE;
        }
        now.put(property, value);
        return Outcome.SET;
    }

    synchronized void refuse(DeviceProperty property) {
        refused.add(property);
    }

    synchronized void miss(DeviceProperty property) {
        missing.add(property);
    }

    synchronized void mend() {
        refused.clear();
        missing.clear();
    }
}

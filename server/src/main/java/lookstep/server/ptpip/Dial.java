package lookstep.server.ptpip;

import lookstep.protocols.ptpip.DeviceInfo;
import lookstep.protocols.ptpip.DeviceProperty;
import lookstep.protocols.ptpip.Operation;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.PlanWords;
import lookstep.simulator.model.optics.Scales;

/** A setting that the standard lets a camera be set to from outside, in the order of setting. */
enum Dial {
    F_NUMBER("f-number", DeviceProperty.F_NUMBER, 100, 2),
    TIME("exposure time", DeviceProperty.EXPOSURE_TIME, 10_000, 1),
    ISO("ISO", DeviceProperty.EXPOSURE_INDEX, 1, 1);

    private final String words;
    private final DeviceProperty property;
    private final double unitsPerOne;
    private final double stopsPerDoubling;

    Dial(String words, DeviceProperty property, double unitsPerOne, double stopsPerDoubling) {
        this.words = words;
        this.property = property;
        this.unitsPerOne = unitsPerOne;
        this.stopsPerDoubling = stopsPerDoubling;
    }

    String words() {
        return words;
    }

    DeviceProperty property() {
        return property;
    }

    boolean offeredBy(DeviceInfo camera) {
        return camera.has(property)
                && camera.offers(Operation.GET_DEVICE_PROP_DESC)
                && camera.offers(Operation.SET_DEVICE_PROP_VALUE);
    }

    /** What is wanted, in the property's unit. */
    double wantedUnits(CameraSettings settings) {
        return unitsPerOne
                * switch (this) {
                    case F_NUMBER -> settings.fNumber();
                    case TIME -> settings.seconds();
                    case ISO -> settings.iso();
                };
    }

    /** How far two values in the property's unit are from each other, in stops of light. */
    double stopsBetween(double units, double otherUnits) {
        return Math.abs(Math.log(units / otherUnits)) / Math.log(2) * stopsPerDoubling;
    }

    /** What is wanted, as the plan has it. */
    String planned(CameraSettings settings) {
        return switch (this) {
            case F_NUMBER -> "f/" + PlanWords.number(settings.fNumber());
            case TIME -> PlanWords.time(settings.seconds()) + " s";
            case ISO -> "ISO " + PlanWords.number(settings.iso());
        };
    }

    /** As photographers write what a camera stands at. */
    String onCamera(long units) {
        if (units <= 0) {
            return "no such value";
        }
        double value = units / unitsPerOne;
        return switch (this) {
            case F_NUMBER -> Scales.formatFNumber(value);
            case TIME -> Scales.formatTime(value);
            case ISO -> Scales.formatIso(value);
        };
    }
}

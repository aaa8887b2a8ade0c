package lookstep.server.ptpip;

import java.util.function.DoubleFunction;
import java.util.function.ToDoubleFunction;
import lookstep.protocols.ptpip.DeviceInfo;
import lookstep.protocols.ptpip.DeviceProperty;
import lookstep.protocols.ptpip.Operation;
import lookstep.server.plan.CameraSettings;
import lookstep.server.plan.PlanWords;
import lookstep.simulator.model.optics.Scales;

/** A setting that the standard lets a camera be set to from outside, in the order of setting. */
enum Dial {
    F_NUMBER(
            "f-number",
            DeviceProperty.F_NUMBER,
            CameraSettings::fNumber,
            100,
            2,
            n -> "f/" + PlanWords.number(n),
            Scales::formatFNumber),
    TIME(
            "exposure time",
            DeviceProperty.EXPOSURE_TIME,
            CameraSettings::seconds,
            10_000,
            1,
            s -> PlanWords.time(s) + " s",
            Scales::formatTime),
    ISO(
            "ISO",
            DeviceProperty.EXPOSURE_INDEX,
            CameraSettings::iso,
            1,
            1,
            i -> "ISO " + PlanWords.number(i),
            Scales::formatIso);

    private final String words;
    private final DeviceProperty property;
    private final ToDoubleFunction<CameraSettings> wanted;
    private final double unitsPerOne;
    private final double stopsPerDoubling;
    private final DoubleFunction<String> asPlanned;
    private final DoubleFunction<String> asOnCamera;

    Dial(
            String words,
            DeviceProperty property,
            ToDoubleFunction<CameraSettings> wanted,
            double unitsPerOne,
            double stopsPerDoubling,
            DoubleFunction<String> asPlanned,
            DoubleFunction<String> asOnCamera) {
        this.words = words;
        this.property = property;
        this.wanted = wanted;
        this.unitsPerOne = unitsPerOne;
        this.stopsPerDoubling = stopsPerDoubling;
        this.asPlanned = asPlanned;
        this.asOnCamera = asOnCamera;
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

    double wanted(CameraSettings settings) {
        return wanted.applyAsDouble(settings);
    }

    /** What is wanted, in the property's unit. */
    double wantedUnits(CameraSettings settings) {
        return wanted(settings) * unitsPerOne;
    }

    /** How far two values in the property's unit are from each other, in stops of light. */
    double stopsBetween(double units, double otherUnits) {
        return Math.abs(Math.log(units / otherUnits)) / Math.log(2) * stopsPerDoubling;
    }

    /** As the plan has it. */
    String planned(CameraSettings settings) {
        return asPlanned.apply(wanted(settings));
    }

    /** As photographers write what a camera stands at. */
    String onCamera(long units) {
        return units > 0 ? asOnCamera.apply(units / unitsPerOne) : "no such value";
    }
}

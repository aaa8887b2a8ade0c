package lookstep.protocols.ptpip;

import java.util.List;

/**
 * Who a camera is and what it offers (ISO 15740, DeviceInfo dataset).
 *
 * @param standardVersion times 100
 * @param vendorExtension number of the maker's extensions, 0 for none; they are not used here
 * @param vendorExtensionVersion times 100
 * @param vendorExtensionWords about them
 * @param functionalMode 0 is the standard's
 * @param operations codes, as of {@link Operation} and others
 * @param events codes, as of {@link EventCode} and others
 * @param properties codes, as of {@link DeviceProperty} and others
 * @param captureFormats codes, as of {@link ObjectFormat} and others, of what it makes
 * @param imageFormats the same, of what it can show
 * @param manufacturer for people
 * @param model for people
 * @param deviceVersion for people
 * @param serialNumber for people
 */
public record DeviceInfo(
        int standardVersion,
        int vendorExtension,
        int vendorExtensionVersion,
        String vendorExtensionWords,
        int functionalMode,
        List<Integer> operations,
        List<Integer> events,
        List<Integer> properties,
        List<Integer> captureFormats,
        List<Integer> imageFormats,
        String manufacturer,
        String model,
        String deviceVersion,
        String serialNumber) {
    public DeviceInfo {
        operations = List.copyOf(operations);
        events = List.copyOf(events);
        properties = List.copyOf(properties);
        captureFormats = List.copyOf(captureFormats);
        imageFormats = List.copyOf(imageFormats);
    }

    /** Whether it can be asked for this. */
    public boolean offers(Operation operation) {
        return operations.contains(operation.code());
    }

    /** Whether it tells of this by itself. */
    public boolean tells(EventCode event) {
        return events.contains(event.code());
    }

    /** Whether it has this setting. */
    public boolean has(DeviceProperty property) {
        return properties.contains(property.code());
    }

    /** The dataset. */
    public byte[] encode() {
        return new FieldWriter()
                .u16(standardVersion)
                .u32(vendorExtension)
                .u16(vendorExtensionVersion)
                .string(vendorExtensionWords)
                .u16(functionalMode)
                .u16Array(operations)
                .u16Array(events)
                .u16Array(properties)
                .u16Array(captureFormats)
                .u16Array(imageFormats)
                .string(manufacturer)
                .string(model)
                .string(deviceVersion)
                .string(serialNumber)
                .written();
    }

    /**
     * Reads the dataset.
     *
     * @throws BadBytesException if it is too short
     */
    public static DeviceInfo read(byte[] dataset) throws BadBytesException {
        FieldReader in = new FieldReader(dataset, "DeviceInfo");
        return new DeviceInfo(
                in.u16(),
                in.u32(),
                in.u16(),
                in.string(),
                in.u16(),
                in.u16Array(),
                in.u16Array(),
                in.u16Array(),
                in.u16Array(),
                in.u16Array(),
                in.string(),
                in.string(),
                in.string(),
                in.string());
    }
}

package lookstep.protocols.ptpip;

import java.util.ArrayList;
import java.util.List;

/**
 * What a setting is and what it can be (ISO 15740, DevicePropDesc dataset; from memory).
 *
 * @param property code, as of {@link DeviceProperty}
 * @param type of its values
 * @param settable whether it may be set from outside
 * @param factoryDefault what it is at first
 * @param current what it is now
 * @param form what it can be
 */
public record DevicePropDesc(
        int property,
        DataType type,
        boolean settable,
        PropertyValue factoryDefault,
        PropertyValue current,
        Form form) {
    private static final int ANY = 0;
    private static final int RANGE = 1;
    private static final int ENUMERATION = 2;

    /** What values a setting can take. */
    public sealed interface Form {
        /** The camera does not say. */
        record Any() implements Form {}

        /** From least to most, in steps. */
        record Range(PropertyValue least, PropertyValue most, PropertyValue step) implements Form {}

        /** One of these. */
        record OneOf(List<PropertyValue> values) implements Form {
            public OneOf {
                values = List.copyOf(values);
            }
        }
    }

    /** The dataset. */
    public byte[] encode() {
        FieldWriter out = new FieldWriter().u16(property).u16(type.code()).u8(settable ? 1 : 0);
        type.put(out, factoryDefault);
        type.put(out, current);
        if (form instanceof Form.Range range) {
            out.u8(RANGE);
            type.put(out, range.least());
            type.put(out, range.most());
            type.put(out, range.step());
        } else if (form instanceof Form.OneOf oneOf) {
            out.u8(ENUMERATION).u16(oneOf.values().size());
            oneOf.values().forEach(value -> type.put(out, value));
        } else {
            out.u8(ANY);
        }
        return out.written();
    }

    /**
     * Reads the dataset.
     *
     * @throws BadBytesException if it is too short, or of a type that is not read
     */
    public static DevicePropDesc read(byte[] dataset) throws BadBytesException {
        FieldReader in = new FieldReader(dataset, "DevicePropDesc");
        int property = in.u16();
        DataType type = DataType.of(in.u16());
        boolean settable = in.u8() != 0;
        PropertyValue factoryDefault = type.read(in);
        PropertyValue current = type.read(in);
        Form form =
                switch (in.u8()) {
                    case RANGE -> new Form.Range(type.read(in), type.read(in), type.read(in));
                    case ENUMERATION -> oneOf(type, in);
                    default -> new Form.Any();
                };
        return new DevicePropDesc(property, type, settable, factoryDefault, current, form);
    }

    private static Form oneOf(DataType type, FieldReader in) throws BadBytesException {
        int count = in.u16();
        List<PropertyValue> values = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            values.add(type.read(in));
        }
        return new Form.OneOf(values);
    }
}

package lookstep.protocols.ptpip;

/**
 * In which the value of a property is written (codes from memory of ISO 15740). Numbers of 128 bits
 * and lists are not among them: no setting that is read here has one.
 */
public enum DataType {
    INT8(0x0001, 1, true),
    UINT8(0x0002, 1, false),
    INT16(0x0003, 2, true),
    UINT16(0x0004, 2, false),
    INT32(0x0005, 4, true),
    UINT32(0x0006, 4, false),
    INT64(0x0007, 8, true),
    UINT64(0x0008, 8, false),
    STRING(0xFFFF, 0, false);

    private final int code;
    private final int octets;
    private final boolean signed;

    DataType(int code, int octets, boolean signed) {
        this.code = code;
        this.octets = octets;
        this.signed = signed;
    }

    /** As it is on the wire, 16 bits. */
    public int code() {
        return code;
    }

    /** Whether a number can be written in it. */
    public boolean holds(long number) {
        if (this == STRING) {
            return false;
        }
        if (octets == 8) {
            return true;
        }
        long values = 1L << (8 * octets);
        return signed
                ? number >= -values / 2 && number < values / 2
                : number >= 0 && number < values;
    }

    static DataType of(int code) throws BadBytesException {
        for (DataType type : values()) {
            if (type.code == code) {
                return type;
            }
        }
        throw new BadBytesException("values of type 0x%04X are not read".formatted(code));
    }

    /**
     * Reads a value that stands alone, as the camera gives it.
     *
     * @throws BadBytesException if it is too short
     */
    public PropertyValue read(byte[] value) throws BadBytesException {
        return read(new FieldReader(value, "value of a property"));
    }

    /** The octets of a value that stands alone. */
    public byte[] encode(PropertyValue value) {
        FieldWriter out = new FieldWriter();
        put(out, value);
        return out.written();
    }

    PropertyValue read(FieldReader in) throws BadBytesException {
        if (this == STRING) {
            return new PropertyValue.Text(in.string());
        }
        long bits =
                switch (octets) {
                    case 1 -> signed ? (byte) in.u8() : in.u8();
                    case 2 -> signed ? (short) in.u16() : in.u16();
                    case 4 -> signed ? in.u32() : Integer.toUnsignedLong(in.u32());
                    default -> in.u64();
                };
        return new PropertyValue.Whole(bits);
    }

    void put(FieldWriter out, PropertyValue value) {
        if (this == STRING && value instanceof PropertyValue.Text text) {
            out.string(text.text());
        } else if (this != STRING && value instanceof PropertyValue.Whole whole) {
            for (int i = 0; i < octets; i++) {
                out.u8((int) (whole.number() >> (8 * i)));
            }
        } else {
            throw new IllegalArgumentException(value + " is no " + this);
        }
    }
}

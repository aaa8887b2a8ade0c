package lookstep.protocols.ptpip;

/**
 * Settings of a camera that the standard names, with their units (from memory of ISO 15740). There
 * is none for a colour temperature in kelvin.
 */
public enum DeviceProperty {
    /** {@link DataType#UINT16}: 1 manual, 2 automatic, 4 daylight, 5 fluorescent, 6 tungsten. */
    WHITE_BALANCE(0x5005, DataType.UINT16),
    /** {@link DataType#UINT16}: the f-number times 100. */
    F_NUMBER(0x5007, DataType.UINT16),
    /** {@link DataType#UINT32}: in 1/10000 s. */
    EXPOSURE_TIME(0x500D, DataType.UINT32),
    /** {@link DataType#UINT16}: the ISO speed; 0xFFFF for automatic. */
    EXPOSURE_INDEX(0x500F, DataType.UINT16);

    private final int code;
    private final DataType type;

    DeviceProperty(int code, DataType type) {
        this.code = code;
        this.type = type;
    }

    /** As it is on the wire, 16 bits. */
    public int code() {
        return code;
    }

    /** In which its values are written. */
    public DataType type() {
        return type;
    }
}

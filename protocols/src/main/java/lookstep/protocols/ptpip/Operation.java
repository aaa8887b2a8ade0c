package lookstep.protocols.ptpip;

/** What a camera can be asked to do (ISO 15740, Table 22; those marked so from memory). */
public enum Operation {
    /** Who it is and what it offers: {@link DeviceInfo}. Outside a session as well. */
    GET_DEVICE_INFO(0x1001),
    /** Parameter: a session's number, not 0. */
    OPEN_SESSION(0x1002),
    /** Ends the session. */
    CLOSE_SESSION(0x1003),
    /** Its cards: {@link Numbers}. */
    GET_STORAGE_IDS(0x1004),
    /** Parameter: storage. Data: {@link StorageInfo}. */
    GET_STORAGE_INFO(0x1005),
    /** Parameters: storage, format, association. The number is the response's first parameter. */
    GET_NUM_OBJECTS(0x1006),
    /** Parameters: storage, format, association. Data: {@link Numbers}. */
    GET_OBJECT_HANDLES(0x1007),
    /** Parameter: handle. Data: {@link ObjectInfo}. */
    GET_OBJECT_INFO(0x1008),
    /** Parameter: handle. Data: the file. */
    GET_OBJECT(0x1009),
    /** Parameter: handle. Data: a small picture. */
    GET_THUMB(0x100A),
    /**
     * Parameters: storage, format, both 0 for what the camera thinks best. From memory of ISO
     * 15740.
     */
    INITIATE_CAPTURE(0x100E),
    /** Parameter: property. Data: {@link DevicePropDesc}. From memory of ISO 15740. */
    GET_DEVICE_PROP_DESC(0x1014),
    /** Parameter: property. Data: its value. From memory of ISO 15740. */
    GET_DEVICE_PROP_VALUE(0x1015),
    /** Parameter: property. Data from the computer: its value. From memory of ISO 15740. */
    SET_DEVICE_PROP_VALUE(0x1016),
    /** Parameters: handle, offset, most octets. Data: part of the file. */
    GET_PARTIAL_OBJECT(0x101B);

    /** As the first parameter of {@link #GET_OBJECT_HANDLES}: of all storages. */
    public static final int ALL_STORAGES = 0xFFFF_FFFF;

    private final int code;

    Operation(int code) {
        this.code = code;
    }

    /** As it is on the wire, 16 bits. */
    public int code() {
        return code;
    }
}

package lookstep.protocols.ptpip;

/** What a camera tells of by itself (ISO 15740; as open initiators have them). */
public enum EventCode {
    CANCEL_TRANSACTION(0x4001),
    /** Parameter: handle. */
    OBJECT_ADDED(0x4002),
    /** Parameter: handle. */
    OBJECT_REMOVED(0x4003),
    /** Parameter: storage. */
    STORE_ADDED(0x4004),
    /** Parameter: storage. */
    STORE_REMOVED(0x4005),
    /** Parameter: property. */
    DEVICE_PROP_CHANGED(0x4006),
    /** Parameter: handle. */
    OBJECT_INFO_CHANGED(0x4007),
    DEVICE_INFO_CHANGED(0x4008),
    /** Parameter: handle. */
    REQUEST_OBJECT_TRANSFER(0x4009),
    /** Parameter: storage. */
    STORE_FULL(0x400A),
    DEVICE_RESET(0x400B),
    /** Parameter: storage. */
    STORAGE_INFO_CHANGED(0x400C),
    /** Parameter: transaction of the capture. */
    CAPTURE_COMPLETE(0x400D),
    /** Something changed that was not told: look again. */
    UNREPORTED_STATUS(0x400E);

    private final int code;

    EventCode(int code) {
        this.code = code;
    }

    /** As it is on the wire, 16 bits. */
    public int code() {
        return code;
    }
}

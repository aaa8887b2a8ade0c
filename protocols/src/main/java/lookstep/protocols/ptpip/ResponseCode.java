package lookstep.protocols.ptpip;

import java.util.Arrays;
import java.util.Locale;

/** How a request ended (ISO 15740, Table 27; 0x200A and 0x200C, 0x201B and 0x201C from memory). */
public enum ResponseCode {
    OK(0x2001),
    GENERAL_ERROR(0x2002),
    SESSION_NOT_OPEN(0x2003),
    INVALID_TRANSACTION_ID(0x2004),
    OPERATION_NOT_SUPPORTED(0x2005),
    PARAMETER_NOT_SUPPORTED(0x2006),
    INCOMPLETE_TRANSFER(0x2007),
    INVALID_STORAGE_ID(0x2008),
    INVALID_OBJECT_HANDLE(0x2009),
    DEVICE_PROP_NOT_SUPPORTED(0x200A),
    INVALID_OBJECT_FORMAT_CODE(0x200B),
    STORE_FULL(0x200C),
    ACCESS_DENIED(0x200F),
    NO_THUMBNAIL_PRESENT(0x2010),
    STORE_NOT_AVAILABLE(0x2013),
    SPECIFICATION_BY_FORMAT_UNSUPPORTED(0x2014),
    NO_VALID_OBJECT_INFO(0x2015),
    DEVICE_BUSY(0x2019),
    INVALID_PARENT_OBJECT(0x201A),
    INVALID_DEVICE_PROP_FORMAT(0x201B),
    INVALID_DEVICE_PROP_VALUE(0x201C),
    INVALID_PARAMETER(0x201D),
    SESSION_ALREADY_OPEN(0x201E),
    TRANSACTION_CANCELLED(0x201F);

    private final int code;

    ResponseCode(int code) {
        this.code = code;
    }

    /** As it is on the wire, 16 bits. */
    public int code() {
        return code;
    }

    /** For people: {@code device busy}, or {@code response 0xA001} for one that is not known. */
    public static String words(int code) {
        return Arrays.stream(values())
                .filter(r -> r.code == code)
                .findFirst()
                .map(r -> r.name().toLowerCase(Locale.ROOT).replace('_', ' '))
                .orElseGet(() -> "response 0x%04X".formatted(code));
    }
}

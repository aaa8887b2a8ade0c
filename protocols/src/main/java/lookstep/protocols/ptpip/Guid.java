package lookstep.protocols.ptpip;

import java.util.UUID;

/** The 16 octets that tell one device from all others, in the order in which they are written. */
final class Guid {
    private Guid() {}

    static UUID read(FieldReader in) throws BadBytesException {
        long high = Long.reverseBytes(in.u64());
        long low = Long.reverseBytes(in.u64());
        return new UUID(high, low);
    }

    static void put(FieldWriter out, UUID guid) {
        out.u64(Long.reverseBytes(guid.getMostSignificantBits()));
        out.u64(Long.reverseBytes(guid.getLeastSignificantBits()));
    }
}

package lookstep.protocols.ptpip;

import java.util.Arrays;

/**
 * Some data; more follows (CIPA DC-005, 2.3.10).
 *
 * @param transaction number of the request
 * @param octets the data; shared, so not to be changed
 */
@SuppressWarnings("ArrayRecordComponent") // large, and compared by what it holds
public record Data(int transaction, byte[] octets) implements Packet {
    static final int TYPE = 10;

    @Override
    public byte[] encode() {
        return new FieldWriter().u32(transaction).octets(octets).asPacket(TYPE);
    }

    static Data read(byte[] payload) throws BadBytesException {
        FieldReader in = new FieldReader(payload, "Data");
        return new Data(in.u32(), in.rest());
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Data data
                && data.transaction == transaction
                && Arrays.equals(data.octets, octets);
    }

    @Override
    public int hashCode() {
        return 31 * transaction + Arrays.hashCode(octets);
    }

    @Override
    public String toString() {
        return "Data[transaction=%d, %d octets]".formatted(transaction, octets.length);
    }
}

package lookstep.protocols.ptpip;

import java.util.Arrays;

/**
 * The last of the data, which may be nothing (CIPA DC-005, 2.3.11).
 *
 * @param transaction number of the request
 * @param octets the data; shared, so not to be changed
 */
@SuppressWarnings("ArrayRecordComponent") // large, and compared by what it holds
public record EndData(int transaction, byte[] octets) implements Packet {
    static final int TYPE = 12;

    @Override
    public byte[] encode() {
        return new FieldWriter().u32(transaction).octets(octets).asPacket(TYPE);
    }

    static EndData read(byte[] payload) throws BadBytesException {
        FieldReader in = new FieldReader(payload, "End Data");
        return new EndData(in.u32(), in.rest());
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof EndData data
                && data.transaction == transaction
                && Arrays.equals(data.octets, octets);
    }

    @Override
    public int hashCode() {
        return 31 * transaction + Arrays.hashCode(octets);
    }

    @Override
    public String toString() {
        return "EndData[transaction=%d, %d octets]".formatted(transaction, octets.length);
    }
}

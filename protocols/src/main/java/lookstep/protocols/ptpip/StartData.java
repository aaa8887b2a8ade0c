package lookstep.protocols.ptpip;

/**
 * Data follows (CIPA DC-005, 2.3.9).
 *
 * @param transaction number of the request
 * @param length octets in all that follow, or {@link #UNKNOWN}
 */
public record StartData(int transaction, long length) implements Packet {
    /** It is not known yet how much follows. */
    public static final long UNKNOWN = -1;

    static final int TYPE = 9;

    @Override
    public byte[] encode() {
        return new FieldWriter().u32(transaction).u64(length).asPacket(TYPE);
    }

    static StartData read(byte[] payload) throws BadBytesException {
        FieldReader in = new FieldReader(payload, "Start Data");
        return new StartData(in.u32(), in.u64());
    }
}

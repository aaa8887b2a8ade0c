package lookstep.protocols.ptpip;

/**
 * A request is called off, by either side (CIPA DC-005, 2.3.11 and 2.3.12).
 *
 * @param transaction number of the request
 */
public record Cancel(int transaction) implements Packet {
    static final int TYPE = 11;

    @Override
    public byte[] encode() {
        return new FieldWriter().u32(transaction).asPacket(TYPE);
    }

    static Cancel read(byte[] payload) throws BadBytesException {
        return new Cancel(new FieldReader(payload, "Cancel").u32());
    }
}

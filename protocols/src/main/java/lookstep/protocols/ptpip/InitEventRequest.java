package lookstep.protocols.ptpip;

/**
 * The first packet on the second connection, for events (CIPA DC-005, 2.3.3).
 *
 * @param connection number that the camera gave
 */
public record InitEventRequest(int connection) implements Packet {
    static final int TYPE = 3;

    @Override
    public byte[] encode() {
        return new FieldWriter().u32(connection).asPacket(TYPE);
    }

    static InitEventRequest read(byte[] payload) throws BadBytesException {
        return new InitEventRequest(new FieldReader(payload, "Init Event Request").u32());
    }
}

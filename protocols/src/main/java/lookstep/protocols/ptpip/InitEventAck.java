package lookstep.protocols.ptpip;

/** The camera takes the second connection on (CIPA DC-005, 2.3.4). */
public record InitEventAck() implements Packet {
    static final int TYPE = 4;

    @Override
    public byte[] encode() {
        return new FieldWriter().asPacket(TYPE);
    }
}

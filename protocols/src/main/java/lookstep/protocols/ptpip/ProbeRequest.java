package lookstep.protocols.ptpip;

/**
 * Asks the other side whether it is still there, on the second connection (CIPA DC-005, 2.3.13).
 */
public record ProbeRequest() implements Packet {
    static final int TYPE = 13;

    @Override
    public byte[] encode() {
        return new FieldWriter().asPacket(TYPE);
    }
}

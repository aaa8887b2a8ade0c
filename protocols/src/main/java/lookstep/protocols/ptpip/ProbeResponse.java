package lookstep.protocols.ptpip;

/** The other side is still there (CIPA DC-005, 2.3.14). */
public record ProbeResponse() implements Packet {
    static final int TYPE = 14;

    @Override
    public byte[] encode() {
        return new FieldWriter().asPacket(TYPE);
    }
}

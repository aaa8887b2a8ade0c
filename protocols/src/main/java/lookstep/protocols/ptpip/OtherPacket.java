package lookstep.protocols.ptpip;

/**
 * A packet of a type that the standard does not know. It is passed over.
 *
 * @param type its number
 */
public record OtherPacket(int type) implements Packet {
    /** Without its content, which is not kept. */
    @Override
    public byte[] encode() {
        return new FieldWriter().asPacket(type);
    }
}

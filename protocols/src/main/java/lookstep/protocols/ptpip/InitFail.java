package lookstep.protocols.ptpip;

/**
 * The camera does not take the computer on (CIPA DC-005, 2.3.5; reasons as open initiators have
 * them).
 *
 * @param reason {@link #REJECTED}, {@link #BUSY}, {@link #UNSPECIFIED} or another number
 */
public record InitFail(int reason) implements Packet {
    /** It does not want this computer. */
    public static final int REJECTED = 1;

    /** It is taken. */
    public static final int BUSY = 2;

    /** It does not say why. */
    public static final int UNSPECIFIED = 3;

    static final int TYPE = 5;

    @Override
    public byte[] encode() {
        return new FieldWriter().u32(reason).asPacket(TYPE);
    }

    static InitFail read(byte[] payload) throws BadBytesException {
        return new InitFail(new FieldReader(payload, "Init Fail").u32());
    }
}

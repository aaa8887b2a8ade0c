package lookstep.protocols.sacn;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.UUID;

/**
 * The outermost layer, the same in all three packets (ANSI E1.31-2018, clause 5).
 *
 * @param vector {@link #DATA} or {@link #EXTENDED}
 * @param cid who sends; constant for the sender's life
 */
record RootLayer(int vector, UUID cid) {
    /** Octets before the framing layer. */
    static final int OCTETS = 38;

    /** A data packet follows. */
    static final int DATA = 0x0000_0004;

    /** A synchronisation or a discovery packet follows. */
    static final int EXTENDED = 0x0000_0008;

    private static final int PREAMBLE_SIZE = 0x0010;
    private static final int POSTAMBLE_SIZE = 0x0000;
    private static final byte[] IDENTIFIER = "ASC-E1.17\0\0\0".getBytes(StandardCharsets.US_ASCII);

    /** Writes it into a buffer of the whole packet's size. */
    static void put(ByteBuffer out, int vector, UUID cid) {
        out.putShort((short) PREAMBLE_SIZE).putShort((short) POSTAMBLE_SIZE).put(IDENTIFIER);
        Pdu.put(out);
        out.putInt(vector)
                .putLong(cid.getMostSignificantBits())
                .putLong(cid.getLeastSignificantBits());
    }

    static RootLayer read(ByteBuffer in) throws BadPacketException {
        byte[] identifier = new byte[IDENTIFIER.length];
        if (in.remaining() < 4 + identifier.length) {
            throw new BadPacketException(
                    "%d octets: too short for any packet of E1.31".formatted(in.remaining()));
        }
        Pdu.expect(Short.toUnsignedInt(in.getShort()), PREAMBLE_SIZE, "preamble size");
        Pdu.expect(Short.toUnsignedInt(in.getShort()), POSTAMBLE_SIZE, "postamble size");
        in.get(identifier);
        if (!Arrays.equals(identifier, IDENTIFIER)) {
            throw new BadPacketException("the packet identifier is not ASC-E1.17");
        }
        Pdu.read(in, "root layer");
        if (in.remaining() < 4 + 16) {
            throw Pdu.cut("root layer");
        }
        int vector = in.getInt();
        if (vector != DATA && vector != EXTENDED) {
            throw new BadPacketException("root layer: vector %d is unknown".formatted(vector));
        }
        return new RootLayer(vector, new UUID(in.getLong(), in.getLong()));
    }
}

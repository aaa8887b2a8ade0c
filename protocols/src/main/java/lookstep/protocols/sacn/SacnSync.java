package lookstep.protocols.sacn;

import java.nio.ByteBuffer;
import java.util.UUID;

/**
 * One synchronisation packet: act now on the slots that wait for it (ANSI E1.31-2018, Table 4-2,
 * clause 6.3).
 *
 * @param cid who sends
 * @param sequence 0..255, a series of its own for each synchronisation address
 * @param syncAddress 1..63999, the universe that the waiting data packets named
 */
public record SacnSync(UUID cid, int sequence, int syncAddress) implements SacnReading {
    static final int FRAMING_VECTOR = 0x0000_0001;

    private static final int OCTETS = 49;

    public SacnSync {
        if (sequence < 0 || sequence > 255) {
            throw new IllegalArgumentException("sequence " + sequence + ": must be 0 to 255");
        }
        SacnAddress.requireUniverse(syncAddress, "synchronisation address");
    }

    /** The datagram, 49 octets. */
    public byte[] encode() {
        ByteBuffer out = ByteBuffer.allocate(OCTETS);
        RootLayer.put(out, RootLayer.EXTENDED, cid);
        Pdu.put(out);
        out.putInt(FRAMING_VECTOR).put((byte) sequence).putShort((short) syncAddress);
        // the last two octets are reserved: 0
        return out.array();
    }

    static SacnSync read(UUID cid, ByteBuffer in) throws BadPacketException {
        Pdu.expect(in.capacity(), OCTETS, "length of a synchronisation packet");
        Pdu.skip(in, "framing layer");
        int sequence = Byte.toUnsignedInt(in.get());
        int syncAddress = Short.toUnsignedInt(in.getShort());
        SacnData.requireUniverse(syncAddress, "synchronisation address");
        return new SacnSync(cid, sequence, syncAddress);
    }
}

package lookstep.protocols.sacn;

import java.nio.ByteBuffer;

/**
 * The beginning of each layer: four bits of flags, all set but the first, and twelve bits of length
 * from there to the end of the packet (clauses 5.4, 6.1, 7.1 and 8.1).
 */
final class Pdu {
    private static final int FLAGS = 0x7000;
    private static final int LENGTH = 0x0FFF;

    private Pdu() {}

    /** Writes flags and length of a layer that begins here and fills the buffer. */
    static void put(ByteBuffer out) {
        out.putShort((short) (FLAGS | out.remaining()));
    }

    /** Reads flags and length, and checks that the layer ends where the datagram does. */
    static void read(ByteBuffer in, String layer) throws BadPacketException {
        int there = in.remaining();
        if (there < 2) {
            throw cut(layer);
        }
        int word = Short.toUnsignedInt(in.getShort());
        if ((word & ~LENGTH) != FLAGS) {
            throw new BadPacketException("%s: flags of 0x%04X are not 7".formatted(layer, word));
        }
        if ((word & LENGTH) != there) {
            throw new BadPacketException(
                    "%s: says %d octets, has %d".formatted(layer, word & LENGTH, there));
        }
    }

    /** The four octets after flags and length, without moving on. */
    static int vector(ByteBuffer in, String layer) throws BadPacketException {
        if (in.remaining() < 6) {
            throw cut(layer);
        }
        return in.getInt(in.position() + 2);
    }

    /** Reads flags and length, and the vector, which is already known to be the right one. */
    static void skip(ByteBuffer in, String layer) throws BadPacketException {
        read(in, layer);
        in.getInt();
    }

    static void expect(long is, long wanted, String what) throws BadPacketException {
        if (is != wanted) {
            throw new BadPacketException("%s is %d, must be %d".formatted(what, is, wanted));
        }
    }

    static BadPacketException cut(String layer) {
        return new BadPacketException(layer + ": the datagram ends before it does");
    }
}

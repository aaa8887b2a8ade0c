package lookstep.protocols.sacn;

import java.nio.ByteBuffer;

/** Tells which packet a datagram is. Never throws, whatever the octets are. */
public final class SacnReader {
    private SacnReader() {}

    /** The packet in one datagram, or what is wrong with it. */
    public static SacnReading read(byte[] datagram) {
        ByteBuffer in = ByteBuffer.wrap(datagram);
        try {
            RootLayer root = RootLayer.read(in);
            if (root.vector() == RootLayer.DATA) {
                return SacnData.read(root.cid(), in);
            }
            int vector = Pdu.vector(in, "framing layer");
            return switch (vector) {
                case SacnSync.FRAMING_VECTOR -> SacnSync.read(root.cid(), in);
                case SacnDiscovery.FRAMING_VECTOR -> SacnDiscovery.read(root.cid(), in);
                default ->
                        throw new BadPacketException(
                                "framing layer: vector %d of an extended packet is unknown"
                                        .formatted(vector));
            };
        } catch (BadPacketException bad) {
            return new SacnFault(bad.getMessage());
        }
    }
}

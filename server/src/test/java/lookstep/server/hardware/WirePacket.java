package lookstep.server.hardware;

import java.util.HexFormat;

/** One whole packet as it left: the START code and 512 slots. */
final class WirePacket {
    private final long breakAtNanos;
    private final byte[] bytes;

    private WirePacket(long breakAtNanos, byte[] bytes) {
        this.breakAtNanos = breakAtNanos;
        this.bytes = bytes;
    }

    static WirePacket ofHex(long breakAtNanos, String hex) {
        return new WirePacket(breakAtNanos, HexFormat.of().parseHex(hex));
    }

    /** Since the Unix epoch. */
    long breakAtNanos() {
        return breakAtNanos;
    }

    /**
     * What one slot holds, 0 to 255.
     *
     * @param slot 0 for the START code, 1 to 512 for levels
     */
    int slot(int slot) {
        return Byte.toUnsignedInt(bytes[slot]);
    }
}

package lookstep.simulator.gear;

import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.HexFormat;

/**
 * Data and synchronisation packets laid out by hand after ANSI E1.31-2018, Tables 4-1 and 4-2, and
 * not by the product's own codec: octets at the offsets that the tables give.
 */
final class SacnDatagram {
    private static final HexFormat HEX = HexFormat.of();

    /** Preamble and postamble sizes, then "ASC-E1.17". */
    private static final String HEAD = "00100000" + "4153432d45312e3137000000";

    private final byte[] octets;

    private SacnDatagram(byte[] octets) {
        this.octets = octets;
    }

    /**
     * Priority 100, not synchronised, no options, START code 0, all 512 slots at one level.
     *
     * @param sender becomes the last octet of its CID and of its name
     */
    static SacnDatagram data(char sender, int universe, int sequence, int level) {
        byte[] octets = new byte[638];
        put(octets, 0, HEAD + "726e" + "00000004");
        octets[37] = (byte) sender;
        put(octets, 38, "7258" + "00000002" + "73656e64657220"); // "sender "
        octets[51] = (byte) sender;
        octets[108] = 100;
        octets[111] = (byte) sequence;
        ByteBuffer.wrap(octets).putShort(113, (short) universe);
        put(octets, 115, "720b" + "02" + "a1" + "0000" + "0001" + "0201" + "00");
        Arrays.fill(octets, 126, 638, (byte) level);
        return new SacnDatagram(octets);
    }

    static SacnDatagram sync(char sender, int address, int sequence) {
        byte[] octets = new byte[49];
        put(octets, 0, HEAD + "7021" + "00000008");
        octets[37] = (byte) sender;
        put(octets, 38, "700b" + "00000001");
        octets[44] = (byte) sequence;
        ByteBuffer.wrap(octets).putShort(45, (short) address);
        return new SacnDatagram(octets);
    }

    SacnDatagram priority(int priority) {
        return with(108, priority);
    }

    SacnDatagram synchronised(int address) {
        return with(109, address >> 8).with(110, address & 0xFF);
    }

    SacnDatagram options(int octet) {
        return with(112, octet);
    }

    SacnDatagram startCode(int code) {
        return with(125, code);
    }

    SacnDatagram slot(int slot, int level) {
        return with(125 + slot, level);
    }

    /** The same with fewer slots; lengths and count as the table says for that many. */
    SacnDatagram slots(int count) {
        byte[] shorter = Arrays.copyOf(octets, 126 + count);
        ByteBuffer.wrap(shorter)
                .putShort(16, (short) (0x7000 | 110 + count))
                .putShort(38, (short) (0x7000 | 88 + count))
                .putShort(115, (short) (0x7000 | 11 + count))
                .putShort(123, (short) (1 + count));
        return new SacnDatagram(shorter);
    }

    SacnDatagram with(int offset, int octet) {
        byte[] changed = octets.clone();
        changed[offset] = (byte) octet;
        return new SacnDatagram(changed);
    }

    byte[] octets() {
        return octets.clone();
    }

    private static void put(byte[] octets, int at, String hex) {
        byte[] some = HEX.parseHex(hex);
        System.arraycopy(some, 0, octets, at, some.length);
    }
}

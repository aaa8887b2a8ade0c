package lookstep.protocols.sacn;

import java.nio.ByteBuffer;
import java.util.UUID;
import lookstep.protocols.dmx.DmxPacket;

/**
 * One data packet: the slots of one universe at one moment (ANSI E1.31-2018, Table 4-1, clauses 6.2
 * and 7).
 *
 * @param cid who sends
 * @param sourceName what the sender calls itself, at most 63 octets of UTF-8
 * @param priority 0..200; lights act on the highest
 * @param syncAddress the universe whose synchronisation packet these slots wait for; 0 for none
 * @param sequence 0..255, one more with each packet of this universe
 * @param options what else is to be known
 * @param universe 1..63999
 * @param slots the START code and the slots
 */
public record SacnData(
        UUID cid,
        String sourceName,
        int priority,
        int syncAddress,
        int sequence,
        SacnOptions options,
        int universe,
        SacnSlots slots)
        implements SacnReading {
    /** The priority of a sender that was told none (Table 4-1). */
    public static final int DEFAULT_PRIORITY = 100;

    /** The highest priority. */
    public static final int MOST_PRIORITY = 200;

    private static final int FRAMING_VECTOR = 0x0000_0002;
    private static final int SET_PROPERTY = 0x02;
    private static final int ADDRESS_AND_DATA_TYPE = 0xA1;
    private static final int FIRST_PROPERTY = 0x0000;
    private static final int INCREMENT = 0x0001;

    /** Octets of a packet without slots. */
    private static final int LEAST_OCTETS = 126;

    public SacnData {
        SourceName.require(sourceName);
        if (priority < 0 || priority > MOST_PRIORITY) {
            throw new IllegalArgumentException(
                    "priority %d: must be 0 to %d".formatted(priority, MOST_PRIORITY));
        }
        if (syncAddress != 0) {
            SacnAddress.requireUniverse(syncAddress, "synchronisation address");
        }
        if (sequence < 0 || sequence > 255) {
            throw new IllegalArgumentException("sequence " + sequence + ": must be 0 to 255");
        }
        SacnAddress.requireUniverse(universe, "universe");
    }

    /** The datagram: 126 octets and one for each slot. */
    public byte[] encode() {
        ByteBuffer out = ByteBuffer.allocate(LEAST_OCTETS + slots.count());
        RootLayer.put(out, RootLayer.DATA, cid);
        Pdu.put(out);
        out.putInt(FRAMING_VECTOR);
        SourceName.put(out, sourceName);
        out.put((byte) priority).putShort((short) syncAddress).put((byte) sequence);
        out.put((byte) options.octet()).putShort((short) universe);
        Pdu.put(out);
        out.put((byte) SET_PROPERTY).put((byte) ADDRESS_AND_DATA_TYPE);
        out.putShort((short) FIRST_PROPERTY).putShort((short) INCREMENT);
        out.putShort((short) (1 + slots.count()));
        out.put((byte) slots.startCode()).put(slots.octets());
        return out.array();
    }

    static SacnData read(UUID cid, ByteBuffer in) throws BadPacketException {
        if (in.capacity() < LEAST_OCTETS) {
            throw Pdu.cut("data packet");
        }
        Pdu.read(in, "framing layer");
        Pdu.expect(in.getInt(), FRAMING_VECTOR, "framing layer: vector of a data packet");
        String sourceName = SourceName.read(in);
        int priority = Byte.toUnsignedInt(in.get());
        if (priority > MOST_PRIORITY) {
            throw new BadPacketException(
                    "priority is %d, must be 0 to %d".formatted(priority, MOST_PRIORITY));
        }
        int syncAddress = Short.toUnsignedInt(in.getShort());
        if (syncAddress != 0) {
            requireUniverse(syncAddress, "synchronisation address");
        }
        int sequence = Byte.toUnsignedInt(in.get());
        SacnOptions options = SacnOptions.ofOctet(Byte.toUnsignedInt(in.get()));
        int universe = Short.toUnsignedInt(in.getShort());
        requireUniverse(universe, "universe");
        return new SacnData(
                cid, sourceName, priority, syncAddress, sequence, options, universe, slots(in));
    }

    private static SacnSlots slots(ByteBuffer in) throws BadPacketException {
        Pdu.read(in, "DMP layer");
        Pdu.expect(Byte.toUnsignedInt(in.get()), SET_PROPERTY, "DMP layer: vector");
        Pdu.expect(
                Byte.toUnsignedInt(in.get()),
                ADDRESS_AND_DATA_TYPE,
                "DMP layer: address and data type");
        Pdu.expect(
                Short.toUnsignedInt(in.getShort()),
                FIRST_PROPERTY,
                "DMP layer: first property address");
        Pdu.expect(Short.toUnsignedInt(in.getShort()), INCREMENT, "DMP layer: address increment");
        int count = Short.toUnsignedInt(in.getShort());
        Pdu.expect(count, in.remaining(), "DMP layer: property value count");
        if (count > 1 + DmxPacket.SLOTS) {
            throw new BadPacketException(
                    "%d slots: must be 0 to %d".formatted(count - 1, DmxPacket.SLOTS));
        }
        int startCode = Byte.toUnsignedInt(in.get());
        byte[] slots = new byte[in.remaining()];
        in.get(slots);
        return new SacnSlots(startCode, slots);
    }

    static void requireUniverse(int universe, String what) throws BadPacketException {
        if (!SacnAddress.isUniverse(universe)) {
            throw new BadPacketException(
                    "%s is %d, must be %d to %d"
                            .formatted(
                                    what,
                                    universe,
                                    SacnAddress.LEAST_UNIVERSE,
                                    SacnAddress.MOST_UNIVERSE));
        }
    }
}

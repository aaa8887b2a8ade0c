package lookstep.protocols.ptpip;

import java.util.List;

/**
 * The camera tells that something happened, on the second connection (CIPA DC-005, 2.3.8).
 *
 * @param event code, as of {@link EventCode}
 * @param transaction that it belongs to, or {@link Packet#NO_TRANSACTION}
 * @param parameters 0 to 3, 32 bits each
 */
public record EventPacket(int event, int transaction, List<Integer> parameters) implements Packet {
    static final int TYPE = 8;

    private static final int MOST_PARAMETERS = 3;

    public EventPacket {
        parameters = List.copyOf(parameters);
        if (parameters.size() > MOST_PARAMETERS) {
            throw new IllegalArgumentException(parameters.size() + " parameters: at most 3");
        }
    }

    @Override
    public byte[] encode() {
        return new FieldWriter().u16(event).u32(transaction).parameters(parameters).asPacket(TYPE);
    }

    static EventPacket read(byte[] payload) throws BadBytesException {
        FieldReader in = new FieldReader(payload, "Event");
        return new EventPacket(in.u16(), in.u32(), in.parameters(MOST_PARAMETERS));
    }
}

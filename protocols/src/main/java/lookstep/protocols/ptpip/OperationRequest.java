package lookstep.protocols.ptpip;

import java.util.List;

/**
 * Asks the camera to do something (CIPA DC-005, 2.3.6).
 *
 * @param dataPhase {@link #NO_DATA_OUT} or {@link #DATA_OUT}
 * @param operation code, as of {@link Operation}
 * @param transaction number of this request; 0 outside a session and for opening one
 * @param parameters 0 to 5, 32 bits each
 */
public record OperationRequest(
        int dataPhase, int operation, int transaction, List<Integer> parameters) implements Packet {
    /** No data follows from the computer; from the camera it may. */
    public static final int NO_DATA_OUT = 1;

    /** Data follows from the computer. */
    public static final int DATA_OUT = 2;

    /** The most parameters of a request, and of a response. */
    public static final int MOST_PARAMETERS = 5;

    static final int TYPE = 6;

    public OperationRequest {
        parameters = List.copyOf(parameters);
        if (parameters.size() > MOST_PARAMETERS) {
            throw new IllegalArgumentException(parameters.size() + " parameters: at most 5");
        }
    }

    @Override
    public byte[] encode() {
        return new FieldWriter()
                .u32(dataPhase)
                .u16(operation)
                .u32(transaction)
                .parameters(parameters)
                .asPacket(TYPE);
    }

    static OperationRequest read(byte[] payload) throws BadBytesException {
        FieldReader in = new FieldReader(payload, "Operation Request");
        return new OperationRequest(in.u32(), in.u16(), in.u32(), in.parameters(MOST_PARAMETERS));
    }
}

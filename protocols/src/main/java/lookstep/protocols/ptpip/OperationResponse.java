package lookstep.protocols.ptpip;

import java.util.List;

/**
 * How a request ended (CIPA DC-005, 2.3.7).
 *
 * @param response code, as of {@link ResponseCode}
 * @param transaction number of the request
 * @param parameters 0 to 5, 32 bits each
 */
public record OperationResponse(int response, int transaction, List<Integer> parameters)
        implements Packet {
    static final int TYPE = 7;

    public OperationResponse {
        parameters = List.copyOf(parameters);
        if (parameters.size() > OperationRequest.MOST_PARAMETERS) {
            throw new IllegalArgumentException(parameters.size() + " parameters: at most 5");
        }
    }

    @Override
    public byte[] encode() {
        return new FieldWriter()
                .u16(response)
                .u32(transaction)
                .parameters(parameters)
                .asPacket(TYPE);
    }

    static OperationResponse read(byte[] payload) throws BadBytesException {
        FieldReader in = new FieldReader(payload, "Operation Response");
        return new OperationResponse(
                in.u16(), in.u32(), in.parameters(OperationRequest.MOST_PARAMETERS));
    }
}

package lookstep.protocols.ptpip;

/**
 * One packet of PTP/IP (CIPA DC-005, 2.3). Each begins with its length, these octets included, and
 * its type, 32 bits each. Numbers of 32 bits are kept as an int with all its bits, so a large one
 * looks negative.
 */
public sealed interface Packet
        permits InitCommandRequest,
                InitCommandAck,
                InitEventRequest,
                InitEventAck,
                InitFail,
                OperationRequest,
                OperationResponse,
                EventPacket,
                StartData,
                Data,
                Cancel,
                EndData,
                ProbeRequest,
                ProbeResponse,
                OtherPacket {
    /** Length and type. */
    int HEADER_OCTETS = 8;

    /** The TCP port of a camera (CIPA DC-005, 2.2.3.1). */
    int PORT = 15740;

    /** Version 1.0 of PTP/IP: the high half is the major number (CIPA DC-005, clause 3). */
    int VERSION = 0x0001_0000;

    /** In place of a transaction: none. */
    int NO_TRANSACTION = 0xFFFF_FFFF;

    /** The whole packet. */
    byte[] encode();

    /**
     * Reads what follows the length and the type. What is longer than the standard says is passed
     * over; a type that it does not know becomes an {@link OtherPacket}.
     *
     * @throws BadBytesException if it is too short for its type
     */
    static Packet read(int type, byte[] payload) throws BadBytesException {
        return switch (type) {
            case InitCommandRequest.TYPE -> InitCommandRequest.read(payload);
            case InitCommandAck.TYPE -> InitCommandAck.read(payload);
            case InitEventRequest.TYPE -> InitEventRequest.read(payload);
            case InitEventAck.TYPE -> new InitEventAck();
            case InitFail.TYPE -> InitFail.read(payload);
            case OperationRequest.TYPE -> OperationRequest.read(payload);
            case OperationResponse.TYPE -> OperationResponse.read(payload);
            case EventPacket.TYPE -> EventPacket.read(payload);
            case StartData.TYPE -> StartData.read(payload);
            case Data.TYPE -> Data.read(payload);
            case Cancel.TYPE -> Cancel.read(payload);
            case EndData.TYPE -> EndData.read(payload);
            case ProbeRequest.TYPE -> new ProbeRequest();
            case ProbeResponse.TYPE -> new ProbeResponse();
            default -> new OtherPacket(type);
        };
    }
}

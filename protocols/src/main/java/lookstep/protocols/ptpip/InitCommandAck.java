package lookstep.protocols.ptpip;

import java.util.UUID;

/**
 * The camera takes the computer on (CIPA DC-005, 2.3.2).
 *
 * @param connection number that the second connection is to name
 * @param guid of the camera
 * @param name of the camera, for people
 * @param version of the protocol, as {@link Packet#VERSION}
 */
public record InitCommandAck(int connection, UUID guid, String name, int version)
        implements Packet {
    static final int TYPE = 2;

    @Override
    public byte[] encode() {
        FieldWriter out = new FieldWriter().u32(connection);
        Guid.put(out, guid);
        return out.name(name).u32(version).asPacket(TYPE);
    }

    static InitCommandAck read(byte[] payload) throws BadBytesException {
        FieldReader in = new FieldReader(payload, "Init Command Ack");
        return new InitCommandAck(in.u32(), Guid.read(in), in.name(), in.u32());
    }
}

package lookstep.protocols.ptpip;

import java.util.UUID;

/**
 * The first packet on the first connection: a computer asks for the camera (CIPA DC-005, 2.3.1).
 *
 * @param guid of the computer, always the same
 * @param name of the computer, for people
 * @param version of the protocol, as {@link Packet#VERSION}
 */
public record InitCommandRequest(UUID guid, String name, int version) implements Packet {
    static final int TYPE = 1;

    @Override
    public byte[] encode() {
        FieldWriter out = new FieldWriter();
        Guid.put(out, guid);
        return out.name(name).u32(version).asPacket(TYPE);
    }

    static InitCommandRequest read(byte[] payload) throws BadBytesException {
        FieldReader in = new FieldReader(payload, "Init Command Request");
        return new InitCommandRequest(Guid.read(in), in.name(), in.u32());
    }
}

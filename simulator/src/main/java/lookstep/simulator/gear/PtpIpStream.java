package lookstep.simulator.gear;

import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.net.Socket;
import java.util.Optional;
import lookstep.protocols.ptpip.BadBytesException;
import lookstep.protocols.ptpip.Packet;
import lookstep.protocols.ptpip.PacketReader;

/** Packets over one connection. One thread reads; any thread writes. */
final class PtpIpStream {
    private final Socket socket;
    private final PacketReader packets = new PacketReader();
    private final byte[] buffer = new byte[1 << 14];

    PtpIpStream(Socket socket) {
        this.socket = socket;
    }

    /**
     * Waits for the next packet; throws at the end of the connection, and for bytes that are none.
     */
    Packet read() throws IOException {
        try {
            Optional<Packet> next = packets.next();
            while (next.isEmpty()) {
                InputStream in = socket.getInputStream();
                int count = in.read(buffer);
                if (count < 0) {
                    throw new EOFException("the other end has closed");
                }
                packets.feed(buffer, 0, count);
                next = packets.next();
            }
            return next.get();
        } catch (BadBytesException noPacket) {
            throw new IOException(noPacket);
        }
    }

    /** Whether something has come that was not read yet. */
    boolean hasMore() throws IOException {
        return socket.getInputStream().available() > 0;
    }

    synchronized void write(byte[] octets) throws IOException {
        socket.getOutputStream().write(octets);
    }
}

package lookstep.server.soak;

import java.net.InetSocketAddress;
import lookstep.protocols.wire.DatagramPort;
import lookstep.protocols.wire.Datagrams;
import lookstep.protocols.wire.LineLostException;
import lookstep.protocols.wire.Sending;

/**
 * A network that is passed through, with a beat at each datagram for one listener. Levels that stay
 * are said about once a second only (ANSI E1.31, clause 6.6.2).
 */
public record TimedNetwork(DatagramPort port, InetSocketAddress listener, Beats beats)
        implements DatagramPort {
    @Override
    public String name() {
        return port.name();
    }

    @Override
    public Datagrams open() throws LineLostException {
        Datagrams datagrams = port.open();
        return new Datagrams() {
            @Override
            public Sending send(byte[] octets, InetSocketAddress to) throws LineLostException {
                if (to.equals(listener)) {
                    beats.beat(System.nanoTime());
                }
                return datagrams.send(octets, to);
            }

            @Override
            public void requireUp() throws LineLostException {
                datagrams.requireUp();
            }

            @Override
            public void close() {
                datagrams.close();
            }
        };
    }
}

package lookstep.protocols.wire;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.NetworkInterface;
import java.net.PortUnreachableException;
import java.net.StandardProtocolFamily;
import java.net.StandardSocketOptions;
import java.nio.ByteBuffer;
import java.nio.channels.DatagramChannel;
import java.util.HashMap;
import java.util.Map;

/**
 * Open sockets on one interface: one for all multicast groups, and one for each single machine. So
 * a machine that is switched off fills only its own buffer while the system looks for it, and one
 * that refuses is known by name.
 */
final class UdpDatagrams implements Datagrams {
    private final UdpPort port;
    private final NetworkInterfaces.Chosen chosen;
    private final DatagramChannel groups;
    private final Map<InetSocketAddress, DatagramChannel> machines = new HashMap<>();
    private boolean closed;

    UdpDatagrams(UdpPort port, NetworkInterfaces.Chosen chosen, int timeToLive) throws IOException {
        this.port = port;
        this.chosen = chosen;
        groups = bound();
        try {
            NetworkInterface network = NetworkInterface.getByName(chosen.name());
            if (network == null) {
                throw new IOException("it went away this moment");
            }
            groups.setOption(StandardSocketOptions.IP_MULTICAST_IF, network);
            groups.setOption(StandardSocketOptions.IP_MULTICAST_TTL, timeToLive);
            groups.setOption(StandardSocketOptions.IP_MULTICAST_LOOP, true);
        } catch (IOException e) {
            groups.close();
            throw e;
        }
    }

    private DatagramChannel bound() throws IOException {
        DatagramChannel channel = DatagramChannel.open(StandardProtocolFamily.INET);
        try {
            channel.configureBlocking(false);
            channel.bind(new InetSocketAddress(chosen.own(), 0));
            return channel;
        } catch (IOException e) {
            channel.close();
            throw e;
        }
    }

    @Override
    public synchronized Sending send(byte[] octets, InetSocketAddress to) throws LineLostException {
        requireOpen();
        try {
            return taken(once(octets, to));
        } catch (IOException first) {
            // what came up may be the answer to an earlier datagram; then this one is still unsent
            try {
                once(octets, to);
            } catch (IOException second) {
                // refused again: then nothing was sent
            }
            requireUp();
            return why(first, to);
        }
    }

    private int once(byte[] octets, InetSocketAddress to) throws IOException {
        ByteBuffer datagram = ByteBuffer.wrap(octets);
        if (to.getAddress().isMulticastAddress()) {
            return groups.send(datagram, to);
        }
        DatagramChannel machine = machines.get(to);
        if (machine == null) {
            machine = bound();
            try {
                machine.connect(to);
            } catch (IOException e) {
                machine.close();
                throw e;
            }
            machines.put(to, machine);
        }
        return machine.write(datagram);
    }

    private static Sending taken(int octets) {
        return octets == 0 ? Sending.DROPPED : Sending.SENT;
    }

    private Sending.Refused why(IOException failed, InetSocketAddress to) {
        if (failed instanceof PortUnreachableException) {
            return Sending.Refused.nobodyListens(to);
        }
        return new Sending.Refused(
                "%s:%d: cannot be reached from %s (%s). Check the address and the network settings."
                        .formatted(
                                to.getAddress().getHostAddress(),
                                to.getPort(),
                                port.name(),
                                failed.getMessage()));
    }

    @Override
    public synchronized void requireUp() throws LineLostException {
        requireOpen();
        if (!port.choose().equals(chosen)) {
            throw new LineLostException(
                    port.name() + ": its address has changed; it is opened again.");
        }
    }

    private void requireOpen() throws LineLostException {
        if (closed) {
            throw new LineLostException(port.name() + ": the way into the network was closed.");
        }
    }

    @Override
    public synchronized void close() {
        closed = true;
        machines.values().forEach(UdpDatagrams::shut);
        machines.clear();
        shut(groups);
    }

    private static void shut(DatagramChannel channel) {
        try {
            channel.close();
        } catch (IOException e) {
            // a socket that does not close is gone all the same
        }
    }
}

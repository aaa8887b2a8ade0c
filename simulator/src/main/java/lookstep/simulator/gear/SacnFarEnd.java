package lookstep.simulator.gear;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.NetworkInterface;
import java.net.StandardProtocolFamily;
import java.net.StandardSocketOptions;
import java.nio.ByteBuffer;
import java.nio.channels.ClosedChannelException;
import java.nio.channels.DatagramChannel;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import lookstep.protocols.sacn.SacnAddress;

/**
 * The socket of lights that listen to a network. A loop with one step; it neither sleeps nor waits.
 */
public final class SacnFarEnd implements AutoCloseable {
    /** Longer than any packet of E1.31, so that one that is too long is seen to be. */
    private static final int LONGEST_OCTETS = 2048;

    private static final int MOST_A_STEP = 256;

    private final DatagramChannel channel;
    private final Optional<NetworkInterface> network;
    private final SacnListener lights;
    private final Set<Integer> joined = new HashSet<>();
    private final ByteBuffer datagram = ByteBuffer.allocate(LONGEST_OCTETS);
    private long taken;
    private volatile int loseOneIn;

    private SacnFarEnd(
            InetSocketAddress at, Optional<NetworkInterface> network, SacnListener lights)
            throws IOException {
        this.network = network;
        this.lights = lights;
        channel = DatagramChannel.open(StandardProtocolFamily.INET);
        try {
            // several listeners on one machine hear the same groups on the same port
            channel.setOption(StandardSocketOptions.SO_REUSEADDR, network.isPresent());
            channel.bind(at);
            channel.configureBlocking(false);
            join();
        } catch (IOException e) {
            channel.close();
            throw e;
        }
    }

    /**
     * Lights that are sent to by their own address.
     *
     * @param own an IPv4 address of this machine
     * @param port 0 for any free one, see {@link #address}
     * @throws IOException if the address cannot be had
     */
    public static SacnFarEnd unicast(InetAddress own, int port, SacnListener lights)
            throws IOException {
        return new SacnFarEnd(new InetSocketAddress(own, port), Optional.empty(), lights);
    }

    /**
     * Lights that join the multicast groups of their universes, and those on which their senders
     * synchronise. The standard fixes the port; they can be sent to by address on it as well.
     *
     * @throws IOException if the port cannot be had, or the groups of the universes not joined
     */
    public static SacnFarEnd multicast(NetworkInterface network, SacnListener lights)
            throws IOException {
        return new SacnFarEnd(
                new InetSocketAddress(SacnAddress.PORT), Optional.of(network), lights);
    }

    /** Where it listens. */
    public InetSocketAddress address() {
        try {
            return (InetSocketAddress) channel.getLocalAddress();
        } catch (IOException closed) {
            throw new IllegalStateException("asked after it was closed", closed);
        }
    }

    /**
     * One step: hands on what has come.
     *
     * @return how many datagrams; 0 if there were none
     */
    public int doWork(long nowNanos) {
        int came = 0;
        try {
            while (came < MOST_A_STEP && channel.receive(datagram.clear()) != null) {
                came++;
                taken++;
                if (loseOneIn == 0 || taken % loseOneIn != 0) {
                    byte[] octets = new byte[datagram.flip().remaining()];
                    datagram.get(octets);
                    lights.received(octets, nowNanos);
                }
            }
            join();
        } catch (ClosedChannelException closed) {
            return came;
        } catch (IOException e) {
            lights.note("the lights' network: " + e.getMessage());
        }
        lights.timePassed(nowNanos);
        return came;
    }

    /** From now on loses datagrams, until {@link #mend}. Any thread. */
    public void misbehave(Fault.LostDatagrams fault) {
        loseOneIn = fault.oneIn();
    }

    /** Loses none any more. Any thread. */
    public void mend() {
        loseOneIn = 0;
    }

    private void join() throws IOException {
        if (network.isEmpty()) {
            return;
        }
        Set<Integer> wanted = new TreeSet<>(lights.universes());
        wanted.addAll(lights.syncAddresses());
        for (int universe : wanted) {
            // tried once: the number of groups is limited, and a refusal is not to be noted for
            // ever
            if (joined.add(universe)) {
                channel.join(SacnAddress.group(universe).getAddress(), network.get());
            }
        }
    }

    @Override
    public void close() {
        try {
            channel.close();
        } catch (IOException e) {
            // a socket that does not close is gone all the same
        }
    }
}

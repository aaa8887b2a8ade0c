package lookstep.protocols.wire;

import java.io.IOException;
import java.util.List;
import java.util.function.Supplier;

/**
 * Datagrams through one network interface of this machine, IPv4.
 *
 * <p>Multicast leaves by that interface. What goes to a single machine leaves where the system's
 * routes lead, but always bears the interface's own address.
 */
public final class UdpPort implements DatagramPort {
    /** Multicast that no router passes on. */
    public static final int THIS_NETWORK_ALONE = 1;

    private final String network;
    private final int timeToLive;
    private final Supplier<List<NetworkInterfaces.Seen>> seen;

    /**
     * @param network name of the interface, such as {@code eth0}, or an IPv4 address of its own
     */
    public UdpPort(String network) {
        this(network, THIS_NETWORK_ALONE);
    }

    /**
     * @param network name of the interface, such as {@code eth0}, or an IPv4 address of its own
     * @param timeToLive how many networks multicast may cross, 1..255
     */
    public UdpPort(String network, int timeToLive) {
        this(network, timeToLive, NetworkInterfaces::seen);
    }

    UdpPort(String network, int timeToLive, Supplier<List<NetworkInterfaces.Seen>> seen) {
        if (timeToLive < 1 || timeToLive > 255) {
            throw new IllegalArgumentException("time to live " + timeToLive + ": must be 1 to 255");
        }
        this.network = network;
        this.timeToLive = timeToLive;
        this.seen = seen;
    }

    @Override
    public String name() {
        return network;
    }

    @Override
    public Datagrams open() throws LineLostException {
        NetworkInterfaces.Chosen chosen = choose();
        try {
            return new UdpDatagrams(this, chosen, timeToLive);
        } catch (IOException e) {
            throw new LineLostException(
                    "%s: cannot be opened for datagrams (%s). Look at the network settings."
                            .formatted(network, e.getMessage()),
                    e);
        }
    }

    NetworkInterfaces.Chosen choose() throws LineLostException {
        return NetworkInterfaces.choose(network, seen.get());
    }
}

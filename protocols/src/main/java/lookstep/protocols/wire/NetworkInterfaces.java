package lookstep.protocols.wire;

import java.io.UncheckedIOException;
import java.net.Inet4Address;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** Finds the network interfaces of this machine. */
public final class NetworkInterfaces {
    private static final String NO_IPV4 =
            "it has no IPv4 address. Give it one, by DHCP or by hand.";
    private static final String DOWN = "it is down. Plug its cable in, or switch it on.";

    private NetworkInterfaces() {}

    /**
     * What the system says of one interface.
     *
     * @param multicast whether a multicast datagram can leave through it
     */
    record Seen(
            String name,
            boolean up,
            boolean loopback,
            boolean multicast,
            boolean wireless,
            List<Inet4Address> ipv4) {}

    /** One interface that can be sent through, and the address of its own to send from. */
    record Chosen(String name, Inet4Address own) {}

    /** Those there are now: usable ones first, this machine's loopback after real ones. */
    public static List<NetworkAdapter> list() {
        return describe(seen());
    }

    static List<NetworkAdapter> describe(List<Seen> seen) {
        return seen.stream()
                .sorted(
                        Comparator.comparing((Seen one) -> trouble(one).isPresent())
                                .thenComparing(Seen::loopback)
                                .thenComparing(Seen::name))
                .map(
                        one ->
                                new NetworkAdapter(
                                        one.name(),
                                        one.ipv4().stream()
                                                .map(Inet4Address::getHostAddress)
                                                .toList(),
                                        one.up(),
                                        one.multicast(),
                                        what(one),
                                        trouble(one)))
                .toList();
    }

    /**
     * Finds the interface that somebody means.
     *
     * @param wanted its name, or one of its own IPv4 addresses
     * @throws LineLostException if it is not there or cannot be used; says which are there
     */
    static Chosen choose(String wanted, List<Seen> seen) throws LineLostException {
        for (Seen one : seen) {
            Optional<Inet4Address> address =
                    one.ipv4().stream().filter(a -> a.getHostAddress().equals(wanted)).findFirst();
            if (one.name().equals(wanted) || address.isPresent()) {
                Optional<String> trouble = trouble(one);
                if (trouble.isPresent()) {
                    throw new LineLostException(wanted + ": " + trouble.get());
                }
                return new Chosen(one.name(), address.orElse(one.ipv4().get(0)));
            }
        }
        throw new LineLostException(
                "%s: no network interface of this name or address is here. %s"
                        .formatted(wanted, mend(seen)));
    }

    private static String mend(List<Seen> seen) {
        String usable =
                describe(seen).stream()
                        .filter(NetworkAdapter::usable)
                        .map(one -> one.name() + " (" + one.ipv4().get(0) + ")")
                        .collect(Collectors.joining(", "));
        return usable.isEmpty()
                ? "None that is here can be used: plug a network cable in."
                : "Plug it in, or write one of these: " + usable + ".";
    }

    private static Optional<String> trouble(Seen seen) {
        if (!seen.up()) {
            return Optional.of(DOWN);
        }
        return seen.ipv4().isEmpty() ? Optional.of(NO_IPV4) : Optional.empty();
    }

    private static String what(Seen seen) {
        if (seen.loopback()) {
            return "this machine alone: nothing leaves it";
        }
        String kind = seen.wireless() ? "Wi-Fi" : "network interface";
        if (!seen.multicast()) {
            return kind + ", takes no multicast: single machines only";
        }
        // multicast is sent at the lowest rate there and never repeated: common practice
        return seen.wireless()
                ? "Wi-Fi: multicast is slow and lossy there, a cable is better"
                : kind;
    }

    /** Those there are now, as the system says. */
    static List<Seen> seen() {
        List<Seen> seen = new ArrayList<>();
        try {
            for (NetworkInterface one : NetworkInterface.networkInterfaces().toList()) {
                try {
                    seen.add(seen(one));
                } catch (SocketException pulledThisMoment) {
                    // then it is not there
                }
            }
        } catch (SocketException e) {
            throw new UncheckedIOException("the system does not tell its network interfaces", e);
        }
        return seen;
    }

    private static Seen seen(NetworkInterface one) throws SocketException {
        // Linux does not flag its loopback as multicast, yet carries it
        boolean multicast = one.supportsMulticast() || one.isLoopback();
        return new Seen(
                one.getName(),
                one.isUp(),
                one.isLoopback(),
                multicast,
                Files.exists(Path.of("/sys/class/net", one.getName(), "wireless")),
                one.inetAddresses()
                        .filter(Inet4Address.class::isInstance)
                        .map(Inet4Address.class::cast)
                        .toList());
    }
}

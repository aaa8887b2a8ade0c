package lookstep.server.output;

import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.UnknownHostException;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import lookstep.protocols.sacn.SacnAddress;
import lookstep.protocols.sacn.SacnData;
import lookstep.protocols.sacn.SourceName;
import lookstep.protocols.wire.UdpPort;

/**
 * How levels go out over a network (ANSI E1.31).
 *
 * @param network the interface to send through: its name, such as {@code eth0}, or an IPv4 address
 *     of its own
 * @param multicast whether levels go to the universes' multicast groups
 * @param unicast single machines that levels go to as well, or instead: IPv4 address and port
 * @param universes those that are sent, 1..63999 each
 * @param priority 0..200; of several senders lights act on the highest
 * @param syncUniverse if there, lights wait with their levels until all universes have come, and
 *     are told on this universe, 1..63999, to act
 * @param cid who sends; the same in every run of the same set-up, and in no other program
 * @param sourceName what to call the sender on other people's displays, at most 63 octets of UTF-8
 */
public record SacnSetup(
        String network,
        boolean multicast,
        List<InetSocketAddress> unicast,
        Set<Integer> universes,
        int priority,
        OptionalInt syncUniverse,
        UUID cid,
        String sourceName) {
    /** Of a sender that was told none. */
    public static final int DEFAULT_PRIORITY = SacnData.DEFAULT_PRIORITY;

    /**
     * @throws IllegalArgumentException if something does not hold; the message says what to write
     */
    public SacnSetup {
        if (network.isBlank()) {
            throw new IllegalArgumentException(
                    "no network interface; write its name, such as eth0, or its IPv4 address");
        }
        unicast = List.copyOf(unicast);
        unicast.forEach(SacnSetup::requireMachine);
        if (new HashSet<>(unicast).size() < unicast.size()) {
            throw new IllegalArgumentException(
                    "an address is twice in the unicast list; write it once");
        }
        if (!multicast && unicast.isEmpty()) {
            throw new IllegalArgumentException(
                    "nobody to send to: leave multicast on, or write a unicast address");
        }
        universes = Collections.unmodifiableSet(new TreeSet<>(universes));
        if (universes.isEmpty()) {
            throw new IllegalArgumentException("no universe to send; write at least one");
        }
        universes.forEach(universe -> requireUniverse(universe, "universe"));
        requirePriority(priority);
        syncUniverse.ifPresent(universe -> requireUniverse(universe, "synchronisation universe"));
        if (cid.getMostSignificantBits() == 0 && cid.getLeastSignificantBits() == 0) {
            throw new IllegalArgumentException("the CID is all 0; make one with UUID.randomUUID()");
        }
        if (sourceName.isBlank() || sourceName.chars().anyMatch(Character::isISOControl)) {
            throw new IllegalArgumentException(
                    "source name: write letters that others can read on a display");
        }
        SourceName.require(sourceName);
    }

    /** The way out through this interface. */
    public UdpPort port() {
        return new UdpPort(network);
    }

    /**
     * Reads HOST or HOST:PORT; without a port it is that of the standard, 5568. Looks the name up.
     *
     * @throws IllegalArgumentException if it is none; the message says what to write
     */
    public static InetSocketAddress unicast(String text) {
        int colon = text.indexOf(':');
        String host = colon < 0 ? text : text.substring(0, colon);
        int port = SacnAddress.PORT;
        if (colon >= 0) {
            port = whole(text.substring(colon + 1));
        }
        if (host.isBlank() || port < 1 || port > 65_535) {
            throw noMachine(text);
        }
        try {
            InetAddress address =
                    Arrays.stream(InetAddress.getAllByName(host))
                            .filter(Inet4Address.class::isInstance)
                            .findFirst()
                            .orElseThrow(() -> noMachine(text));
            InetSocketAddress machine = new InetSocketAddress(address, port);
            requireMachine(machine);
            return machine;
        } catch (UnknownHostException unknown) {
            throw new IllegalArgumentException(
                    "'%s': no machine of this name is known; write its IPv4 address, such as 192.168.1.20"
                            .formatted(text),
                    unknown);
        }
    }

    /**
     * Reads a priority.
     *
     * @throws IllegalArgumentException if it is none; the message says what to write
     */
    public static int priority(String text) {
        int priority = whole(text);
        if (priority < 0) {
            throw new IllegalArgumentException(priorityWords("'" + text + "'"));
        }
        requirePriority(priority);
        return priority;
    }

    /**
     * Reads the number of a universe.
     *
     * @throws IllegalArgumentException if it is none; the message says what to write
     */
    public static int universe(String text) {
        int universe = whole(text);
        if (universe < 0) {
            throw new IllegalArgumentException(universeWords("universe '" + text + "'"));
        }
        requireUniverse(universe, "universe");
        return universe;
    }

    /** -1 if it is no number of this kind. */
    private static int whole(String text) {
        return text.matches("[0-9]{1,6}") ? Integer.parseInt(text) : -1;
    }

    private static void requirePriority(int priority) {
        if (priority < 0 || priority > SacnData.MOST_PRIORITY) {
            throw new IllegalArgumentException(priorityWords(Integer.toString(priority)));
        }
    }

    private static String priorityWords(String given) {
        return "priority %s; write 0 to %d, %d if there is no reason for another"
                .formatted(given, SacnData.MOST_PRIORITY, DEFAULT_PRIORITY);
    }

    private static void requireUniverse(int universe, String what) {
        if (!SacnAddress.isUniverse(universe)) {
            throw new IllegalArgumentException(universeWords(what + " " + universe));
        }
    }

    private static String universeWords(String given) {
        return "%s; write %d to %d"
                .formatted(given, SacnAddress.LEAST_UNIVERSE, SacnAddress.MOST_UNIVERSE);
    }

    private static void requireMachine(InetSocketAddress machine) {
        InetAddress address = machine.getAddress();
        boolean oneMachine =
                address instanceof Inet4Address
                        && machine.getPort() != 0
                        && address.getAddress()[0] != 0
                        && !address.isMulticastAddress()
                        && !address.getHostAddress().equals("255.255.255.255");
        if (!oneMachine) {
            throw noMachine(machine.getHostString() + ":" + machine.getPort());
        }
    }

    private static IllegalArgumentException noMachine(String given) {
        return new IllegalArgumentException(
                "'%s' is no unicast address; write the IPv4 address of one machine, such as 192.168.1.20 or 192.168.1.20:5568"
                        .formatted(given));
    }
}

package lookstep.protocols.sacn;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.UnknownHostException;

/** Where packets of E1.31 go (ANSI E1.31-2018, clauses 6.2.7, 9.1.1 and 9.3.1; IPv4). */
public final class SacnAddress {
    /** UDP port: fixed for multicast, the default for unicast. */
    public static final int PORT = 5568;

    /** Least universe that may carry levels. */
    public static final int LEAST_UNIVERSE = 1;

    /** Greatest universe that may carry levels. */
    public static final int MOST_UNIVERSE = 63_999;

    /** The universe on whose group senders say which universes they send. */
    public static final int DISCOVERY_UNIVERSE = 64_214;

    private SacnAddress() {}

    /** Whether levels or synchronisation may be sent on a universe of this number. */
    public static boolean isUniverse(int universe) {
        return universe >= LEAST_UNIVERSE && universe <= MOST_UNIVERSE;
    }

    /**
     * Gives the number back if levels or synchronisation may be sent on it.
     *
     * @param what it is, for the message
     * @throws IllegalArgumentException if not
     */
    public static int requireUniverse(int universe, String what) {
        if (!isUniverse(universe)) {
            throw new IllegalArgumentException(
                    "%s %d: must be %d to %d"
                            .formatted(what, universe, LEAST_UNIVERSE, MOST_UNIVERSE));
        }
        return universe;
    }

    /**
     * The multicast group and port of a universe: 239.255, then the universe's high and low octet.
     *
     * @param universe one that may carry levels, or {@link #DISCOVERY_UNIVERSE}
     */
    public static InetSocketAddress group(int universe) {
        if (universe != DISCOVERY_UNIVERSE) {
            requireUniverse(universe, "universe");
        }
        byte[] octets = {(byte) 239, (byte) 255, (byte) (universe >> 8), (byte) universe};
        try {
            return new InetSocketAddress(InetAddress.getByAddress(octets), PORT);
        } catch (UnknownHostException fourOctetsAreAnAddress) {
            throw new AssertionError(fourOctetsAreAnAddress);
        }
    }
}

package lookstep.protocols.wire;

import java.util.List;
import java.util.Optional;

/**
 * A network interface of this machine.
 *
 * @param name such as {@code eth0}
 * @param ipv4 its own addresses, the first one is used; empty if it has none
 * @param up whether it is switched on and, where there is a cable, plugged in
 * @param multicast whether it takes multicast; if not, datagrams can still go to single machines
 * @param what it is, in plain words
 * @param trouble why it cannot be used and what to do; empty if it can
 */
public record NetworkAdapter(
        String name,
        List<String> ipv4,
        boolean up,
        boolean multicast,
        String what,
        Optional<String> trouble) {
    public NetworkAdapter {
        ipv4 = List.copyOf(ipv4);
    }

    /** Whether datagrams can be sent through it. */
    public boolean usable() {
        return trouble.isEmpty();
    }
}

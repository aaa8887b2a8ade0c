package lookstep.server.output;

import java.net.InetSocketAddress;
import java.util.Optional;
import lookstep.protocols.sacn.SacnAddress;
import lookstep.protocols.wire.Sending;

/** Whom datagrams go to: the universes' groups, or one machine; and how it fares. */
final class SacnTarget {
    /**
     * How long a refusal counts. A machine on which nobody listens says so about once a second at
     * most (Linux, icmp_ratelimit), and only when it was sent something.
     */
    static final long REFUSED_NANOS = 2_500_000_000L;

    private final Optional<InetSocketAddress> machine;
    private Optional<String> trouble = Optional.empty();
    private long troubleNanos;
    private boolean refused;
    private long lastSentNanos;

    private SacnTarget(Optional<InetSocketAddress> machine) {
        this.machine = machine;
    }

    static SacnTarget groups() {
        return new SacnTarget(Optional.empty());
    }

    static SacnTarget machine(InetSocketAddress machine) {
        return new SacnTarget(Optional.of(machine));
    }

    /** Where the packets of this universe go. */
    InetSocketAddress of(int universe) {
        return machine.orElseGet(() -> SacnAddress.group(universe));
    }

    /** The network is there again: what was is forgotten. */
    void restart(long nowNanos) {
        trouble = Optional.empty();
        refused = false;
        lastSentNanos = nowNanos;
    }

    void note(Sending outcome, long nowNanos) {
        if (outcome instanceof Sending.Refused no) {
            note(no.says(), true, nowNanos);
        } else if (outcome instanceof Sending.Dropped) {
            note(
                    machine.map(m -> m.getAddress().getHostAddress() + ":" + m.getPort())
                                    .orElse("multicast")
                            + ": packets are let go, for the network does not take them. Look at"
                            + " its cable and switch.",
                    false,
                    nowNanos);
        } else {
            lastSentNanos = nowNanos;
            if (nowNanos - troubleNanos > REFUSED_NANOS) {
                trouble = Optional.empty();
            }
        }
    }

    private void note(String says, boolean refusal, long nowNanos) {
        // the first words stay, so that the same trouble is not told anew in other words
        if (trouble.isEmpty() || refusal != refused) {
            trouble = Optional.of(says);
        }
        refused = refusal;
        troubleNanos = nowNanos;
    }

    /** What is wrong with it, in words, for as long as that counts. */
    Optional<String> trouble() {
        return trouble;
    }

    /** Whether packets reach it, as far as can be known. */
    boolean works(long nowNanos) {
        return !(trouble.isPresent() && refused) && nowNanos - lastSentNanos <= REFUSED_NANOS;
    }
}

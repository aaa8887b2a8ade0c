package lookstep.protocols.wire;

import java.net.InetSocketAddress;

/** What became of one datagram, as far as its sender can know. */
public sealed interface Sending {
    /** It went out. */
    Sending SENT = new Sent();

    /** The sender's own buffer was full, so it was let go. */
    Sending DROPPED = new Dropped();

    /** See {@link #SENT}. */
    record Sent() implements Sending {}

    /** See {@link #DROPPED}. */
    record Dropped() implements Sending {}

    /**
     * This destination cannot be sent to, or said of an earlier datagram that nobody listens.
     * Others are not touched by it.
     *
     * @param says which and why, with the mend
     */
    record Refused(String says) implements Sending {
        /** The machine is there, and says that nobody listens at this port. */
        static Refused nobodyListens(InetSocketAddress at) {
            return new Refused(
                    "%s:%d: nobody listens there. Check the address, and that the node is set to listen."
                            .formatted(at.getAddress().getHostAddress(), at.getPort()));
        }
    }
}

package lookstep.protocols.wire;

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
    record Refused(String says) implements Sending {}
}

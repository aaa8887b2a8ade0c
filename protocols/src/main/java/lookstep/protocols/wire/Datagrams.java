package lookstep.protocols.wire;

import java.net.InetSocketAddress;

/**
 * Datagrams on their way into a network (UDP over IPv4). It moves octets; what they say and when
 * they are due is its driver's business. One thread drives it; {@link #close} may come from any.
 */
public interface Datagrams extends AutoCloseable {
    /**
     * Sends one datagram, to a multicast group or to one machine. Never waits.
     *
     * @throws LineLostException if the way into the network is gone, so that nothing can be sent to
     *     anybody
     */
    Sending send(byte[] octets, InetSocketAddress to) throws LineLostException;

    /**
     * Looks whether the way into the network is still there: a cable that was pulled lets datagrams
     * go into nothing.
     *
     * @throws LineLostException if not
     */
    void requireUp() throws LineLostException;

    /** Waits for nothing; closing twice is harmless. */
    @Override
    void close();
}

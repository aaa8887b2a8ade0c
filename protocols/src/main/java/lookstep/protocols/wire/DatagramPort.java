package lookstep.protocols.wire;

/** A place from which datagrams can be sent, opened again after each loss. */
public interface DatagramPort {
    /** What to call it on the pages, such as {@code eth0}. */
    String name();

    /**
     * Opens it anew.
     *
     * @throws LineLostException if nothing is there, or it cannot be had; the message says so in
     *     plain words
     */
    Datagrams open() throws LineLostException;
}

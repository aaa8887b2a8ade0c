package lookstep.protocols.sacn;

/** Inside the codecs: the datagram is none of ours. Becomes a {@link SacnFault}. */
final class BadPacketException extends Exception {
    private static final long serialVersionUID = 1L;

    BadPacketException(String what) {
        // no stack trace: a stranger's datagrams may come thousands of times a second
        super(what, null, false, false);
    }
}

package lookstep.protocols.sacn;

/** Sequence numbers of packets (ANSI E1.31-2018, clauses 6.2.5 and 6.7.2): one octet that wraps. */
public final class SacnSequence {
    /** A number that lies fewer than this many before the last one is an old packet. */
    private static final int OLD = 20;

    private SacnSequence() {}

    /** The number after this one, 0..255. */
    public static int next(int sequence) {
        return (sequence + 1) & 0xFF;
    }

    /**
     * Whether to take a packet: one that comes late or twice is discarded; one that is far behind
     * is of a sender that began anew.
     *
     * @param last number of the packet before, 0..255
     * @param came number of this one, 0..255
     */
    public static boolean accepts(int last, int came) {
        int ahead = (byte) (came - last);
        return ahead > 0 || ahead <= -OLD;
    }
}

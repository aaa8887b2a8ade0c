package lookstep.protocols.sacn;

/**
 * The options of a data packet (clause 6.2.6). The five bits that are reserved are sent as 0 and
 * not looked at.
 *
 * @param preview not meant for lights, only for those who preview a look
 * @param terminated the sender ends this universe; the levels in this packet are not to be used
 * @param forceSync lights that waited for synchronisation packets may go on without once these are
 *     lost; if false they hold until synchronisation is back
 */
public record SacnOptions(boolean preview, boolean terminated, boolean forceSync) {
    /** None of them. */
    public static final SacnOptions NONE = new SacnOptions(false, false, false);

    /** The sender ends this universe. */
    public static final SacnOptions TERMINATED = new SacnOptions(false, true, false);

    private static final int PREVIEW_DATA = 0x80;
    private static final int STREAM_TERMINATED = 0x40;
    private static final int FORCE_SYNCHRONIZATION = 0x20;

    int octet() {
        return (preview ? PREVIEW_DATA : 0)
                | (terminated ? STREAM_TERMINATED : 0)
                | (forceSync ? FORCE_SYNCHRONIZATION : 0);
    }

    static SacnOptions ofOctet(int octet) {
        return new SacnOptions(
                (octet & PREVIEW_DATA) != 0,
                (octet & STREAM_TERMINATED) != 0,
                (octet & FORCE_SYNCHRONIZATION) != 0);
    }
}

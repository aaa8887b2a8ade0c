package lookstep.server.output;

import java.util.Optional;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.sacn.SacnData;
import lookstep.protocols.sacn.SacnOptions;
import lookstep.protocols.sacn.SacnSequence;
import lookstep.protocols.sacn.SacnSlots;

/**
 * One universe on its way out: what is wanted, and when it has to be said again (ANSI E1.31-2018,
 * clause 6.6.2). New levels go out on three beats, then once in a while so that nobody takes the
 * sender for lost.
 */
final class SacnStream {
    /** How often the same levels are said before it is only kept alive. */
    static final int REPEATS = 3;

    /**
     * Said again on the first beat after this: with a beat of 30 ms that is 870 ms after the last
     * one, where the standard asks for 800 to 1000.
     */
    static final long KEEP_ALIVE_NANOS = 850_000_000;

    private final SacnSetup setup;
    private final int universe;
    private final PacketSource source;
    private DmxPacket wanted;
    private DmxPacket said;
    private int repeats;
    private int sequence;
    private long lastWentNanos;

    SacnStream(SacnSetup setup, int universe, PacketSource source) {
        this.setup = setup;
        this.universe = universe;
        this.source = source;
    }

    int universe() {
        return universe;
    }

    /** Asks what is wanted; once a beat. */
    void ask(long nowNanos) {
        wanted = source.packet(nowNanos);
    }

    /** The datagram for this beat, if there is anything to say. */
    Optional<byte[]> datagram(long nowNanos) {
        if (!wanted.equals(said)) {
            said = wanted;
            repeats = 0;
        }
        boolean due = repeats < REPEATS || nowNanos - lastWentNanos >= KEEP_ALIVE_NANOS;
        return due ? Optional.of(encoded(SacnOptions.NONE)) : Optional.empty();
    }

    /** Somebody was sent the last datagram; one that was let go everywhere has to be said again. */
    void went(long nowNanos) {
        repeats++;
        lastWentNanos = nowNanos;
    }

    /** Lights may have missed what was said while the network was away. */
    void sayAgain() {
        repeats = 0;
    }

    /** The same levels, with the word that the sender ends; empty if none were ever said. */
    Optional<byte[]> ending() {
        return said == null ? Optional.empty() : Optional.of(encoded(SacnOptions.TERMINATED));
    }

    private byte[] encoded(SacnOptions options) {
        SacnData data =
                new SacnData(
                        setup.cid(),
                        setup.sourceName(),
                        setup.priority(),
                        setup.syncUniverse().orElse(0),
                        sequence,
                        options,
                        universe,
                        SacnSlots.of(said));
        sequence = SacnSequence.next(sequence);
        return data.encode();
    }
}

package lookstep.simulator.gear;

import java.util.HashMap;
import java.util.Map;
import java.util.UUID;
import lookstep.protocols.sacn.SacnSequence;
import lookstep.protocols.sacn.SacnSync;

/** The synchronisation packets of one address, as the lights know them. */
final class SacnSynchronisation {
    private static final int MOST_SENDERS = 8;

    private final Map<UUID, Integer> sequences = new HashMap<>();
    private long lastNanos;
    private boolean lossNoted;

    /** Takes a packet; false if it came late or twice. */
    boolean heard(SacnSync sync, long nowNanos) {
        Integer last = sequences.get(sync.cid());
        if (last != null && !lost(nowNanos) && !SacnSequence.accepts(last, sync.sequence())) {
            return false;
        }
        if (last == null && sequences.size() == MOST_SENDERS) {
            sequences.clear();
        }
        sequences.put(sync.cid(), sync.sequence());
        lastNanos = nowNanos;
        lossNoted = false;
        return true;
    }

    boolean lost(long nowNanos) {
        return nowNanos - lastNanos > SacnListener.LOST_NANOS;
    }

    /** True once for each loss. */
    boolean lossIsNews(long nowNanos) {
        boolean news = lost(nowNanos) && !lossNoted;
        lossNoted |= news;
        return news;
    }
}

package lookstep.simulator.gear;

import java.util.Optional;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.sacn.SacnData;
import lookstep.protocols.sacn.SacnSequence;

/** One sender of one universe, as the lights know it. */
final class SacnSource {
    private final byte[] slots = new byte[DmxPacket.SLOTS];
    private SacnData last;
    private long lastNanos;
    private Optional<SacnData> held = Optional.empty();
    private boolean acts;
    private int priority;

    SacnSource(SacnData first, long nowNanos) {
        heard(first, nowNanos);
    }

    /** Whether a packet is neither late nor a second copy. */
    boolean inSequence(SacnData data) {
        return SacnSequence.accepts(last.sequence(), data.sequence());
    }

    void heard(SacnData data, long nowNanos) {
        last = data;
        lastNanos = nowNanos;
    }

    SacnData last() {
        return last;
    }

    boolean lost(long nowNanos) {
        return nowNanos - lastNanos > SacnListener.LOST_NANOS;
    }

    /** Keeps levels until the synchronisation comes; the newest count. */
    void hold(SacnData data) {
        held = Optional.of(data);
    }

    /** The levels that wait for this synchronisation address come into force. */
    boolean release(int syncAddress) {
        if (held.isEmpty() || held.get().syncAddress() != syncAddress) {
            return false;
        }
        act(held.get());
        return true;
    }

    /** Levels come into force. A short packet leaves the slots it does not carry as they were. */
    void act(SacnData data) {
        byte[] came = data.slots().octets();
        System.arraycopy(came, 0, slots, 0, came.length);
        priority = data.priority();
        acts = true;
        held = Optional.empty();
    }

    /** Whether any of its levels ever came into force. */
    boolean acts() {
        return acts;
    }

    int priority() {
        return priority;
    }

    /** Each slot of {@code into} becomes this source's level where that is higher. */
    void mergeInto(byte[] into) {
        for (int i = 0; i < slots.length; i++) {
            if (Byte.toUnsignedInt(slots[i]) > Byte.toUnsignedInt(into[i])) {
                into[i] = slots[i];
            }
        }
    }
}

package lookstep.simulator.gear;

import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.sacn.SacnData;
import lookstep.simulator.model.colour.Xyz;

/**
 * One universe at the lights' end: who sends it, and whose levels count (ANSI E1.31-2018, clause
 * 6.2.3). The highest priority counts; of several senders with it, in each slot the highest level.
 * When no sender is left the last look is held.
 */
final class SacnUniverse {
    /** A ninth sender is not listened to until one of the eight has gone. */
    static final int MOST_SOURCES = 8;

    private final int number;
    private List<PatchedLight> lights;
    private final Troubles troubles;
    private final Map<UUID, SacnSource> sources = new LinkedHashMap<>();
    private byte[] slots = new byte[DmxPacket.SLOTS];
    private boolean everActed;

    SacnUniverse(int number, List<PatchedLight> lights, Troubles troubles) {
        this.number = number;
        this.lights = List.copyOf(lights);
        this.troubles = troubles;
    }

    /**
     * The sender of a packet that is to be listened to; empty if the packet is to be left alone.
     */
    Optional<SacnSource> listen(SacnData data, long nowNanos) {
        SacnSource known = sources.get(data.cid());
        if (data.options().preview()) {
            note(data, "sends a preview, which is not for lights");
            return Optional.empty();
        }
        if (known == null) {
            return data.options().terminated() ? Optional.empty() : welcome(data, nowNanos);
        }
        if (!known.inSequence(data)) {
            note(
                    data,
                    "packet %d came after packet %d: left alone"
                            .formatted(data.sequence(), known.last().sequence()));
            return Optional.empty();
        }
        known.heard(data, nowNanos);
        return Optional.of(known);
    }

    private Optional<SacnSource> welcome(SacnData data, long nowNanos) {
        if (sources.size() == MOST_SOURCES) {
            note(data, "is one sender more than the %d that are heard".formatted(MOST_SOURCES));
            return Optional.empty();
        }
        SacnSource source = new SacnSource(data, nowNanos);
        sources.put(data.cid(), source);
        return Optional.of(source);
    }

    /** This sender said that it ends; its levels no longer count. */
    void end(SacnData data) {
        sources.remove(data.cid());
        arbitrate();
    }

    /** Forgets senders that were not heard for too long; true if there were any. */
    boolean forgetLost(long nowNanos) {
        boolean any = false;
        for (SacnSource source : List.copyOf(sources.values())) {
            if (source.lost(nowNanos)) {
                sources.remove(source.last().cid());
                note(source.last(), "was not heard for 2.5 s");
                any = true;
            }
        }
        if (any) {
            arbitrate();
        }
        return any;
    }

    Collection<SacnSource> sources() {
        return sources.values();
    }

    /** Works out the slots from those senders whose levels are in force. */
    void arbitrate() {
        List<SacnSource> acting = sources.values().stream().filter(SacnSource::acts).toList();
        if (acting.isEmpty()) {
            return;
        }
        everActed = true;
        int highest = acting.stream().mapToInt(SacnSource::priority).max().getAsInt();
        byte[] merged = new byte[DmxPacket.SLOTS];
        acting.stream().filter(s -> s.priority() == highest).forEach(s -> s.mergeInto(merged));
        slots = merged;
    }

    byte[] slots() {
        return slots.clone();
    }

    /** Levels have come, and nobody sends any more. */
    boolean dataLost(long nowNanos) {
        return everActed && sources.values().stream().allMatch(source -> source.lost(nowNanos));
    }

    void patch(List<PatchedLight> others) {
        lights = List.copyOf(others);
    }

    void addTo(Map<String, Xyz> look) {
        lights.forEach(light -> look.put(light.name(), light.intensity(slots)));
    }

    private void note(SacnData data, String what) {
        // a stranger chose this name
        String name = data.sourceName().replaceAll("\\p{Cntrl}", "?");
        troubles.note("universe %d: '%s' %s".formatted(number, name, what));
    }
}

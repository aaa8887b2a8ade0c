package lookstep.simulator.gear;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import lookstep.protocols.sacn.SacnAddress;
import lookstep.protocols.sacn.SacnData;
import lookstep.protocols.sacn.SacnFault;
import lookstep.protocols.sacn.SacnReader;
import lookstep.protocols.sacn.SacnReading;
import lookstep.protocols.sacn.SacnSync;
import lookstep.simulator.model.colour.Xyz;

/**
 * Lights on several universes of a network (ANSI E1.31-2018): they take each universe as one, wait
 * for the synchronisation packet where the sender uses it, act on the sender with the highest
 * priority, and hold the last look when all senders are gone. Any thread.
 */
public final class SacnListener {
    /**
     * E131_NETWORK_DATA_LOSS_TIMEOUT, appendix A: after this a sender, or its synchronisation,
     * counts as lost.
     */
    public static final long LOST_NANOS = 2_500_000_000L;

    private final Troubles troubles = new Troubles();
    private final Map<Integer, SacnUniverse> universes = new TreeMap<>();
    private final Map<Integer, SacnSynchronisation> synchronisations = new HashMap<>();
    private long packets;
    private volatile LightSnapshot snapshot;

    /**
     * @param lights those on each universe, 1..63999
     */
    public SacnListener(Map<Integer, List<PatchedLight>> lights) {
        lights.forEach(
                (universe, there) -> {
                    SacnAddress.requireUniverse(universe, "universe");
                    universes.put(universe, new SacnUniverse(universe, there, troubles));
                });
        show();
    }

    /**
     * Other lights listen now, or they are set otherwise. Those on a universe that nobody listened
     * to from the beginning hear nothing.
     */
    public synchronized void patch(Map<Integer, List<PatchedLight>> lights) {
        universes.forEach(
                (number, universe) -> universe.patch(lights.getOrDefault(number, List.of())));
        show();
    }

    /** A datagram came; whatever its octets are. */
    public synchronized void received(byte[] datagram, long nowNanos) {
        timePassed(nowNanos);
        SacnReading reading = SacnReader.read(datagram);
        if (reading instanceof SacnData data) {
            data(data, nowNanos);
        } else if (reading instanceof SacnSync sync) {
            synchronise(sync, nowNanos);
        } else if (reading instanceof SacnFault fault) {
            note(fault.what());
        }
        // what a sender sends by its own account says nothing to a light
    }

    /** Senders that fall silent are noticed by the time alone. */
    public synchronized void timePassed(long nowNanos) {
        boolean changed = false;
        for (SacnUniverse universe : universes.values()) {
            changed |= universe.forgetLost(nowNanos);
        }
        Set<Integer> awaited = syncAddresses();
        synchronisations.keySet().retainAll(awaited);
        synchronisations.forEach(
                (address, synchronisation) -> {
                    if (synchronisation.lossIsNews(nowNanos)) {
                        note("no synchronisation on universe %d for 2.5 s".formatted(address));
                    }
                });
        if (changed) {
            show();
        }
    }

    private void data(SacnData data, long nowNanos) {
        SacnUniverse universe = universes.get(data.universe());
        if (universe == null) {
            return;
        }
        universe.listen(data, nowNanos)
                .ifPresent(
                        source -> {
                            if (data.options().terminated()) {
                                universe.end(data);
                                show();
                            } else if (!data.slots().hasLevels()) {
                                // any other START code leaves the lights as they are
                                return;
                            } else if (waits(data, nowNanos)) {
                                source.hold(data);
                            } else {
                                source.act(data);
                                universe.arbitrate();
                                packets++;
                                show();
                            }
                        });
    }

    /**
     * Levels wait only once synchronisation has begun (clause 11.1); when it is lost, the sender's
     * Force_Synchronization decides (clause 6.2.6).
     */
    private boolean waits(SacnData data, long nowNanos) {
        SacnSynchronisation synchronisation = synchronisations.get(data.syncAddress());
        if (data.syncAddress() == 0 || synchronisation == null) {
            return false;
        }
        return !synchronisation.lost(nowNanos) || !data.options().forceSync();
    }

    private void synchronise(SacnSync sync, long nowNanos) {
        int address = sync.syncAddress();
        if (!syncAddresses().contains(address)) {
            return;
        }
        SacnSynchronisation synchronisation =
                synchronisations.computeIfAbsent(address, a -> new SacnSynchronisation());
        if (!synchronisation.heard(sync, nowNanos)) {
            note(
                    "synchronisation on universe %d: packet %d came late or twice: left alone"
                            .formatted(address, sync.sequence()));
            return;
        }
        long before = packets;
        for (SacnUniverse universe : universes.values()) {
            long released =
                    universe.sources().stream().filter(source -> source.release(address)).count();
            if (released > 0) {
                universe.arbitrate();
                packets += released;
            }
        }
        // one look for all universes: that is what synchronisation is for
        if (packets != before) {
            show();
        }
    }

    /** The universes that the lights are on. */
    public Set<Integer> universes() {
        return Set.copyOf(universes.keySet());
    }

    /** The universes on which a sender that is heard now says it will synchronise. */
    public synchronized Set<Integer> syncAddresses() {
        return universes.values().stream()
                .flatMap(universe -> universe.sources().stream())
                .map(source -> source.last().syncAddress())
                .filter(address -> address != 0)
                .collect(Collectors.toCollection(TreeSet::new));
    }

    /** What all lights give now; of one moment, where the sender synchronises. */
    public LightSnapshot snapshot() {
        return snapshot;
    }

    /** The 512 slots in force on a universe, slot 1 first; all 0 before the first. A copy. */
    public synchronized byte[] lastSlots(int universe) {
        return known(universe).slots();
    }

    /**
     * Whether levels have come on a universe, and now nobody sends it: no packet for longer than
     * {@link #LOST_NANOS}, or the sender said that it ends. The lights hold the last look.
     */
    public synchronized boolean dataLost(int universe, long nowNanos) {
        return known(universe).dataLost(nowNanos);
    }

    /** Whether that is so of any universe. */
    public synchronized boolean dataLost(long nowNanos) {
        return universes.values().stream().anyMatch(universe -> universe.dataLost(nowNanos));
    }

    /** The last few things that ought not to have come, in plain words. */
    public List<String> troubles() {
        return troubles.noted();
    }

    void note(String trouble) {
        troubles.note(trouble);
    }

    private SacnUniverse known(int universe) {
        SacnUniverse known = universes.get(universe);
        if (known == null) {
            throw new IllegalArgumentException("no lights on universe " + universe);
        }
        return known;
    }

    private void show() {
        Map<String, Xyz> look = new LinkedHashMap<>();
        universes.values().forEach(universe -> universe.addTo(look));
        snapshot = new LightSnapshot(look, packets);
    }
}

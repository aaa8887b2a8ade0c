package lookstep.simulator.gear;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.LongSupplier;
import lookstep.protocols.dmx.DmxDecoder;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.dmx.Received;
import lookstep.protocols.wire.MemoryLine;
import lookstep.simulator.model.colour.Xyz;

/**
 * The lights at the far end of a line: they take each packet of levels as one, and hold the last
 * look when the line goes silent. Bytes come from one thread at a time; what the lights give may be
 * asked for from any thread.
 */
public final class LightListener {
    /**
     * Silence after which the data counts as lost: 1.25 s, the receive timeout of ANSI E1.11-2008
     * (R2018), via the esp_dmx library, which encodes its limits.
     */
    public static final long LOST_NANOS = 1_250_000_000;

    private volatile List<PatchedLight> lights;
    private final DmxDecoder decoder;
    private final byte[] slots = new byte[DmxPacket.SLOTS];
    private final Troubles troubles = new Troubles();
    private volatile LightSnapshot snapshot;
    private volatile byte[] lastSlots = new byte[DmxPacket.SLOTS];
    private volatile long lastPacketNanos;

    private LightListener(List<PatchedLight> lights, DmxDecoder decoder) {
        this.lights = List.copyOf(lights);
        this.decoder = decoder;
        this.snapshot = new LightSnapshot(look(), 0);
    }

    /** Lights on a line that carries the break, such as {@link #behind}. */
    public static LightListener byBreak(List<PatchedLight> lights) {
        return new LightListener(lights, DmxDecoder.byBreak());
    }

    /** Lights on a line that carries bytes only: packets are told apart by their full length. */
    public static LightListener byLength(List<PatchedLight> lights) {
        return new LightListener(lights, DmxDecoder.byLength(DmxPacket.OCTETS));
    }

    /** Other lights hang on the line now, or they are set otherwise; the slots are as they were. */
    public synchronized void patch(List<PatchedLight> others) {
        lights = List.copyOf(others);
        snapshot = new LightSnapshot(look(), snapshot.packets());
    }

    /**
     * Puts these lights behind a line in memory.
     *
     * @param clock nanoseconds, the same clock that {@link #dataLost} is asked with
     */
    public MemoryLine.FarEnd behind(LongSupplier clock) {
        return new MemoryLine.FarEnd() {
            @Override
            public void breakStarted() {
                breakSeen(clock.getAsLong());
            }

            @Override
            public void breakEnded() {}

            @Override
            public void received(byte[] bytes) {
                bytes(bytes, 0, bytes.length, clock.getAsLong());
            }
        };
    }

    /** The line went into the break. */
    public void breakSeen(long nowNanos) {
        take(decoder.breakSeen(), nowNanos);
    }

    /** Octets {@code from} to before {@code to} came. */
    public void bytes(byte[] octets, int from, int to, long nowNanos) {
        take(decoder.received(octets, from, to), nowNanos);
    }

    /** Nothing came for longer than the gaps inside a packet. */
    public void lineQuiet(long nowNanos) {
        take(decoder.lineQuiet(), nowNanos);
    }

    /** What all lights give now, from one packet. Any thread. */
    public LightSnapshot snapshot() {
        return snapshot;
    }

    /** The 512 slots of the last packet of levels, slot 1 first; all 0 before the first. A copy. */
    public byte[] lastSlots() {
        return lastSlots.clone();
    }

    /**
     * Whether the line has been silent for longer than {@link #LOST_NANOS}. The lights hold the
     * last look all the same. Before the first packet nothing is lost. Any thread.
     */
    public boolean dataLost(long nowNanos) {
        return snapshot.packets() > 0 && nowNanos - lastPacketNanos > LOST_NANOS;
    }

    /** The last few things on the line that ought not to be there, in plain words. Any thread. */
    public List<String> troubles() {
        return troubles.noted();
    }

    private void take(List<Received> received, long nowNanos) {
        for (Received one : received) {
            if (one instanceof Received.Packet packet) {
                // Any other START code is not levels, and leaves the lights as they are.
                if (packet.hasLevels()) {
                    act(packet.slots(), nowNanos);
                }
            } else if (one instanceof Received.Fault fault) {
                troubles.note(fault.what());
            }
        }
    }

    /** A short packet leaves the slots it does not carry as they were. */
    private synchronized void act(byte[] came, long nowNanos) {
        System.arraycopy(came, 0, slots, 0, Math.min(came.length, slots.length));
        lastSlots = Arrays.copyOf(slots, slots.length);
        lastPacketNanos = nowNanos;
        snapshot = new LightSnapshot(look(), snapshot.packets() + 1);
    }

    private Map<String, Xyz> look() {
        Map<String, Xyz> look = new LinkedHashMap<>();
        for (PatchedLight light : lights) {
            look.put(light.name(), light.intensity(slots));
        }
        return look;
    }
}

package lookstep.server.patch;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.server.plan.Light;

/**
 * One universe.
 *
 * @param universe 1 or more
 * @param taken in the order of slots
 * @param gaps free slots before and between the lights, in order
 * @param left free slots behind the last light; empty if slot 512 is taken
 */
public record UniversePatch(
        int universe, List<Taken> taken, List<SlotRange> gaps, Optional<SlotRange> left) {
    public UniversePatch {
        taken = List.copyOf(taken);
        gaps = List.copyOf(gaps);
    }

    /**
     * Slots that a light has.
     *
     * @param light its name
     * @param fixture the id of its kind
     * @param mode the id of the mode it is planned in
     */
    public record Taken(String light, SlotRange slots, String fixture, String mode) {
        static Taken by(Light light) {
            return new Taken(light.name(), slotsOf(light), light.fixture().id(), light.mode().id());
        }
    }

    static SlotRange slotsOf(Light light) {
        return SlotRange.from(light.startSlot(), light.mode().slots());
    }

    /** Of the lights on this universe. */
    static UniversePatch of(int universe, List<Light> lights) {
        BitSet used = new BitSet();
        for (Light light : lights) {
            SlotRange slots = slotsOf(light);
            // A light that goes past either end is an error of its own.
            IntStream.rangeClosed(slots.first(), slots.last())
                    .filter(s -> s >= 1 && s <= DmxPacket.SLOTS)
                    .forEach(used::set);
        }
        List<SlotRange> gaps = new ArrayList<>();
        int free = used.nextClearBit(1);
        while (used.nextSetBit(free) >= 0) {
            int next = used.nextSetBit(free);
            gaps.add(new SlotRange(free, next - 1));
            free = used.nextClearBit(next);
        }
        Optional<SlotRange> left =
                free > DmxPacket.SLOTS
                        ? Optional.empty()
                        : Optional.of(new SlotRange(free, DmxPacket.SLOTS));
        List<Taken> taken =
                lights.stream()
                        .map(Taken::by)
                        .sorted(Comparator.comparingInt(t -> t.slots().first()))
                        .toList();
        return new UniversePatch(universe, taken, gaps, left);
    }
}

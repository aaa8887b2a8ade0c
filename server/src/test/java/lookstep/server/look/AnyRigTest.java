package lookstep.server.look;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.BitSet;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.LongStream;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.fixture.Mode;
import lookstep.server.RandomRigs;
import lookstep.server.plan.Light;
import lookstep.server.plan.Look;
import lookstep.server.plan.Look.Level;
import lookstep.server.plan.ShootPlan;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Whatever the rig and the look: each universe gets one whole packet, and a light has its own slots
 * and no other (ANSI E1.11: 512 slots, START code 0). One seed is one rig; a failure names it.
 */
class AnyRigTest {
    static LongStream seeds() {
        return LongStream.rangeClosed(1, 25);
    }

    /** Slot numbers of the lights that are meant, by universe. */
    private static Map<Integer, BitSet> slots(ShootPlan plan, Predicate<Light> meant) {
        Map<Integer, BitSet> slots = new TreeMap<>();
        for (Light light : plan.rig()) {
            BitSet all = slots.computeIfAbsent(light.universe(), u -> new BitSet());
            if (meant.test(light)) {
                int width = light.mode().channels().stream().mapToInt(Mode.Channel::bytes).sum();
                all.set(light.startSlot(), light.startSlot() + width);
            }
        }
        return slots;
    }

    private static Map<Integer, DmxPacket> packets(ShootPlan plan, RigLevels levels) {
        Map<Integer, DmxPacket> packets = new TreeMap<>();
        for (int universe : slots(plan, l -> true).keySet()) {
            packets.put(universe, RigPackets.packet(plan, levels, universe));
        }
        return packets;
    }

    private static RigLevels levels(ShootPlan plan, Look look) {
        return LookLevels.of(plan, look).levels();
    }

    private static void assertWhole(ShootPlan plan, RigLevels levels) {
        assertEquals(plan.rig().size(), levels.size());
        Map<Integer, BitSet> owned = slots(plan, l -> true);
        packets(plan, levels)
                .forEach(
                        (universe, packet) -> {
                            byte[] octets = packet.bytes();
                            assertEquals(513, octets.length);
                            assertEquals(0, octets[0], "START code");
                            for (int slot = 1; slot <= 512; slot++) {
                                int at = slot;
                                assertTrue(
                                        packet.slot(at) == 0 || owned.get(universe).get(at),
                                        () ->
                                                "universe %d: slot %d is nobody's, and is %d"
                                                        .formatted(universe, at, packet.slot(at)));
                            }
                        });
        // A universe without a light is dark.
        assertEquals(DmxPacket.BLACK, RigPackets.packet(plan, levels, 63_999));
    }

    private static void assertOnlyTheseDiffer(
            ShootPlan plan, RigLevels before, RigLevels after, Predicate<Light> may) {
        Map<Integer, BitSet> allowed = slots(plan, may);
        Map<Integer, DmxPacket> old = packets(plan, before);
        packets(plan, after)
                .forEach(
                        (universe, packet) -> {
                            for (int slot = 1; slot <= 512; slot++) {
                                int at = slot;
                                assertTrue(
                                        packet.slot(at) == old.get(universe).slot(at)
                                                || allowed.get(universe).get(at),
                                        () ->
                                                "universe %d: slot %d went from %d to %d"
                                                        .formatted(
                                                                universe,
                                                                at,
                                                                old.get(universe).slot(at),
                                                                packet.slot(at)));
                            }
                        });
    }

    /** The light itself, and if it is the key, whatever is measured against it. */
    private static Predicate<Light> follows(Look before, Look after, Light changed) {
        return light ->
                light.equals(changed)
                        || (changed.name().equals(before.key())
                                && after.lights().containsKey(light.name())
                                && after.lights().get(light.name()).level()
                                        instanceof Level.StopsFromKey);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void oneWholePacketForEachUniverse(long seed) {
        RandomRigs any = new RandomRigs(seed);
        ShootPlan plan = any.plan();
        RigLevels from = levels(plan, any.look(plan));
        RigLevels to = levels(plan, any.look(plan));
        assertWhole(plan, from);
        assertWhole(plan, to);
        Fade fade = new Fade(plan);
        for (int i = 0; i < 10; i++) {
            assertWhole(plan, fade.between(from, to, any.between(-0.2, 1.2)));
        }
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void oneLightChangedTouchesNoSlotOfAnother(long seed) {
        RandomRigs any = new RandomRigs(seed);
        ShootPlan plan = any.plan();
        Look before = any.look(plan);
        RigLevels old = levels(plan, before);
        RigLevels target = levels(plan, any.look(plan));
        Fade fade = new Fade(plan);
        for (int i = 0; i < 10; i++) {
            Light changed = any.any(plan.rig());
            Look after = any.changed(before, changed.name());
            RigLevels fresh = levels(plan, after);
            Predicate<Light> may = follows(before, after, changed);
            assertOnlyTheseDiffer(plan, old, fresh, may);
            // The way there, and the way on from there.
            assertOnlyTheseDiffer(plan, old, fade.between(old, fresh, any.between(0, 1)), may);
            double part = any.between(0, 1);
            assertOnlyTheseDiffer(
                    plan, fade.between(old, target, part), fade.between(fresh, target, part), may);
        }
    }

    /** The two above would hold of rigs that are always dark or never change. */
    @ParameterizedTest
    @MethodSource("seeds")
    void theRigsAreNoTrivialOnes(long seed) {
        RandomRigs any = new RandomRigs(seed);
        ShootPlan plan = any.plan();
        TreeSet<Integer> different = new TreeSet<>();
        for (int i = 0; i < 20; i++) {
            different.add(packets(plan, levels(plan, any.look(plan))).hashCode());
        }
        assertFalse(different.size() < 5, () -> "only " + different.size() + " states");
    }
}

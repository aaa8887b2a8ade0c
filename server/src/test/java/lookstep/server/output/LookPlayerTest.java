package lookstep.server.output;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.server.TestPlans;
import lookstep.server.lighting.Lighting;
import lookstep.server.look.Fade;
import lookstep.server.look.LookLevels;
import lookstep.server.look.RawSlots;
import lookstep.server.look.RigLevels;
import lookstep.server.look.RigPackets;
import lookstep.server.plan.ShootPlan;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LookPlayerTest {
    private static final long MS = 1_000_000;
    private static final long PERIOD = 30 * MS;

    /** One 8-bit dimmer at slot 1 with a linear curve: the slot is the light. */
    private final ShootPlan plan = TestPlans.oneDimmer();

    private final RigLevels off = level(0);
    private final RigLevels full = level(1);
    private final LookPlayer player = new LookPlayer(off, new Fade(plan), PERIOD);

    private static RigLevels level(double value) {
        return new RigLevels(List.of(new double[] {value}));
    }

    private int slot(long now) {
        DmxPacket packet = RigPackets.packet(plan, player.at(now).levels(), 1);
        return packet.slot(1);
    }

    @Test
    void aSnapIsWholeInTheNextPacket() {
        assertEquals(0, slot(0));
        player.go(full, 0);
        assertEquals(255, slot(PERIOD));
    }

    @Test
    void aFadeMovesInTheNextPacketAndEndsOnTime() {
        player.go(level(0.5), 0);
        assertEquals(128, slot(0));
        player.go(full, 0.9);
        assertTrue(slot(PERIOD) > 128, "the first packet of thirty is already under way");
        // Half way in lightness (CIE L*: cube root of light): ((cbrt(0.5) + 1) / 2)^3 = 0.720.
        assertEquals(0.720 * 255, slot(PERIOD + 450 * MS - PERIOD), 1.0);
        assertFalse(player.arrived(PERIOD + 900 * MS - PERIOD - 1));
        assertEquals(255, slot(PERIOD + 900 * MS - PERIOD));
        assertTrue(player.arrived(PERIOD + 900 * MS - PERIOD));
    }

    @Test
    void anInterruptedFadeGoesOnFromWhereItIs() {
        slot(0);
        player.go(full, 1);
        int there = 0;
        for (long now = PERIOD; now <= 20 * PERIOD; now += PERIOD) {
            there = slot(now);
        }
        assertTrue(there > 10 && there < 250, "in the middle: " + there);
        player.go(off, 1);
        int next = slot(21 * PERIOD);
        assertTrue(next <= there && next > there - 40, there + " then " + next);
    }

    /**
     * WCAG 2.2, 2.3.1: no more than three flashes, so no more than three opposing changes here, in
     * any one second.
     */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void howeverFastTheKeyIsHitNoLightChangesDirectionMoreThanThreeTimesASecond(long seed) {
        Random random = new Random(seed);
        List<Long> turns = new ArrayList<>();
        int before = slot(0);
        int direction = 0;
        boolean up = false;
        for (long now = PERIOD; now < 20_000 * MS; now += PERIOD) {
            if (random.nextInt(3) == 0) {
                up = !up;
                player.go(up ? full : off, random.nextInt(3) * 0.2);
            }
            int at = slot(now);
            int moved = Integer.signum(at - before);
            if (moved != 0 && moved != direction) {
                if (direction != 0) {
                    turns.add(now);
                }
                direction = moved;
            }
            before = at;
        }
        assertTrue(turns.size() > 20, "the key was hit all the time: " + turns.size());
        for (int i = 3; i < turns.size(); i++) {
            assertTrue(
                    turns.get(i) - turns.get(i - 3) >= 1_000 * MS,
                    "four turns within " + (turns.get(i) - turns.get(i - 3)) / MS + " ms");
        }
    }

    /** The same from what the lights make of the slots, with colours, on several emitters each. */
    @ParameterizedTest
    @ValueSource(longs = {11, 12, 13, 14})
    void noColourFlashesEither(long seed) {
        ShootPlan rig = TestPlans.threeShots();
        Lighting lighting = new Lighting(rig);
        List<RigLevels> looks =
                rig.looks().stream().map(l -> LookLevels.of(rig, l).levels()).toList();
        LookPlayer mashed = new LookPlayer(lighting.workLight(), new Fade(rig), PERIOD);
        Random random = new Random(seed);
        Map<String, Extremes> emitters = new HashMap<>();
        int changes = 0;
        for (long now = 0; now < 20_000 * MS; now += PERIOD) {
            if (random.nextInt(3) == 0) {
                mashed.go(looks.get(random.nextInt(looks.size())), random.nextInt(3) * 0.2);
                changes++;
            }
            byte[] slots = RigPackets.packet(rig, mashed.at(now).levels(), 1).bytes();
            RigLevels seen = RigPackets.levels(rig, 1, Arrays.copyOfRange(slots, 1, slots.length));
            for (int i = 0; i < seen.size(); i++) {
                double[] of = seen.of(i);
                for (int e = 0; e < of.length; e++) {
                    emitters.computeIfAbsent(i + "/" + e, k -> new Extremes()).saw(of[e], now);
                }
            }
        }
        assertTrue(changes > 100, "mashed " + changes);
        assertTrue(emitters.values().stream().anyMatch(e -> e.turns.size() > 10));
        emitters.forEach((name, e) -> e.assertAtMostThreeASecond(name));
    }

    /** Turning points of a level that moved more than the step of an 8-bit slot. */
    private static final class Extremes {
        private static final double STEP = 1.5 / 255;
        private final List<Long> turns = new ArrayList<>();
        private double extreme = Double.NaN;
        private int direction;

        void saw(double level, long now) {
            if (Double.isNaN(extreme)) {
                extreme = level;
            }
            double moved = level - extreme;
            if (Math.abs(moved) > STEP && Math.signum(moved) != direction) {
                if (direction != 0) {
                    turns.add(now);
                }
                direction = (int) Math.signum(moved);
            }
            if (direction == 0 ? Math.abs(moved) > STEP : Math.signum(moved) == direction) {
                extreme = level;
            }
        }

        void assertAtMostThreeASecond(String name) {
            for (int i = 3; i < turns.size(); i++) {
                long within = (turns.get(i) - turns.get(i - 3)) / MS;
                assertTrue(within >= 1000, name + ": four turns within " + within + " ms");
            }
        }
    }

    @Test
    void threePressesAreCarriedOutAtOnceAndTheFourthTurnWaits() {
        slot(0);
        player.go(full, 0);
        assertEquals(255, slot(PERIOD), "up from rest is no opposing change");
        player.go(off, 0);
        assertEquals(0, slot(2 * PERIOD));
        player.go(full, 0);
        assertEquals(255, slot(3 * PERIOD));
        player.go(off, 0);
        assertEquals(0, slot(4 * PERIOD));
        player.go(level(0.9), 0);
        player.go(level(0.5), 0);
        assertEquals(0, slot(5 * PERIOD), "it would be the fourth in a second");
        long later = 2 * PERIOD + 1_000 * MS;
        assertEquals(0, slot(later - 1));
        assertEquals(128, slot(later), "the newest wish counts");
    }

    @Test
    void goingOnTheSameWayNeverWaits() {
        for (int i = 1; i <= 10; i++) {
            player.go(level(i / 10.0), 0);
            assertEquals(i * 25.5, slot(i * PERIOD), 0.51);
        }
    }

    @Test
    void thePlanMayLiftTheLimit() {
        player.allowFlashing(true);
        for (int i = 1; i <= 20; i++) {
            player.go(i % 2 == 0 ? off : full, 0);
            assertEquals(i % 2 == 0 ? 0 : 255, slot(i * PERIOD));
        }
        player.allowFlashing(false);
        player.go(full, 0);
        assertEquals(0, slot(21 * PERIOD));
    }

    @Test
    void aSlotThatIsTestedGoesOutAsItIsAndTheNextLookComesFromThere() {
        byte[] raw = new byte[512];
        raw[6] = 77;
        player.go(new RawSlots(1, raw), off);
        LookPlayer.Moment moment = player.at(PERIOD);
        assertEquals(77, moment.raw().orElseThrow().slots()[6]);
        player.go(full, 0);
        assertTrue(player.at(2 * PERIOD).raw().isEmpty());
        assertEquals(255, slot(2 * PERIOD));
    }

    /** Two outputs ask, each with its own clock reading. */
    @Test
    void oneInstantIsOneMomentAndNothingGoesBack() {
        slot(0);
        player.go(full, 1);
        int there = slot(10 * PERIOD);
        assertEquals(there, slot(10 * PERIOD - 5 * MS), "asked a little earlier");
        player.go(off, 0);
        assertEquals(there, slot(10 * PERIOD), "the same beat of another universe");
        assertEquals(0, slot(10 * PERIOD + 1));
    }
}

package lookstep.server.output;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.server.TestPlans;
import lookstep.server.look.Fade;
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
    private final LookPlayer player =
            new LookPlayer(off, new Fade(plan), l -> RigPackets.packet(plan, l, 1), PERIOD);

    private static RigLevels level(double value) {
        return new RigLevels(List.of(new double[] {value}));
    }

    private int slot(long now) {
        DmxPacket packet = player.packet(now);
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
        long begin = LookPlayer.LEAST_BETWEEN_CHANGES_NANOS;
        assertTrue(slot(begin) > 128, "the first packet of thirty is already under way");
        // Half way in lightness (CIE L*: cube root of light): ((cbrt(0.5) + 1) / 2)^3 = 0.720.
        assertEquals(0.720 * 255, slot(begin + 450 * MS - PERIOD), 1.0);
        assertEquals(255, slot(begin + 900 * MS - PERIOD));
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
                turns.add(now);
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

    @Test
    void theNewestWishCountsWhenSeveralCameTooFast() {
        slot(0);
        player.go(full, 0);
        slot(PERIOD);
        player.go(off, 0);
        player.go(level(0.5), 0);
        assertEquals(255, slot(2 * PERIOD));
        long later = PERIOD + LookPlayer.LEAST_BETWEEN_CHANGES_NANOS;
        assertEquals(255, slot(later - 1));
        assertEquals(128, slot(later));
    }
}

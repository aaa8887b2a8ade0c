package lookstep.server.patch;

import lookstep.protocols.dmx.CoarseFine;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.fixture.Mode.Channel;
import lookstep.server.plan.Light;

/**
 * One slot of one light put to the test: this slot at full, every other slot of the light at 0, and
 * every other light dark. Two things are not at 0, or the light would not show anything: fixed
 * slots, which are at their value always (also if they are the ones tested), and the light's
 * dimmer, which is at full too unless it is what is tested.
 *
 * @param universe the light's
 * @param slot the one that is tested, 1..512
 * @param offset the same counted from 0 at the light's first slot
 * @param packet what is sent: all 512 slots of the universe
 * @param dimmerToo true if the light's dimmer is at full beside the slot that is tested
 */
public record SlotTest(int universe, int slot, int offset, DmxPacket packet, boolean dimmerToo) {
    private static final int FULL = 255;

    /**
     * For one slot of a light as planned.
     *
     * @param offset counted from 0, below the number of the light's slots
     * @throws IllegalArgumentException if the light has no such slot, or does not lie in 1 to 512
     */
    public static SlotTest of(Light light, int offset) {
        int slots = light.mode().slots();
        if (offset < 0 || offset >= slots) {
            throw new IllegalArgumentException(
                    "‘%s’ has no slot %d, counted from 0: it has %d"
                            .formatted(light.name(), offset, slots));
        }
        SlotRange range = UniversePatch.slotsOf(light);
        if (range.first() < 1 || range.last() > DmxPacket.SLOTS) {
            throw new IllegalArgumentException(
                    "‘%s’ takes %s: address it so that it lies in 1 to %d"
                            .formatted(light.name(), range.words(), DmxPacket.SLOTS));
        }
        byte[] own = new byte[slots];
        boolean dimmerToo = lights(light, offset);
        int at = 0;
        for (Channel channel : light.mode().channels()) {
            boolean tested = offset >= at && offset < at + channel.bytes();
            if (channel instanceof Channel.Fixed fixed) {
                put(own, at, fixed.bytes(), fixed.value());
            } else if (channel instanceof Channel.Dimmer && dimmerToo) {
                put(own, at, channel.bytes(), channel.bytes() == 1 ? FULL : CoarseFine.FULL);
            } else if (tested) {
                own[offset] = (byte) FULL;
            }
            at += channel.bytes();
        }
        return new SlotTest(
                light.universe(),
                range.first() + offset,
                offset,
                DmxPacket.BLACK.withSlots(range.first(), own),
                dimmerToo);
    }

    /** Whether the slot gives light behind a dimmer: not the dimmer itself, and no fixed slot. */
    private static boolean lights(Light light, int offset) {
        boolean behind = false;
        int at = 0;
        boolean dimmed = false;
        for (Channel channel : light.mode().channels()) {
            boolean dimmer = channel instanceof Channel.Dimmer;
            dimmed |= dimmer;
            if (offset >= at && offset < at + channel.bytes()) {
                behind = !dimmer && !(channel instanceof Channel.Fixed);
            }
            at += channel.bytes();
        }
        return dimmed && behind;
    }

    private static void put(byte[] own, int at, int bytes, int value) {
        if (bytes == 1) {
            own[at] = (byte) value;
        } else {
            own[at] = (byte) CoarseFine.coarse(value);
            own[at + 1] = (byte) CoarseFine.fine(value);
        }
    }
}

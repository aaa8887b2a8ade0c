package lookstep.server.patch;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.fixture.Mode;
import lookstep.protocols.fixture.Mode.Channel;
import lookstep.server.plan.Light;

/**
 * What is seen when one slot of a light is tested, and what is seen instead if the light is set
 * otherwise than planned: whoever looks can name the slip. Each setting reads the same bytes as the
 * light itself would.
 *
 * @param test what is sent
 * @param expected what is seen if all is as planned, such as "cool, full"
 * @param others the settings that would look different: the other modes in the fixture's order,
 *     then an address one too low or too high
 */
public record WrongMode(SlotTest test, String expected, List<Instead> others) {
    public WrongMode {
        others = List.copyOf(others);
    }

    /**
     * A slip, and how it shows.
     *
     * @param set what the light's display would say: a mode's id, or "address 12"
     * @param seen what the eye sees then
     */
    public record Instead(String set, String seen) {
        /** {@code 8-bit: nothing}. */
        public String text() {
            return set + ": " + seen;
        }
    }

    /**
     * For one slot of a light as planned.
     *
     * @param offset counted from 0, below the number of the light's slots
     * @throws IllegalArgumentException if the light has no such slot, or does not lie in 1 to 512
     */
    public static WrongMode of(Light light, int offset) {
        SlotTest test = SlotTest.of(light, offset);
        Seen expected = seen(light, light.mode(), light.startSlot(), test.packet());
        List<Instead> others = new ArrayList<>();
        for (Mode mode : light.fixture().modes()) {
            if (!mode.equals(light.mode())) {
                instead(light, mode, light.startSlot(), test, expected, mode.id())
                        .ifPresent(others::add);
            }
        }
        for (int start : new int[] {light.startSlot() - 1, light.startSlot() + 1}) {
            boolean possible = start >= 1 && start <= DmxPacket.SLOTS;
            if (possible) {
                instead(light, light.mode(), start, test, expected, "address " + start)
                        .ifPresent(others::add);
            }
        }
        return new WrongMode(test, expected.words(), others);
    }

    private static Optional<Instead> instead(
            Light light, Mode mode, int start, SlotTest test, Seen expected, String set) {
        Optional<Channel.Fixed> awry = awry(mode, start, test.packet());
        if (awry.isPresent()) {
            return Optional.of(
                    new Instead(
                            set,
                            "nobody knows, for its slot ‘%s’ is not at %d"
                                    .formatted(awry.get().what(), awry.get().value())));
        }
        Seen seen = seen(light, mode, start, test.packet());
        return seen.looksLike(expected)
                ? Optional.empty()
                : Optional.of(new Instead(set, seen.words()));
    }

    private static Seen seen(Light light, Mode mode, int start, DmxPacket packet) {
        return Seen.of(
                light.fixture().emitters(),
                mode.decode(
                        light.fixture().curve(),
                        from(start, packet),
                        1,
                        light.fixture().emitters().size()),
                cells(mode));
    }

    /** 1 unless an emitter has several slots of its own, one for each cell. */
    private static int cells(Mode mode) {
        return mode.channels().stream()
                .filter(Channel.Emitter.class::isInstance)
                .collect(
                        Collectors.groupingBy(
                                c -> ((Channel.Emitter) c).emitter(),
                                Collectors.summingInt(c -> 1)))
                .values()
                .stream()
                .max(Comparator.naturalOrder())
                .orElse(1);
    }

    /** A fixed slot that does not get its value: what a light does then, only its maker knows. */
    private static Optional<Channel.Fixed> awry(Mode mode, int start, DmxPacket packet) {
        byte[] slots = from(start, packet);
        int at = 0;
        for (Channel channel : mode.channels()) {
            int code = slots[at] & 0xFF;
            if (channel.bytes() == 2) {
                code = code * 256 + (slots[at + 1] & 0xFF);
            }
            if (channel instanceof Channel.Fixed fixed && code != fixed.value()) {
                return Optional.of(fixed);
            }
            at += channel.bytes();
        }
        return Optional.empty();
    }

    /**
     * The packet as a light at this address sees it, its first slot in front. Past slot 512 nothing
     * comes, and it is taken for 0.
     */
    private static byte[] from(int start, DmxPacket packet) {
        byte[] seen = new byte[DmxPacket.SLOTS];
        System.arraycopy(packet.slots(), start - 1, seen, 0, DmxPacket.SLOTS - (start - 1));
        return seen;
    }
}

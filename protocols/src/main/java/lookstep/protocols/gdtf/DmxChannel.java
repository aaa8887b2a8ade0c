package lookstep.protocols.gdtf;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * DMXChannel (table 58).
 *
 * @param dmxBreak from 1; empty for "Overwrite"
 * @param offsets its slots, from 1, most significant first; empty if the channel is virtual
 * @param ownDefault Default on the channel, as files before 1.2 have it
 * @param initialFunction node path; empty for the first function
 * @param highlight value to find the light by; empty for "None"
 * @param geometry name of what it works on
 * @param logicalChannels at least one
 */
public record DmxChannel(
        OptionalInt dmxBreak,
        List<Integer> offsets,
        Optional<DmxValue> ownDefault,
        String initialFunction,
        Optional<DmxValue> highlight,
        String geometry,
        List<LogicalChannel> logicalChannels) {
    public DmxChannel {
        offsets = List.copyOf(offsets);
        logicalChannels = List.copyOf(logicalChannels);
    }

    /** Its name in node paths: the geometry and the first logical channel's attribute. */
    public String name() {
        return geometry + "_" + logicalChannels.get(0).attribute();
    }

    /** Octets of its values; a virtual channel has 4. */
    public int octets() {
        return offsets.isEmpty() ? Limits.CHANNEL_OCTETS : offsets.size();
    }

    /** The greatest value. */
    public long max() {
        return DmxValue.max(octets());
    }

    /** The functions of all its logical channels, in the file's order. */
    public List<ChannelFunction> functions() {
        return logicalChannels.stream().flatMap(l -> l.functions().stream()).toList();
    }

    /** The function that a node path names, CHANNEL.ATTRIBUTE.FUNCTION. */
    public Optional<ChannelFunction> function(String path) {
        if (path.isEmpty()) {
            return Optional.empty();
        }
        String wanted = path.toLowerCase(Locale.ROOT);
        for (LogicalChannel logical : logicalChannels) {
            String stem = (name() + "." + logical.attribute() + ".").toLowerCase(Locale.ROOT);
            if (!wanted.startsWith(stem)) {
                continue;
            }
            for (ChannelFunction function : logical.functions()) {
                if (function.name().equalsIgnoreCase(wanted.substring(stem.length()))) {
                    return Optional.of(function);
                }
            }
        }
        return Optional.empty();
    }

    /**
     * The value it rests at: of the initial function if the file names one; else the channel's own,
     * as older files have it; else of the first function.
     */
    public long defaultValue() {
        Optional<DmxValue> initial = function(initialFunction).flatMap(ChannelFunction::ownDefault);
        Optional<DmxValue> first =
                functions().stream().findFirst().flatMap(ChannelFunction::ownDefault);
        return initial.or(() -> ownDefault).or(() -> first).map(v -> v.in(octets())).orElse(0L);
    }
}

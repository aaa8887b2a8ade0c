package lookstep.protocols.gdtf;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * DMXMode (table 56).
 *
 * @param geometry name of the top-level geometry it is for
 */
public record DmxMode(
        String name,
        String description,
        String geometry,
        List<DmxChannel> channels,
        List<Relation> relations) {
    public DmxMode {
        channels = List.copyOf(channels);
        relations = List.copyOf(relations);
    }

    /**
     * Relation (table 63).
     *
     * @param master path of a DMX channel
     * @param follower path of a channel function
     * @param override true for Override, false for Multiply
     */
    public record Relation(String name, String master, String follower, boolean override) {}

    /** The channels by their names in lower case, for attribute names have no case. */
    public Map<String, DmxChannel> byName() {
        Map<String, DmxChannel> byName = new HashMap<>();
        for (DmxChannel channel : channels) {
            byName.putIfAbsent(channel.name().toLowerCase(Locale.ROOT), channel);
        }
        return byName;
    }
}

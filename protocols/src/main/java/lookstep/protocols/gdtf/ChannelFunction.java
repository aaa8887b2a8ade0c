package lookstep.protocols.gdtf;

import java.util.List;
import java.util.Optional;

/**
 * ChannelFunction (table 60).
 *
 * @param attribute "NoFeature" if the file has none
 * @param dmxFrom first value, in the channel's octets
 * @param dmxTo last value: one before the next function under the same mode master, or the
 *     channel's greatest
 * @param ownDefault its default
 * @param physicalFrom at {@code dmxFrom}, in the attribute's unit
 * @param physicalTo at {@code dmxTo}; may be below {@code physicalFrom}
 * @param emitter name of the emitter it works on; empty if none
 * @param filter name of the filter it works on; empty if none
 * @param dmxProfile name of its curve; empty for a straight line
 * @param modeMaster when it applies; always if empty
 * @param sets its named stretches, in the file's order
 */
public record ChannelFunction(
        String name,
        String attribute,
        long dmxFrom,
        long dmxTo,
        Optional<DmxValue> ownDefault,
        double physicalFrom,
        double physicalTo,
        String emitter,
        String filter,
        String dmxProfile,
        Optional<ModeMaster> modeMaster,
        List<ChannelSet> sets) {
    public ChannelFunction {
        sets = List.copyOf(sets);
    }

    /**
     * ModeMaster, ModeFrom, ModeTo: the function applies while that channel's value lies in the
     * range, ends included.
     *
     * @param path node path of a DMX channel or a channel function
     */
    public record ModeMaster(String path, DmxValue from, DmxValue to) {}

    /**
     * ChannelSet (table 61).
     *
     * @param dmxFrom first value, in the channel's octets
     * @param dmxTo last value
     * @param physicalFrom the function's if the file has none
     * @param physicalTo the function's if the file has none
     */
    public record ChannelSet(
            String name, long dmxFrom, long dmxTo, Given physicalFrom, Given physicalTo) {}

    /** True if the value lies in its range. */
    public boolean has(long value) {
        return value >= dmxFrom && value <= dmxTo;
    }

    /** The physical value at a value of its range, on the straight line. */
    public double physical(long value) {
        if (dmxTo == dmxFrom) {
            return physicalFrom;
        }
        double part = (double) (value - dmxFrom) / (dmxTo - dmxFrom);
        return physicalFrom + part * (physicalTo - physicalFrom);
    }
}

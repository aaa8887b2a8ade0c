package lookstep.protocols.gdtf;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import lookstep.protocols.gdtf.ChannelFunction.ChannelSet;
import lookstep.protocols.gdtf.ChannelFunction.ModeMaster;

/**
 * The functions of one DMX channel (GDTF 1.2, tables 59 to 61). A file only says where each begins;
 * it ends before the next one that applies under the same mode master.
 */
final class FunctionReader {
    /** Functions with the same one of these share the channel's range. */
    private record Rule(String master, String from, String to) {
        static Rule of(Element function) {
            Map<String, String> a = function.attributes();
            return new Rule(
                    a.getOrDefault("ModeMaster", ""),
                    a.getOrDefault("ModeFrom", ""),
                    a.getOrDefault("ModeTo", ""));
        }
    }

    private final Notes notes;
    private final int octets;
    private final Map<Rule, TreeSet<Long>> begins = new HashMap<>();

    FunctionReader(Notes notes, int octets, List<Element> logicalChannels) {
        this.notes = notes;
        this.octets = octets;
        // read once more below, where what is wrong gets its note
        for (Element logical : logicalChannels) {
            for (Element function : logical.children("ChannelFunction")) {
                begins.computeIfAbsent(Rule.of(function), r -> new TreeSet<>())
                        .add(from(new Fields(function, new Notes())));
            }
        }
    }

    LogicalChannel logical(Element element) {
        Fields f = new Fields(element, notes);
        String attribute = f.text("Attribute", "NoFeature");
        List<ChannelFunction> functions = new ArrayList<>();
        for (Element function :
                notes.first(element.children("ChannelFunction"), Limits.FUNCTIONS)) {
            functions.add(function(function, functions.size() + 1));
        }
        return new LogicalChannel(
                attribute, f.text("Snap", "No"), f.text("Master", "None"), functions);
    }

    private ChannelFunction function(Element element, int number) {
        Fields f = new Fields(element, notes);
        long from = from(f);
        Long next = begins.get(Rule.of(element)).higher(from);
        long to = next == null ? DmxValue.max(octets) : next - 1;
        double physicalFrom = f.number("PhysicalFrom", 0);
        double physicalTo = f.number("PhysicalTo", 1);
        String attribute = f.text("Attribute", "NoFeature");
        return new ChannelFunction(
                f.text("Name", attribute + " " + number),
                attribute,
                from,
                to,
                f.dmx("Default"),
                physicalFrom,
                physicalTo,
                f.node("Emitter"),
                f.node("Filter"),
                f.node("DMXProfile"),
                modeMaster(f),
                sets(element, from, to, physicalFrom, physicalTo));
    }

    private static Optional<ModeMaster> modeMaster(Fields f) {
        String path = f.node("ModeMaster");
        DmxValue zero = new DmxValue(0, 1, false);
        return path.isEmpty()
                ? Optional.empty()
                : Optional.of(
                        new ModeMaster(
                                path,
                                f.dmx("ModeFrom").orElse(zero),
                                f.dmx("ModeTo").orElse(zero)));
    }

    private List<ChannelSet> sets(
            Element function, long from, long to, double physicalFrom, double physicalTo) {
        List<Element> elements = notes.first(function.children("ChannelSet"), Limits.SETS);
        TreeSet<Long> starts = new TreeSet<>();
        for (Element element : elements) {
            starts.add(from(new Fields(element, new Notes())));
        }
        List<ChannelSet> sets = new ArrayList<>();
        for (Element element : elements) {
            Fields f = new Fields(element, notes);
            long start = from(f);
            Long next = starts.higher(start);
            sets.add(
                    new ChannelSet(
                            f.text("Name", ""),
                            start,
                            next == null ? to : Math.min(to, next - 1),
                            f.given("PhysicalFrom", physicalFrom),
                            f.given("PhysicalTo", physicalTo)));
        }
        sets.removeIf(set -> set.dmxFrom() < from || set.dmxFrom() > to);
        return sets;
    }

    private long from(Fields f) {
        return f.dmx("DMXFrom").map(v -> v.in(octets)).orElse(0L);
    }
}

package lookstep.protocols.gdtf;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import lookstep.protocols.gdtf.DmxMode.Relation;

/** DMXModes (GDTF 1.2, tables 56 to 63). */
final class ModeReader {
    private static final int MOST_OFFSET = 65_535;
    private static final int MOST_BREAK = 65_535;

    private final Notes notes;

    ModeReader(Notes notes) {
        this.notes = notes;
    }

    /** Empty, with a note, if one of its channels cannot be placed: then none can be trusted. */
    Optional<DmxMode> mode(Element element) {
        Fields f = new Fields(element, notes);
        String name = f.text("Name", "");
        List<DmxChannel> channels = new ArrayList<>();
        List<Element> all = element.children("DMXChannels", "DMXChannel");
        if (all.size() > Limits.CHANNELS) {
            notes.add(
                    element,
                    "the mode '%s' has %d DMX channels, more than %d; it is left out"
                            .formatted(name, all.size(), Limits.CHANNELS));
            return Optional.empty();
        }
        for (Element channel : all) {
            Optional<DmxChannel> read = channel(channel);
            if (read.isEmpty()) {
                notes.add(channel, "so the mode '" + name + "' is left out");
                return Optional.empty();
            }
            channels.add(read.get());
        }
        return Optional.of(
                new DmxMode(
                        name,
                        f.text("Description", ""),
                        f.node("Geometry"),
                        channels,
                        notes
                                .first(element.children("Relations", "Relation"), Limits.RELATIONS)
                                .stream()
                                .map(this::relation)
                                .toList()));
    }

    private Relation relation(Element element) {
        Fields f = new Fields(element, notes);
        String type = f.text("Type", "Multiply");
        if (!type.equals("Multiply") && !type.equals("Override")) {
            notes.add(element, "Relation Type '%s' is read as Multiply".formatted(type));
        }
        return new Relation(
                f.text("Name", ""), f.node("Master"), f.node("Follower"), type.equals("Override"));
    }

    private Optional<DmxChannel> channel(Element element) {
        Fields f = new Fields(element, notes);
        Optional<List<Integer>> offsets = offsets(element, f.raw("Offset").orElse("None"));
        List<Element> logical = element.children("LogicalChannel");
        if (logical.isEmpty()) {
            notes.add(element, "a DMXChannel has no LogicalChannel");
        }
        if (offsets.isEmpty() || logical.isEmpty()) {
            return Optional.empty();
        }
        int octets = offsets.get().isEmpty() ? Limits.CHANNEL_OCTETS : offsets.get().size();
        FunctionReader functions = new FunctionReader(notes, octets, logical);
        boolean overwrite = f.text("DMXBreak", "1").equals("Overwrite");
        return Optional.of(
                new DmxChannel(
                        overwrite
                                ? OptionalInt.empty()
                                : OptionalInt.of(f.whole("DMXBreak", 1, 1, MOST_BREAK)),
                        offsets.get(),
                        f.dmx("Default"),
                        f.node("InitialFunction"),
                        f.dmx("Highlight"),
                        f.node("Geometry"),
                        logical.stream().map(functions::logical).toList()));
    }

    private Optional<List<Integer>> offsets(Element element, String text) {
        if (text.isBlank() || text.strip().equals("None")) {
            return Optional.of(List.of());
        }
        List<Integer> offsets = new ArrayList<>();
        for (String part : text.split(",", -1)) {
            Optional<Double> number = Fields.number(part);
            boolean good =
                    number.isPresent()
                            && number.get() >= 1
                            && number.get() <= MOST_OFFSET
                            && number.get() == Math.rint(number.get());
            if (!good || offsets.size() == Limits.CHANNEL_OCTETS) {
                notes.add(
                        element,
                        "DMXChannel Offset '%s' is no list of 1 to %d slots"
                                .formatted(Shown.of(text), Limits.CHANNEL_OCTETS));
                return Optional.empty();
            }
            offsets.add((int) (double) number.get());
        }
        return Optional.of(offsets);
    }
}

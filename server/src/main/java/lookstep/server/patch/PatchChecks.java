package lookstep.server.patch;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import lookstep.protocols.dmx.DmxPacket;
import lookstep.protocols.fixture.Mode;
import lookstep.server.patch.PatchWarning.Kind;
import lookstep.server.plan.Light;

/** What is wrong with a patch, and what easily goes wrong when lights are set by hand. */
final class PatchChecks {
    private final List<Light> rig;
    private final Set<Integer> carried;
    private final List<PatchWarning> warnings = new ArrayList<>();

    PatchChecks(List<Light> rig, Set<Integer> carried) {
        this.rig = rig;
        this.carried = new TreeSet<>(carried);
    }

    List<PatchWarning> warnings() {
        overlaps();
        rig.forEach(this::pastTheEnd);
        rig.forEach(this::notCarried);
        rig.forEach(this::otherModes);
        mixedModes();
        return List.copyOf(warnings);
    }

    private void overlaps() {
        for (int i = 1; i < rig.size(); i++) {
            Light light = rig.get(i);
            for (Light before : rig.subList(0, i)) {
                if (onOneUniverse(light, before) && slots(light).meets(slots(before))) {
                    warn(
                            Kind.OVERLAP,
                            List.of(before.name(), light.name()),
                            "‘%s’ on %s meets ‘%s’ on %s"
                                    .formatted(
                                            light.name(),
                                            slots(light).words(),
                                            before.name(),
                                            slots(before).words()),
                            address(light, light.mode().slots()));
                }
            }
        }
    }

    private void pastTheEnd(Light light) {
        SlotRange slots = slots(light);
        if (slots.first() < 1 || slots.last() > DmxPacket.SLOTS) {
            warn(
                    Kind.PAST_THE_END,
                    List.of(light.name()),
                    "‘%s’ would take %s, and a universe has slots 1 to %d"
                            .formatted(light.name(), slots.words(), DmxPacket.SLOTS),
                    address(light, slots.count()));
        }
    }

    private void notCarried(Light light) {
        if (carried.contains(light.universe())) {
            return;
        }
        String output = "give universe %d an output".formatted(light.universe());
        warn(
                Kind.NOT_CARRIED,
                List.of(light.name()),
                "‘%s’ is on universe %d, which no output carries, so it stays dark"
                        .formatted(light.name(), light.universe()),
                carried.isEmpty()
                        ? output
                        : "address it on universe %s, or %s"
                                .formatted(
                                        either(carried.stream().map(String::valueOf).toList()),
                                        output));
    }

    /** A light set to another mode begins at the same slot and may reach further. */
    private void otherModes(Light light) {
        SlotRange planned = slots(light);
        SortedMap<Integer, List<Mode>> longer =
                light.fixture().modes().stream()
                        .filter(m -> m.slots() > planned.count())
                        .collect(
                                Collectors.groupingBy(
                                        Mode::slots, TreeMap::new, Collectors.toList()));
        longer.forEach(
                (count, modes) -> {
                    SlotRange wide = SlotRange.from(planned.first(), count);
                    List<Light> met =
                            rig.stream()
                                    .filter(o -> !o.equals(light) && onOneUniverse(o, light))
                                    .filter(o -> slots(o).meets(wide) && !slots(o).meets(planned))
                                    .toList();
                    boolean past =
                            wide.last() > DmxPacket.SLOTS && planned.last() <= DmxPacket.SLOTS;
                    if (past || !met.isEmpty()) {
                        otherMode(light, modes, wide, met, past, longer.lastKey());
                    }
                });
    }

    private void otherMode(
            Light light,
            List<Mode> modes,
            SlotRange wide,
            List<Light> met,
            boolean past,
            int longest) {
        List<String> names = met.stream().map(m -> "‘" + m.name() + "’").toList();
        String meets = met.isEmpty() ? "" : " and meet " + all(names);
        String ends = past ? ", and a universe ends at " + DmxPacket.SLOTS : "";
        OptionalInt room = room(light, longest);
        warn(
                Kind.OTHER_MODE,
                Stream.concat(Stream.of(light), met.stream()).map(Light::name).toList(),
                "if ‘%s’ were set to %s it would take %s%s%s"
                        .formatted(
                                light.name(),
                                either(modes.stream().map(Mode::id).toList()),
                                wide.words(),
                                meets,
                                ends),
                "check that its display says %s%s"
                        .formatted(
                                light.mode().id(),
                                room.isEmpty()
                                        ? ""
                                        : "; or address it at %d, where each of its modes has room"
                                                .formatted(room.getAsInt())));
    }

    private void mixedModes() {
        Map<String, List<Light>> kinds = new LinkedHashMap<>();
        rig.forEach(l -> kinds.computeIfAbsent(l.fixture().id(), k -> new ArrayList<>()).add(l));
        kinds.forEach(this::mixedModes);
    }

    private void mixedModes(String kind, List<Light> lights) {
        Map<String, List<String>> modes = new LinkedHashMap<>();
        lights.forEach(
                l ->
                        modes.computeIfAbsent(l.mode().id(), m -> new ArrayList<>())
                                .add("‘" + l.name() + "’"));
        if (modes.size() < 2) {
            return;
        }
        warn(
                Kind.MIXED_MODES,
                lights.stream().map(Light::name).toList(),
                "the same kind, %s, set to %s modes: %s"
                        .formatted(
                                kind,
                                modes.size() == 2 ? "two" : String.valueOf(modes.size()),
                                modes.entrySet().stream()
                                        .map(e -> all(e.getValue()) + " to " + e.getKey())
                                        .collect(Collectors.joining(", "))),
                lights.size() == 2 ? "check both displays" : "check the display of each");
    }

    private void warn(Kind kind, List<String> lights, String says, String mend) {
        warnings.add(new PatchWarning(kind, lights, says, mend));
    }

    private String address(Light light, int count) {
        OptionalInt room = room(light, count);
        return room.isPresent()
                ? "address ‘%s’ at %d, which is free".formatted(light.name(), room.getAsInt())
                : "address ‘%s’ on another universe: this one has no %d free slots in a row"
                        .formatted(light.name(), count);
    }

    /** The first place from where the light is now, round the end, that no other light meets. */
    private OptionalInt room(Light light, int count) {
        List<SlotRange> others =
                rig.stream()
                        .filter(o -> !o.equals(light) && onOneUniverse(o, light))
                        .map(PatchChecks::slots)
                        .toList();
        return IntStream.range(0, DmxPacket.SLOTS)
                .map(i -> Math.floorMod(light.startSlot() - 1 + i, DmxPacket.SLOTS) + 1)
                .filter(
                        first -> {
                            SlotRange tried = SlotRange.from(first, count);
                            return tried.last() <= DmxPacket.SLOTS
                                    && others.stream().noneMatch(tried::meets);
                        })
                .findFirst();
    }

    private static boolean onOneUniverse(Light a, Light b) {
        return a.universe() == b.universe();
    }

    private static SlotRange slots(Light light) {
        return UniversePatch.slotsOf(light);
    }

    private static String all(List<String> words) {
        return listed(words, " and ");
    }

    private static String either(List<String> words) {
        return listed(words, " or ");
    }

    private static String listed(List<String> words, String last) {
        int end = words.size() - 1;
        return end < 1
                ? words.get(0)
                : String.join(", ", words.subList(0, end)) + last + words.get(end);
    }
}

package lookstep.protocols.gdtf;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import lookstep.protocols.gdtf.Geometry.Break;
import lookstep.protocols.gdtf.Geometry.Reference;
import lookstep.protocols.gdtf.Placement.PlacedBeam;
import lookstep.protocols.gdtf.Placement.PlacedChannel;

/** Walks a mode's geometries and puts its channels on them (GDTF 1.2, tables 48, 49 and 58). */
final class Placing {
    private final FixtureType type;
    private final Map<String, List<DmxChannel>> byGeometry = new HashMap<>();

    /** By identity: to compare channels by value is slow, and two may be alike. */
    private final IdentityHashMap<DmxChannel, List<PlacedChannel>> placed = new IdentityHashMap<>();

    private final List<PlacedBeam> beams = new ArrayList<>();
    private final Set<String> notes = new LinkedHashSet<>();
    private final Set<String> inside = new HashSet<>();
    private int geometries;
    private int channels;

    /** Why a mode cannot be placed. */
    private static final class Trouble extends Exception {
        private static final long serialVersionUID = 1;

        Trouble(String what) {
            super(what);
        }
    }

    private Placing(FixtureType type) {
        this.type = type;
    }

    static Placement place(FixtureType type, DmxMode mode) {
        Placing placing = new Placing(type);
        Optional<String> trouble = Optional.empty();
        try {
            placing.place(mode);
        } catch (Trouble e) {
            trouble = Optional.of(e.getMessage());
        }
        return new Placement(
                mode.channels().stream()
                        .flatMap(channel -> placing.placed.get(channel).stream())
                        .toList(),
                placing.beams,
                List.copyOf(placing.notes),
                trouble);
    }

    private void place(DmxMode mode) throws Trouble {
        for (DmxChannel channel : mode.channels()) {
            byGeometry.computeIfAbsent(channel.geometry(), g -> new ArrayList<>()).add(channel);
            placed.put(channel, new ArrayList<>());
        }
        Optional<Geometry> top = type.geometry(mode.geometry());
        if (top.isPresent()) {
            inside.add(top.get().name());
            walk(top.get(), List.of(), List.of());
        } else {
            notes.add("there is no geometry '%s', which it is for".formatted(mode.geometry()));
        }
        for (DmxChannel channel : mode.channels()) {
            if (placed.get(channel).isEmpty()) {
                notes.add(
                        "channel '%s' is on a geometry that the mode does not have"
                                .formatted(channel.name()));
                put(channel, List.of(channel.geometry()), List.of());
            }
        }
    }

    /**
     * @param references those passed on the way, the outermost first
     */
    private void walk(Geometry geometry, List<String> above, List<Reference> references)
            throws Trouble {
        if (++geometries > Limits.PLACED_GEOMETRIES || above.size() >= Limits.DEPTH) {
            throw new Trouble("its geometry references multiply without end");
        }
        List<String> path = new ArrayList<>(above);
        path.add(geometry.name());
        for (DmxChannel channel : byGeometry.getOrDefault(geometry.name(), List.of())) {
            put(channel, path, references);
        }
        geometry.beam().ifPresent(beam -> beams.add(new PlacedBeam(beam, path)));
        if (geometry.reference().isPresent()) {
            follow(geometry.reference().get(), path, references);
        }
        for (Geometry child : geometry.children()) {
            walk(child, path, references);
        }
    }

    private void follow(Reference reference, List<String> path, List<Reference> references)
            throws Trouble {
        Optional<Geometry> target = type.geometry(reference.geometry());
        if (target.isEmpty()) {
            notes.add(
                    "there is no geometry '%s', which '%s' refers to"
                            .formatted(reference.geometry(), path.get(path.size() - 1)));
            return;
        }
        if (!inside.add(reference.geometry())) {
            throw new Trouble("its geometry '%s' refers to itself".formatted(reference.geometry()));
        }
        List<Reference> deeper = new ArrayList<>(references);
        deeper.add(reference);
        walk(target.get(), path, deeper);
        inside.remove(reference.geometry());
    }

    private void put(DmxChannel channel, List<String> path, List<Reference> references)
            throws Trouble {
        if (++channels > Limits.PLACED_CHANNELS) {
            throw new Trouble("it has more than %d DMX channels".formatted(Limits.PLACED_CHANNELS));
        }
        int dmxBreak = channel.dmxBreak().orElse(0);
        int shift = 0;
        // from the nearest reference outwards
        for (int i = references.size() - 1; i >= 0; i--) {
            List<Break> breaks = references.get(i).breaks();
            if (dmxBreak == 0 && !breaks.isEmpty()) {
                // "Overwrite" takes the last of several breaks (from memory of the standard's text)
                dmxBreak = breaks.get(breaks.size() - 1).dmxBreak();
            }
            int wanted = dmxBreak;
            shift +=
                    breaks.stream()
                            .filter(b -> b.dmxBreak() == wanted)
                            .reduce((first, last) -> last)
                            .map(b -> b.dmxOffset() - 1)
                            .orElse(0);
        }
        if (dmxBreak == 0) {
            throw new Trouble(
                    "channel '%s' has the DMX break \"Overwrite\", and no geometry reference says"
                                    .formatted(channel.name())
                            + " which");
        }
        int by = shift;
        placed.get(channel)
                .add(
                        new PlacedChannel(
                                channel,
                                path,
                                !references.isEmpty(),
                                dmxBreak,
                                channel.offsets().stream().map(o -> o + by).toList()));
    }
}

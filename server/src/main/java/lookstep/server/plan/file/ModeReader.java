package lookstep.server.plan.file;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lookstep.protocols.fixture.Emitter;
import lookstep.protocols.fixture.Mode;
import lookstep.protocols.fixture.Mode.Channel;

/** The ways a fixture can be set to read its slots. */
final class ModeReader {
    static final String EXAMPLE = "{id: 8-bit, slots: [warm, cool]}";

    private static final int MOST = 64;
    private static final List<String> KEYS = List.of("id", "lux", "slots");

    private final Names names = new Names("mode");
    private final List<Emitter> emitters;
    private final Problems problems;
    private final SlotsReader slotsReader;
    private final List<Mode> modes = new ArrayList<>();

    ModeReader(List<Emitter> emitters, Names emitterNames, Problems problems, List<String> notes) {
        this.emitters = emitters;
        this.problems = problems;
        slotsReader = new SlotsReader(emitterNames, problems, notes);
    }

    Names names() {
        return names;
    }

    List<Mode> read(Value value) {
        value.list(MOST, "- " + EXAMPLE).ifPresent(list -> list.forEach(this::one));
        return modes;
    }

    private void one(Value value) {
        value.fields(KEYS, EXAMPLE).ifPresent(this::one);
    }

    private void one(Fields f) {
        String id = names.take(f, "id", "8-bit");
        Optional<Double> lux = f.get("lux", "1600").flatMap(v -> v.number(EmitterReader.LUX));
        List<Channel> channels =
                f.need("slots", "[warm, cool]").map(slotsReader::read).orElse(List.of());
        if (problems.errorCount() > 0) {
            return; // nobody sees what becomes of it
        }
        Mode mode = new Mode(id, channels);
        modes.add(lux.map(l -> new Mode(id, channels, l / mode.candela(emitters))).orElse(mode));
    }
}

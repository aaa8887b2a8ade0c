package lookstep.server.plan.file;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import lookstep.protocols.fixture.Emitter;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.Mixing;

/** The LEDs that a fixture mixes. */
final class EmitterReader {
    static final String EXAMPLE = "{name: warm, kelvin: 2700, lux: 1600}";

    private static final List<String> KEYS =
            List.of("name", "xy", "kelvin", "duv", "spectrum", "lux");
    static final Quantity LUX = new Quantity("lux", " lx", 0.1, 10_000_000, 1600);

    /** What a slot is called otherwise, or how it says how wide it is. */
    private static final Pattern TAKEN = Pattern.compile("(?i)dimmer|.* (8|16)|8|16");

    private final Names names = new Names("emitter");
    private final Problems problems;
    private final List<Emitter> emitters = new ArrayList<>();

    EmitterReader(Problems problems) {
        this.problems = problems;
    }

    Names names() {
        return names;
    }

    List<Emitter> read(Value value) {
        int before = problems.errorCount();
        Optional<List<Value>> list = value.list(Mixing.MAX_EMITTERS, "- " + EXAMPLE);
        if (problems.errorCount() > before) {
            names.incomplete();
        }
        list.ifPresent(l -> l.forEach(this::one));
        return emitters;
    }

    private void one(Value value) {
        value.fields(KEYS, EXAMPLE).ifPresentOrElse(this::one, names::incomplete);
    }

    private void one(Fields f) {
        String name = names.take(f, "name", "warm");
        if (TAKEN.matcher(name).matches()) {
            f.get("name", "warm")
                    .ifPresent(
                            v ->
                                    v.wrong(
                                            "write another name: slots are called dimmer, and 8"
                                                    + " or 16 behind a name are its bits"));
            names.incomplete();
        }
        double lux = f.number("lux", LUX);
        Chromaticity c = EmitterColour.read(f, problems);
        emitters.add(new Emitter(name, c.x(), c.y(), lux));
    }
}

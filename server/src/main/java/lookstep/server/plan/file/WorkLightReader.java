package lookstep.server.plan.file;

import java.util.List;
import java.util.Optional;
import lookstep.server.plan.WorkLight;

/** The light that people set up in, and whether light may flash. */
final class WorkLightReader {
    static final String EXAMPLE = "{percent: 25, kelvin: 4300}";

    private static final Quantity PERCENT = new Quantity("percent", " %", 0, 100, 25);
    private static final List<String> FLASHING = List.of("forbidden", "allowed");

    private WorkLightReader() {}

    static Optional<WorkLight> read(Value value) {
        return value.fields(List.of("percent", "kelvin"), EXAMPLE)
                .map(
                        f ->
                                new WorkLight(
                                        f.number("percent", PERCENT),
                                        f.number(
                                                "kelvin",
                                                Quantity.KELVIN,
                                                WorkLight.USUAL.kelvin())));
    }

    static Optional<Boolean> flashingAllowed(Value value) {
        return value.text("forbidden")
                .flatMap(
                        word ->
                                FLASHING.contains(word)
                                        ? Optional.of(word.equals("allowed"))
                                        : value.wrong(Words.suggest(word, FLASHING)));
    }
}

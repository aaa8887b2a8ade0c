package lookstep.server.plan.file;

import java.nio.charset.StandardCharsets;
import java.util.List;
import lookstep.protocols.fixture.Fixture;

/** A small fixture file for tests. */
final class FixtureKit {
    /** A good file on which tests make one thing wrong at a time. */
    static final String SMALL =
            """
            id: panel
            name: our panel
            beam: 95
            watts: 180
            curve: linear
            emitters:
              - {name: red, xy: [0.69, 0.31], lux: 600}
              - name: green
                xy: [0.17, 0.7]
                lux: 1100
              - {name: warm, kelvin: 2700, lux: 1600}
              - {name: cool, kelvin: 6500, duv: 0.001, lux: 1800}
            modes:
              - id: each
                slots: [red, green, warm 16, cool]
              - id: dimmed
                slots:
                  - dimmer
                  - red
                  - green
                  - warm
                  - cool 8
              - id: white
                lux: 900
                slots:
                  - dimmer 16
                  - {whites: [warm, cool], bits: 16}
                  - tint: {greener: {green: 0.3}, pinker: {red: 0.2}}
                  - {fixed: 254, is: shutter open}
            """;

    private FixtureKit() {}

    static FixtureReading read(String text) {
        return new FixtureReader().read(text.getBytes(StandardCharsets.UTF_8));
    }

    /** The errors as the terminal shows them, without the file's name; empty if it is good. */
    static List<String> errors(String text) {
        return read(text) instanceof FixtureReading.Bad bad
                ? bad.errors().stream().map(e -> e.text("f").substring(2)).toList()
                : List.of();
    }

    static FixtureReading.Good good(String text) {
        FixtureReading reading = read(text);
        if (reading instanceof FixtureReading.Good good) {
            return good;
        }
        throw new AssertionError(errors(text).toString());
    }

    static Fixture fixture(String text) {
        return good(text).fixtures().get(0);
    }
}

package lookstep.server.plan.file;

import java.nio.charset.StandardCharsets;
import java.util.List;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.plan.ShootPlan;

/** Fixtures and a small plan for tests. */
public final class Kit {
    public static final List<Fixture> FIXTURES = GenericFixtures.all();

    /** A good plan on which tests make one thing wrong at a time. */
    public static final String SMALL =
            """
            title: Two by the door
            place:
              name: the shed
              width: 6
              depth: 7
              height: 3
              background: {distance: 2, surface: black cloth}
            window: 5 min
            camera: {f: 8, time: 1/125, iso: 3200, kelvin: 4300}
            people:
              - name: Ana
                height: 1.7
              - {name: Bo, height: 1.8, skin: deep, top: [0.3, 0.05, 0.07]}
            rig:
              - name: key
                fixture: bi-colour
                mode: 16-bit
                slot: 1
                position: [-2, -2, 2.2]
              - name: rim left
                fixture: rgbw
                slot: 11
                position: [-2, 1, 2.5]
                modifier: grid 30
            looks:
              - name: safe
                lights:
                  key: {percent: 100}
                  rim left: {stops: +1}
              - name: blue
                fade: 0
                key: key
                lights:
                  key: {percent: 40, kelvin: 3000}
                  rim left: {stops: -0.5, xy: [0.2, 0.15]}
            shots:
              - name: Both
                safe: true
                look: safe
                lens: 50
                distance: 3
              - name: Solo
                solos: true
                look: blue
                lens: 85
                distance: 2.5
            """;

    private Kit() {}

    static PlanReading read(String text) {
        return new PlanReader(FIXTURES).read(text.getBytes(StandardCharsets.UTF_8));
    }

    /** The errors as the terminal shows them, without the file's name; empty if it is good. */
    static List<String> errors(String text) {
        return read(text) instanceof PlanReading.Bad bad
                ? bad.errors().stream().map(e -> e.text("f").substring(2)).toList()
                : List.of();
    }

    /** The warnings of a good file. */
    static List<String> warnings(String text) {
        PlanReading.Good good = good(text);
        return good.warnings().stream().map(e -> e.text("f").substring(2)).toList();
    }

    static ShootPlan plan(String text) {
        return good(text).plan();
    }

    /** {@code text} with the one place that has {@code find} changed. */
    static String with(String text, String find, String put) {
        int at = text.indexOf(find);
        if (at < 0 || text.indexOf(find, at + 1) >= 0) {
            throw new IllegalArgumentException("'" + find + "' must be there exactly once");
        }
        return text.replace(find, put);
    }

    private static PlanReading.Good good(String text) {
        PlanReading reading = read(text);
        if (reading instanceof PlanReading.Good good) {
            return good;
        }
        throw new AssertionError(errors(text).toString());
    }
}

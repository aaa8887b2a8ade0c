package lookstep.server.plan.file;

import java.nio.charset.StandardCharsets;
import java.util.List;
import lookstep.protocols.fixture.DimmingCurve;
import lookstep.protocols.fixture.Emitter;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.Mode;
import lookstep.protocols.fixture.Mode.Channel;
import lookstep.server.plan.ShootPlan;

/** Fixtures and a small plan for tests. */
public final class Kit {
    /** Whites of 2700 K and 6500 K (Planckian, CIE 1931), 1600 cd each. */
    private static final Fixture BI_COLOUR =
            new Fixture(
                    "bi-colour",
                    "panel",
                    List.of(
                            new Emitter("warm", 0.4599, 0.4106, 1600),
                            new Emitter("cool", 0.3135, 0.3236, 1600)),
                    DimmingCurve.LINEAR,
                    100,
                    100,
                    List.of(new Mode("8-bit", emitters(2, 1)), new Mode("16-bit", emitters(2, 2))));

    private static final Fixture RGBW =
            new Fixture(
                    "rgbw",
                    "lamp",
                    List.of(
                            new Emitter("red", 0.69, 0.31, 1500),
                            new Emitter("green", 0.17, 0.70, 2800),
                            new Emitter("blue", 0.14, 0.05, 600),
                            new Emitter("white", 0.3804, 0.3767, 4500)),
                    DimmingCurve.LINEAR,
                    40,
                    120,
                    List.of(new Mode("8-bit", emitters(4, 1)), new Mode("16-bit", emitters(4, 2))));

    private static final Fixture DIMMER =
            new Fixture(
                    "dimmer",
                    "lamp on a dimmer",
                    List.of(new Emitter("white", 0.4234, 0.3990, 3000)),
                    DimmingCurve.SQUARE,
                    60,
                    300,
                    List.of(new Mode("8-bit", List.of(new Channel.Dimmer(1)))));

    public static final List<Fixture> FIXTURES = List.of(DIMMER, BI_COLOUR, RGBW);

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

    private static List<Channel> emitters(int count, int bytes) {
        return java.util.stream.IntStream.range(0, count)
                .<Channel>mapToObj(i -> new Channel.Emitter(i, bytes))
                .toList();
    }
}

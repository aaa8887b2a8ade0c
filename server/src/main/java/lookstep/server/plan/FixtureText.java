package lookstep.server.plan;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import lookstep.protocols.fixture.Emitter;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.Mode;
import lookstep.protocols.fixture.Mode.Channel;
import lookstep.simulator.model.colour.Chromaticity;
import lookstep.simulator.model.colour.ColourTemperature;

/** A fixture to compare with the light itself: what was understood of its file. */
public final class FixtureText {
    /** Farther off the locus a colour temperature says little (CIE 15:2004, from memory). */
    private static final double MOST_DUV = 0.05;

    private final StringBuilder out = new StringBuilder();

    private FixtureText() {}

    /**
     * The fixtures of one file, lines ended by a line feed.
     *
     * @param notes what reading it left to say, each a sentence; may be empty
     */
    public static String of(List<Fixture> fixtures, List<String> notes) {
        FixtureText text = new FixtureText();
        for (Fixture fixture : fixtures) {
            if (!text.out.isEmpty()) {
                text.line("");
            }
            text.head(fixture);
            text.emitters(fixture);
            fixture.modes().forEach(mode -> text.mode(fixture, mode));
        }
        if (!notes.isEmpty()) {
            text.line("");
            text.line("Notes");
            notes.forEach(note -> text.line("  %s", note));
        }
        return text.out.toString();
    }

    private void head(Fixture fixture) {
        line("%s", fixture.name());
        line("  id      %s", fixture.id());
        line("  beam    %s degrees at half intensity, bare", n(fixture.beamDegrees()));
        line("  mains   %s W at most", n(fixture.watts()));
        line(
                "  curve   %s: at half the code %.1f %% of the light",
                fixture.curve().words(), 100 * fixture.curve().light(0.5));
    }

    private void emitters(Fixture fixture) {
        line("");
        line("Emitters, each alone and at full");
        int width = fixture.emitters().stream().mapToInt(e -> e.name().length()).max().orElse(0);
        for (Emitter e : fixture.emitters()) {
            line(
                    "  %s  %s lx at 1 m  xy %.4f, %.4f%s",
                    e.name() + " ".repeat(width - e.name().length()),
                    " ".repeat(Math.max(0, 6 - lux(e.candela()).length())) + lux(e.candela()),
                    e.x(),
                    e.y(),
                    white(e).orElse(""));
        }
    }

    private static Optional<String> white(Emitter e) {
        ColourTemperature t = ColourTemperature.of(new Chromaticity(e.x(), e.y()));
        if (Math.abs(t.duv()) > MOST_DUV) {
            return Optional.empty();
        }
        // 0.0 is added so that -0 is none
        double duv = Math.round(t.duv() * 10_000) / 10_000.0 + 0.0;
        long kelvin = Math.round(t.kelvin() / 10) * 10;
        return Optional.of(String.format(Locale.ROOT, "  %d K, Duv %+.4f", kelvin, duv));
    }

    private void mode(Fixture fixture, Mode mode) {
        line("");
        line("Mode '%s': %s", mode.id(), mode.slots() == 1 ? "1 slot" : mode.slots() + " slots");
        for (int i = 0; i < mode.slots(); i++) {
            line("  %3d  %s", i + 1, mode.slotWords(fixture.emitters(), i));
        }
        line("  gives %s", most(fixture, mode));
        line(
                "  dims by %.1f stops, on paper; below that it is dark",
                -Math.log(mode.floor(fixture.curve())) / Math.log(2));
    }

    private static String most(Fixture fixture, Mode mode) {
        List<Emitter> emitters = fixture.emitters();
        Optional<Channel.Whites> whites =
                mode.channels().stream()
                        .filter(Channel.Whites.class::isInstance)
                        .map(Channel.Whites.class::cast)
                        .findFirst();
        if (whites.isEmpty()) {
            return lux(mode.candela(emitters)) + " lx at 1 m with all at full";
        }
        Emitter warm = emitters.get(whites.get().warm());
        Emitter cool = emitters.get(whites.get().cool());
        return "%s lx at 1 m as %s, %s lx as %s"
                .formatted(
                        lux(mode.output() * warm.candela()),
                        warm.name(),
                        lux(mode.output() * cool.candela()),
                        cool.name());
    }

    private static String lux(double lux) {
        return lux >= 100 ? String.valueOf(Math.round(lux)) : n(Math.round(lux * 10) / 10.0);
    }

    private void line(String format, Object... values) {
        String text = values.length == 0 ? format : String.format(Locale.ROOT, format, values);
        out.append(text.stripTrailing()).append('\n');
    }

    private static String n(double value) {
        return PlanWords.number(value);
    }
}

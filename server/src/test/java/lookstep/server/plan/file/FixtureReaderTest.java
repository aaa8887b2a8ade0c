package lookstep.server.plan.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import lookstep.protocols.fixture.DimmingCurve;
import lookstep.protocols.fixture.DimmingCurve.Point;
import lookstep.protocols.fixture.Emitter;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.Mode;
import lookstep.protocols.fixture.Mode.Channel;
import lookstep.simulator.model.colour.Chromaticity;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class FixtureReaderTest {
    private static final Fixture SMALL = FixtureKit.fixture(FixtureKit.SMALL);

    @Test
    void readsWhatIsWritten() {
        assertEquals("panel", SMALL.id());
        assertEquals("our panel", SMALL.name());
        assertEquals(95, SMALL.beamDegrees());
        assertEquals(180, SMALL.watts());
        assertEquals(DimmingCurve.LINEAR, SMALL.curve());
        assertEquals(
                List.of("red", "green", "warm", "cool"),
                SMALL.emitters().stream().map(Emitter::name).toList());
        assertEquals(new Emitter("green", 0.17, 0.7, 1100), SMALL.emitters().get(1));
        assertEquals(
                List.of(
                        new Mode(
                                "each",
                                List.of(
                                        new Channel.Emitter(0, 1),
                                        new Channel.Emitter(1, 1),
                                        new Channel.Emitter(2, 2),
                                        new Channel.Emitter(3, 1))),
                        new Mode(
                                "dimmed",
                                List.of(
                                        new Channel.Dimmer(1),
                                        new Channel.Emitter(0, 1),
                                        new Channel.Emitter(1, 1),
                                        new Channel.Emitter(2, 1),
                                        new Channel.Emitter(3, 1))),
                        new Mode(
                                "white",
                                List.of(
                                        new Channel.Dimmer(2),
                                        new Channel.Whites(2, 3, 2, DimmingCurve.LINEAR),
                                        new Channel.Tint(
                                                List.of(0.0, 0.3, 0.0, 0.0),
                                                List.of(0.2, 0.0, 0.0, 0.0),
                                                1),
                                        new Channel.Fixed(1, 254, "shutter open")),
                                // half of the cool one's 1800
                                0.5)),
                SMALL.modes());
        assertEquals(List.of(), FixtureKit.good(FixtureKit.SMALL).notes());
    }

    @Test
    void theExampleIsGood() {
        FixtureReading.Good good = FixtureKit.good(ExampleFixture.text());
        assertEquals(List.of(), good.notes());
        assertEquals(
                List.of(5, 20, 8, 8),
                good.fixtures().get(0).modes().stream().map(Mode::slots).toList());
    }

    @ParameterizedTest
    @CsvSource({
        "linear, 0.5",
        "square, 0.25",
        "smoothstep, 0.5",
        "1, 0.5",
        "2, 0.25",
        "2.2, 0.2176"
    })
    void curvesByWordOrGamma(String written, double half) {
        String text = Kit.with(FixtureKit.SMALL, "curve: linear", "curve: " + written);
        assertEquals(half, FixtureKit.fixture(text).curve().light(0.5), 0.00005);
    }

    @Test
    void curvesAsMeasured() {
        String text =
                Kit.with(
                        FixtureKit.SMALL,
                        "curve: linear",
                        "curve:\n  - [0, 0]\n  - [5, 0]\n  - [50, 21.5]\n  - [100, 100]");
        assertEquals(
                new DimmingCurve.Table(
                        List.of(
                                new Point(0, 0),
                                new Point(0.05, 0),
                                new Point(0.5, 0.215),
                                new Point(1, 1))),
                FixtureKit.fixture(text).curve());
    }

    @Test
    void whitesMayHaveACurveOfTheirOwn() {
        String text = Kit.with(FixtureKit.SMALL, "bits: 16}", "bits: 16, curve: square}");
        assertEquals(
                new Channel.Whites(2, 3, 2, DimmingCurve.SQUARE),
                FixtureKit.fixture(text).modes().get(2).channels().get(1));
    }

    /** Planckian locus, CIE 1931 2-degree observer, c2 = 1.4388e-2 m K (computed elsewhere). */
    @ParameterizedTest
    @CsvSource({"2700, 0.4599, 0.4106", "3200, 0.4234, 0.3990", "5600, 0.3302, 0.3391"})
    void whitesByTheirTemperature(double kelvin, double x, double y) {
        Emitter white = white(kelvin, 0);
        assertEquals(x, white.x(), 0.0001);
        assertEquals(y, white.y(), 0.0001);
    }

    /**
     * Ohno, "Practical Use and Calculation of CCT and Duv", LEUKOS 10, 2014: the values with which
     * the colour-science library 'colour' tests its own way back, in CIE 1960 uv.
     */
    @Test
    void whitesOffTheLocus() {
        Emitter white = white(6507.4738, 0.00322335);
        Chromaticity c = new Chromaticity(white.x(), white.y());
        assertEquals(0.197800, c.u(), 0.000005);
        assertEquals(0.312200, c.v(), 0.000005);
    }

    /** The emitter of the small fixture that is given by its temperature. */
    private static Emitter white(double kelvin, double duv) {
        String text =
                Kit.with(FixtureKit.SMALL, "kelvin: 2700", "kelvin: " + kelvin + ", duv: " + duv);
        return FixtureKit.fixture(text).emitters().get(2);
    }

    @Test
    void anyWhiteIsReadOrHasItsError() {
        int bad = 0;
        for (int kelvin = 1700; kelvin <= 20_000; kelvin += 150) {
            for (double duv : new double[] {-0.05, -0.01, 0.01, 0.02, 0.05}) {
                String text =
                        Kit.with(
                                FixtureKit.SMALL,
                                "kelvin: 2700",
                                "kelvin: " + kelvin + ", duv: " + duv);
                bad += FixtureKit.errors(text).size();
            }
        }
        assertTrue(bad > 0, "bad: " + bad);
        assertEquals(
                List.of(
                        "11:32: emitters[3].duv: there is no colour so far off the locus at 1700 K;"
                                + " write a Duv nearer to 0"),
                FixtureKit.errors(
                        Kit.with(FixtureKit.SMALL, "kelvin: 2700", "kelvin: 1700, duv: 0.02")));
    }

    /** CIE standard illuminant A is Planck's law with 1.435e7 / 2848 in its exponent (CIE 15). */
    @Test
    void coloursByTheirSpectrum() {
        String spectrum =
                IntStream.rangeClosed(60, 166)
                        .map(i -> 5 * i)
                        .mapToObj(
                                nm ->
                                        "["
                                                + nm
                                                + ", "
                                                + 100
                                                        * Math.pow(560.0 / nm, 5)
                                                        * Math.expm1(1.435e7 / (2848 * 560.0))
                                                        / Math.expm1(1.435e7 / (2848.0 * nm))
                                                + "]")
                        .collect(Collectors.joining(", "));
        Emitter e = red("spectrum: [" + spectrum + "]");
        assertEquals(0.44758, e.x(), 0.00002);
        assertEquals(0.40745, e.y(), 0.00002);
    }

    /** The ends of the spectrum locus: 700 nm is 0.7347, 0.2653 (CIE 15:2004, table 3). */
    @Test
    void aLineOfDeepRed() {
        Emitter e = red("spectrum: [[699, 0], [700, 1], [701, 0]]");
        assertEquals(0.7347, e.x(), 0.00005);
        assertEquals(0.2653, e.y(), 0.00005);
    }

    private static Emitter red(String colour) {
        return FixtureKit.fixture(Kit.with(FixtureKit.SMALL, "xy: [0.69, 0.31]", colour))
                .emitters()
                .get(0);
    }

    /** 600 + 1100 + 1600 + 1800 lx, of which 2040 is four tenths. */
    @Test
    void luxOfAModeIsAgainstTheEmitters() {
        String text = Kit.with(FixtureKit.SMALL, "id: each", "id: each\n    lux: 2040");
        Mode each = FixtureKit.fixture(text).modes().get(0);
        assertEquals(0.4, each.output(), 1e-12);
        assertEquals(2040, each.candela(SMALL.emitters()), 1e-9);
        assertEquals(5100, SMALL.modes().get(1).candela(SMALL.emitters()), 1e-9);
        assertEquals(900, SMALL.modes().get(2).candela(SMALL.emitters()), 1e-9);
    }

    @Test
    void unevenCellsAreNoted() {
        String text =
                Kit.with(
                        FixtureKit.SMALL,
                        "[red, green, warm 16, cool]",
                        "[red, green, red, warm, cool]");
        assertEquals(
                List.of("line 15: modes[1].slots has more slots for one emitter than for another"),
                FixtureKit.good(text).notes());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "'' | 1:1: the file is empty; begin with a line 'id: ' and how plan files are to"
                        + " call it",
                "'- a' | 1:1: the file is a list of 1; begin with keys: id, name, beam, watts,"
                        + " curve, emitters, modes",
            })
    void filesThatAreNoFixture(String text, String error) {
        assertEquals(List.of(error), FixtureKit.errors(text));
    }

    @Test
    void aFileCutAnywhereIsReadOrHasItsErrors() {
        int good = 0;
        for (int end = 0; end < FixtureKit.SMALL.length(); end++) {
            String cut = FixtureKit.SMALL.substring(0, end);
            if (FixtureKit.read(cut) instanceof FixtureReading.Bad bad) {
                assertFalse(bad.errors().isEmpty());
                long lines = cut.lines().count() + 1;
                bad.errors()
                        .forEach(e -> assertTrue(e.line() >= 1 && e.line() <= lines, e.text(cut)));
            } else {
                good++;
            }
        }
        assertTrue(good >= 5, "good: " + good);
    }

    @Test
    void aRemarkOrABlankLineMayBeMissingAndAnyOtherLineHarmsNothing() {
        List<String> lines = ExampleFixture.text().lines().toList();
        int bad = 0;
        for (int skip = 0; skip < lines.size(); skip++) {
            List<String> left = new ArrayList<>(lines);
            String line = left.remove(skip).strip();
            List<String> errors = FixtureKit.errors(String.join("\n", left));
            if (line.isEmpty() || line.startsWith("#")) {
                assertEquals(List.of(), errors, line);
            }
            if (line.matches("(id|name|beam|watts|curve|spectrum|emitters|modes):.*")) {
                assertFalse(errors.isEmpty(), line);
            }
            bad += errors.isEmpty() ? 0 : 1;
        }
        assertTrue(bad > 12, "bad: " + bad);
    }

    /** The reader's own rules must say no before the fixture itself does, which would throw. */
    @Test
    void anySlotsAreReadOrHaveTheirErrors() {
        List<String> words =
                List.of(
                        "dimmer",
                        "dimmer 16",
                        "red",
                        "green",
                        "warm",
                        "cool",
                        "red 16",
                        "{whites: [warm, cool]}",
                        "{whites: [warm, green]}",
                        "{tint: {greener: {green: 0.3}, pinker: {red: 0.2}}}",
                        "{tint: {greener: {green: 1}, pinker: {red: 1, warm: 1, cool: 1}}}",
                        "{fixed: 255, is: shutter open}");
        Random random = new Random(3);
        int good = 0;
        for (int round = 0; round < 4000; round++) {
            String slots =
                    IntStream.range(0, 1 + random.nextInt(6))
                            .mapToObj(i -> words.get(random.nextInt(words.size())))
                            .collect(Collectors.joining(", "));
            String text = Kit.with(FixtureKit.SMALL, "red, green, warm 16, cool", slots);
            good += FixtureKit.errors(text).isEmpty() ? 1 : 0;
        }
        assertTrue(good > 100, "good: " + good);
    }

    @ParameterizedTest
    @ValueSource(strings = {"[", "{a: ", "- ", "? ", "'", "\\", "&", "*", "#", "a: "})
    void thousandsOfTheSameSignAreAnError(String sign) {
        FixtureReading.Bad bad =
                assertInstanceOf(
                        FixtureReading.Bad.class,
                        FixtureKit.read("id: " + sign.repeat(5000) + "\n"));
        assertTrue(bad.errors().get(0).line() == 1 && bad.errors().size() < 20);
    }
}

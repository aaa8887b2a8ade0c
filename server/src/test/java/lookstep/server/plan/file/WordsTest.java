package lookstep.server.plan.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import lookstep.protocols.fixture.Emitter;
import lookstep.protocols.fixture.Fixture;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.look.Photometry;
import lookstep.server.plan.Light;
import lookstep.server.plan.Modifier;
import lookstep.server.plan.Surface;
import lookstep.simulator.model.light.Beam;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WordsTest {
    /** Damerau's and Levenshtein's textbook distances. */
    @ParameterizedTest
    @CsvSource({"kitten, sitting, 3", "nmae, name, 1", "'', abc, 3", "abc, abc, 0", "ca, ac, 1"})
    void edits(String a, String b, int count) {
        assertEquals(count, Words.edits(a, b));
        assertEquals(count, Words.edits(b, a));
    }

    @Test
    void nearestOnlyIfNear() {
        List<String> known = List.of("percent", "stops", "kelvin", "xy");
        assertEquals(Optional.of("kelvin"), Words.nearest("Kelvn", known));
        assertEquals(Optional.of("stops"), Words.nearest("stop", known));
        assertEquals(Optional.empty(), Words.nearest("colour", known));
        assertEquals(Optional.empty(), Words.nearest("a", known));
    }

    @Test
    void longValuesAreCut() {
        assertEquals(40, Words.brief("x".repeat(1000)).length());
        assertEquals("a b", Words.brief("a\nb"));
    }

    /** Common practice: light 0.35 to 0.45, medium 0.18 to 0.25, deep 0.05 to 0.12. */
    @ParameterizedTest
    @CsvSource({"light, 0.35, 0.45", "medium, 0.18, 0.25", "brown, 0.10, 0.18", "deep, 0.05, 0.12"})
    void skin(String word, double least, double most) {
        double y = SurfaceWords.luminance(SurfaceWords.SKIN.words().get(word));
        assertTrue(y >= least && y <= most, word + " " + y);
    }

    /** Common practice: black cloth 0.02 to 0.05, white wall 0.7 to 0.9, the card 0.18. */
    @ParameterizedTest
    @CsvSource({
        "black cloth, 0.02, 0.05",
        "white paint, 0.7, 0.9",
        "grey cloth, 0.18, 0.18",
        "white cloth, 0.7, 0.9"
    })
    void room(String word, double least, double most) {
        double y = SurfaceWords.luminance(SurfaceWords.ROOM.words().get(word));
        assertTrue(y >= least - 1e-9 && y <= most + 1e-9, word + " " + y);
    }

    @Test
    void everySurfaceReflectsBetweenNothingAndAll() {
        for (SurfaceWords table :
                List.of(
                        SurfaceWords.SKIN,
                        SurfaceWords.HAIR,
                        SurfaceWords.CLOTHES,
                        SurfaceWords.ROOM)) {
            assertTrue(table.words().size() >= 4);
            for (Surface s : table.words().values()) {
                for (double share : new double[] {s.red(), s.green(), s.blue()}) {
                    assertTrue(share > 0 && share < 1, s.toString());
                }
            }
        }
    }

    /** Cloth spreads and a grid shades: neither adds to the lumens of the bare light. */
    @Test
    void noModifierMakesLight() {
        assertTrue(ModifierWords.WORDS.size() >= 5);
        assertEquals(new Modifier("bare", 0.3, 1, 0, false), ModifierWords.BARE);
        for (Modifier m : ModifierWords.WORDS.values()) {
            assertTrue(m.transmission() > 0 && m.transmission() <= 1, m.toString());
            assertTrue(m.sizeMetres() > 0 && m.beamDegrees() >= 0, m.toString());
            for (Fixture f : GenericFixtures.all()) {
                Fixture out = Photometry.modified(light(f, m));
                assertTrue(
                        lumens(out) <= lumens(f) * m.transmission() * (1 + 1e-9),
                        f.id() + " + " + m.name() + ": " + lumens(out) + " of " + lumens(f));
                assertTrue(lumens(out) > 0, f.id() + " + " + m.name());
            }
        }
    }

    @Test
    void aGridNeverWidens() {
        for (String name : List.of("grid 20", "grid 30", "barn doors")) {
            Modifier m = ModifierWords.WORDS.get(name);
            for (Fixture f : GenericFixtures.all()) {
                double beam = Photometry.luminaire(light(f, m)).beamDegrees();
                assertEquals(Math.min(f.beamDegrees(), m.beamDegrees()), beam, f.id() + name);
                // On its axis it takes its own share and no more.
                assertEquals(
                        f.emitters().get(0).candela() * m.transmission(),
                        Photometry.modified(light(f, m)).emitters().get(0).candela(),
                        1e-9);
            }
        }
    }

    /**
     * A beam of half angle h goes with cos^n, n = ln 0.5 / ln cos h, and has 2 pi I / (n + 1)
     * lumens.
     *
     * <pre>
     * 40 degrees: n = 0.69315 / 0.06220 = 11.143     85 degrees: n = 0.69315 / 0.30477 = 2.2743
     * softbox 90 on the RGBW lamp: 0.55 x 3.2743 / 12.143 = 0.1483 of the bare axis
     * </pre>
     */
    @Test
    void aSoftboxSpreadsWhatItLetsThrough() {
        Fixture out =
                Photometry.modified(
                        light(GenericFixtures.RGBW, ModifierWords.WORDS.get("softbox 90")));
        assertEquals(85, out.beamDegrees());
        assertEquals(4500 * 0.1483, out.emitters().get(3).candela(), 0.5);
        // The panel's 100 degrees are wider than the box: what is beside is cut off.
        Fixture panel =
                Photometry.modified(
                        light(GenericFixtures.BI_COLOUR, ModifierWords.WORDS.get("softbox 90")));
        assertEquals(85, panel.beamDegrees());
        assertEquals(1600 * 0.55, panel.emitters().get(0).candela(), 1e-9);
    }

    private static Light light(Fixture f, Modifier m) {
        return new Light(
                "any", f, f.modes().get(0), 1, 1, new Vec3(0, -2, 1.5), new Vec3(0, 0, 1.5), m);
    }

    private static double lumens(Fixture f) {
        double candela = f.emitters().stream().mapToDouble(Emitter::candela).sum();
        return new Beam(f.beamDegrees()).fluxLumens(candela);
    }
}

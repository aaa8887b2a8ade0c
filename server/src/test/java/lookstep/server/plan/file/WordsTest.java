package lookstep.server.plan.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import lookstep.server.plan.Modifier;
import lookstep.server.plan.Surface;
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

    @Test
    void noModifierMakesLight() {
        assertTrue(ModifierWords.WORDS.size() >= 5);
        for (Modifier m : ModifierWords.WORDS.values()) {
            assertTrue(m.transmission() > 0 && m.transmission() <= 1, m.toString());
            assertTrue(m.sizeMetres() > 0 && m.beamDegrees() >= 0, m.toString());
        }
        assertEquals(new Modifier("bare", 0.3, 1, 0), ModifierWords.BARE);
    }
}

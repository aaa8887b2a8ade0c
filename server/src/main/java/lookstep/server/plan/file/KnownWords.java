package lookstep.server.plan.file;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * The words that a plan file may have where it wants one of a few, for whoever offers them.
 *
 * @param skin of people
 * @param hair of people
 * @param clothes of people
 * @param surfaces of rooms
 * @param modifiers of lights
 * @param framings of shots
 * @param arrangements of people; 'rows 2-3' stands for any rows
 */
public record KnownWords(
        List<String> skin,
        List<String> hair,
        List<String> clothes,
        List<String> surfaces,
        List<String> modifiers,
        List<String> framings,
        List<String> arrangements) {
    /** All that the reader knows. */
    public static final KnownWords ALL =
            new KnownWords(
                    list(SurfaceWords.SKIN.words().keySet()),
                    list(SurfaceWords.HAIR.words().keySet()),
                    list(SurfaceWords.CLOTHES.words().keySet()),
                    list(SurfaceWords.ROOM.words().keySet()),
                    list(ModifierWords.WORDS.keySet()),
                    ShotsReader.FRAMINGS,
                    List.of(
                            "line",
                            "v towards camera",
                            "v away",
                            "w",
                            "rows 2-3",
                            "cluster",
                            "solo"));

    private static List<String> list(Set<String> words) {
        return List.copyOf(new ArrayList<>(words));
    }
}

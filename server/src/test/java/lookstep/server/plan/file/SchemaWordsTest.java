package lookstep.server.plan.file;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** The words an editor offers are the words the reader knows. */
class SchemaWordsTest {
    static Stream<Arguments> words() {
        String person = "/properties/people/items/properties";
        String place = "/properties/place/properties";
        String shot = "/$defs/shot/properties";
        return Stream.of(
                Arguments.of(person + "/skin/anyOf/0/enum", SurfaceWords.SKIN.words().keySet()),
                Arguments.of(person + "/hair/anyOf/0/enum", SurfaceWords.HAIR.words().keySet()),
                Arguments.of(person + "/top/anyOf/0/enum", SurfaceWords.CLOTHES.words().keySet()),
                Arguments.of(
                        person + "/bottom/anyOf/0/enum", SurfaceWords.CLOTHES.words().keySet()),
                Arguments.of(place + "/floor/anyOf/0/enum", SurfaceWords.ROOM.words().keySet()),
                Arguments.of(place + "/walls/anyOf/0/enum", SurfaceWords.ROOM.words().keySet()),
                Arguments.of(
                        place + "/background/properties/surface/anyOf/0/enum",
                        SurfaceWords.ROOM.words().keySet()),
                Arguments.of(
                        "/properties/rig/items/properties/modifier/anyOf/0/enum",
                        ModifierWords.WORDS.keySet()),
                Arguments.of(
                        "/properties/looks/items/properties/lights/additionalProperties/properties"
                                + "/blend/enum",
                        SettingReader.BLENDS),
                Arguments.of(shot + "/framing/enum", ShotsReader.FRAMINGS),
                Arguments.of(
                        shot + "/arrangement/anyOf/2/properties/kind/enum",
                        ArrangementWords.KINDS));
    }

    @ParameterizedTest
    @MethodSource("words")
    void areTheSame(String pointer, Collection<String> known) throws JsonProcessingException {
        same(DemoShoot.schema(), pointer, known);
    }

    static Stream<Arguments> fixtureWords() {
        String slot = "/$defs/slot/anyOf/";
        return Stream.of(
                Arguments.of("/$defs/curve/anyOf/0/enum", CurveWords.WORDS.keySet()),
                Arguments.of(slot + "2/properties/tint/required", SlotsReader.SIDES));
    }

    @ParameterizedTest
    @MethodSource("fixtureWords")
    void areTheSameForFixtures(String pointer, Collection<String> known)
            throws JsonProcessingException {
        same(ExampleFixture.schema(), pointer, known);
    }

    private static void same(String text, String pointer, Collection<String> known)
            throws JsonProcessingException {
        JsonNode schema = new ObjectMapper().readTree(text);
        List<String> offered = new ArrayList<>();
        schema.at(pointer).forEach(w -> offered.add(w.asText()));
        assertEquals(List.copyOf(known), offered);
    }
}

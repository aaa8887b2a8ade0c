package lookstep.server.plan.file;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.List;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;

class ShotEntriesTest {
    private static final List<String> EVERYBODY = List.of("Ines", "Dark Ines", "Zo\u00e9");

    private static JsonNode shots(String json) throws JsonProcessingException {
        return new ObjectMapper().readTree(json);
    }

    private static final String ROUNDS =
            """
            [{"name": "All five, safe"},
             {"solos": true},
             {"solos": true, "id": "solo-dark", "people": ["Ines"]},
             {"solos": true, "id": "close"},
             {"solos": true, "id": "close-up", "people": "all"}]
            """;

    private static OptionalInt of(String id) throws JsonProcessingException {
        return ShotEntries.of(shots(ROUNDS), EVERYBODY, id);
    }

    @Test
    void aSoloIsOfTheRoundThatMakesItsIdAndNoOther() throws JsonProcessingException {
        assertEquals(OptionalInt.of(0), of("all-five-safe"));
        assertEquals(OptionalInt.of(1), of("solo-ines"));
        assertEquals(OptionalInt.of(1), of("solo-zoe"));
        assertEquals(OptionalInt.of(3), of("close-ines"));
        assertEquals(OptionalInt.of(4), of("close-up-ines"));
        // both rounds would make it, which a plan that can be read forbids
        assertEquals(OptionalInt.of(2), of("solo-dark-ines"));
    }

    @Test
    void aShotThatIsNotInTheFileHasNoEntry() throws JsonProcessingException {
        assertEquals(OptionalInt.empty(), of("solo-nobody"));
        assertEquals(OptionalInt.empty(), of("solo-dark-zoe"));
        assertEquals(OptionalInt.empty(), of("close-"));
    }
}

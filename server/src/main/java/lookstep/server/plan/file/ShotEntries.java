package lookstep.server.plan.file;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.OptionalInt;

/** Which entry of a plan file's shots a shot comes from: its id may be made from its name. */
public final class ShotEntries {
    private ShotEntries() {}

    /**
     * The entry's index, from 0; that of the round for one of its solos.
     *
     * @param shots the list as it is written
     * @param id the shot's
     */
    public static OptionalInt of(JsonNode shots, String id) {
        for (int i = 0; i < shots.size(); i++) {
            if (!solos(shots.get(i)) && id.equals(id(shots.get(i)))) {
                return OptionalInt.of(i);
            }
        }
        for (int i = 0; i < shots.size(); i++) {
            JsonNode entry = shots.get(i);
            if (solos(entry) && id.startsWith(entry.path("id").asText("solo") + "-")) {
                return OptionalInt.of(i);
            }
        }
        return OptionalInt.empty();
    }

    private static boolean solos(JsonNode entry) {
        return entry.path("solos").asBoolean();
    }

    private static String id(JsonNode entry) {
        return entry.has("id")
                ? entry.path("id").asText()
                : ShotsReader.slug(entry.path("name").asText());
    }
}

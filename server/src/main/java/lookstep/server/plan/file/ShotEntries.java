package lookstep.server.plan.file;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;

/** Which entry of a plan file's shots a shot comes from: its id may be made from its name. */
public final class ShotEntries {
    private ShotEntries() {}

    /**
     * The entry's index, from 0; that of the round for one of its solos; empty if the shot is not
     * in the file.
     *
     * @param shots the list as it is written
     * @param everybody names of the plan's people, who have a solo where a round names nobody
     * @param id the shot's
     */
    public static OptionalInt of(JsonNode shots, List<String> everybody, String id) {
        OptionalInt one = single(shots, id);
        return one.isPresent() ? one : round(shots, everybody, id);
    }

    private static OptionalInt single(JsonNode shots, String id) {
        for (int i = 0; i < shots.size(); i++) {
            if (!solos(shots.get(i)) && id.equals(id(shots.get(i)))) {
                return OptionalInt.of(i);
            }
        }
        return OptionalInt.empty();
    }

    private static OptionalInt round(JsonNode shots, List<String> everybody, String id) {
        int best = -1;
        for (int i = 0; i < shots.size(); i++) {
            JsonNode entry = shots.get(i);
            boolean fits =
                    solos(entry)
                            && people(entry, everybody).stream()
                                    .anyMatch(
                                            p ->
                                                    id.equals(
                                                            prefix(entry)
                                                                    + "-"
                                                                    + ShotsReader.slug(p)));
            if (fits && (best < 0 || longer(entry, shots.get(best)))) {
                best = i;
            }
        }
        return best < 0 ? OptionalInt.empty() : OptionalInt.of(best);
    }

    private static List<String> people(JsonNode entry, List<String> everybody) {
        if (!entry.path("people").isArray()) {
            return everybody;
        }
        List<String> names = new ArrayList<>();
        entry.path("people").forEach(p -> names.add(p.asText()));
        return names;
    }

    private static boolean longer(JsonNode one, JsonNode other) {
        return prefix(one).length() > prefix(other).length();
    }

    private static boolean solos(JsonNode entry) {
        return entry.path("solos").asBoolean();
    }

    private static String prefix(JsonNode entry) {
        return entry.path("id").asText("solo");
    }

    private static String id(JsonNode entry) {
        return entry.has("id")
                ? entry.path("id").asText()
                : ShotsReader.slug(entry.path("name").asText());
    }
}

package lookstep.server.pages;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.Map;
import lookstep.simulator.model.scene.Arrangement;
import lookstep.simulator.model.scene.Arrangement.Kind;
import lookstep.simulator.model.scene.Positions;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;

/**
 * The plan editor draws people where the model stands them: it works the places out by itself, so
 * that a press shows at once, and must not drift from {@link Positions}.
 */
class StandingTest extends PageCase {
    private static final int MOST_PEOPLE = 9;

    private static Arrangement of(Kind kind, boolean apexNear, Integer... rows) {
        return new Arrangement(kind, apexNear, 0.55, 0.6, List.of(rows));
    }

    @Test
    void thePageAndTheModelStandPeopleInTheSamePlaces() {
        open("band", "band");
        Map<String, Arrangement> shapes =
                Map.of(
                        "line", of(Kind.LINE, false),
                        "v towards camera", of(Kind.WEDGE, true),
                        "v away", of(Kind.WEDGE, false),
                        "w", of(Kind.ZIGZAG, false),
                        "cluster", of(Kind.CLUSTER, false));
        shapes.forEach(
                (written, arrangement) -> {
                    for (int people = 3; people <= MOST_PEOPLE; people++) {
                        same(written, arrangement, people);
                    }
                });
        same("solo", of(Kind.SOLO, false), 1);
        same("line", of(Kind.LINE, false), 2);
        same("rows 2-3", of(Kind.ROWS, false, 2, 3), 5);
        same("rows 3-3", of(Kind.ROWS, false, 3, 3), 6);
        same("rows 2-3-4", of(Kind.ROWS, false, 2, 3, 4), 9);
    }

    private void same(String written, Arrangement arrangement, int people) {
        JsonNode there =
                JSON.valueToTree(
                        page.evaluate(
                                """
                                async ([written, people]) => {
                                  const { arrangementOf, places } = await import('/live/standing.js');
                                  return places(arrangementOf(written), people);
                                }
                                """,
                                List.of(written, people)));
        List<Vec3> here = Positions.of(arrangement, people);
        assertEquals(here.size(), there.size(), written);
        for (int i = 0; i < here.size(); i++) {
            String which = written + ", " + people + " people, place " + (i + 1);
            assertEquals(here.get(i).x(), there.get(i).get("x").asDouble(), 1e-9, which);
            assertEquals(here.get(i).y(), there.get(i).get("y").asDouble(), 1e-9, which);
        }
    }
}

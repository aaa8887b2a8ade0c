package lookstep.server.checks;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lookstep.server.look.LookLevels;
import lookstep.server.plan.ShootPlan;
import org.junit.jupiter.api.Test;

@SuppressWarnings("StringConcatToTextBlock") // pieces of a file, with their indents
class RoomCheckTest {
    private static final String SURFACE = "0.25";
    private static final String KEY = "position: [-1.9, -1.7, 2.3]\n    aim: [0.4, 0.2, 1.5]";

    /** The key alone, from the front, before a background that is light enough to be seen. */
    private static ShootPlan plan(String position, String percent, String colour) {
        return Plans.with(
                "surface: black cloth",
                "surface: " + SURFACE,
                KEY,
                "position: " + position + "\n    aim: [0, 0.2, 1.5]",
                "      key: {percent: 100}\n      fill: {stops: -0.7}\n      rim: {stops: +0.5}\n"
                        + "      top: {stops: -1}\n",
                "      key: {percent: " + percent + "}\n",
                "      key: {percent: 60}\n",
                "      key: {percent: " + colour + "}\n");
    }

    private static Finding room(ShootPlan plan) {
        return RoomCheck.of(Staged.of(plan, Plans.shot(plan, "safe"))).get(0);
    }

    private static double lux(ShootPlan plan) {
        Staged s = Staged.of(plan, Plans.shot(plan, "safe"));
        return s.faces().stream().mapToDouble(FaceLight::lux).average().orElseThrow();
    }

    private static Object to(List<Change> changes, List<Object> path) {
        return changes.stream()
                .filter(c -> c.path().equals(path))
                .findFirst()
                .orElseThrow()
                .value();
    }

    /** A lamp that is only brought nearer would be stops over, in this look and in the others. */
    @Test
    void whatBringsALightCloserTurnsItDownInEachLookThatHasItInPercent() {
        String far = "[-2, -4, 2.8]";
        ShootPlan before = plan(far, "80", "60");
        Finding f = room(before);
        assertEquals(Weight.LOOK, f.weight(), f.toString());
        List<Change> changes = f.mend().orElseThrow().changes();
        String closer = to(changes, Paths.light("key", "position")).toString();
        String percent = to(changes, Paths.setting("safe", "key", "percent")).toString();
        String colour = to(changes, Paths.setting("colour", "key", "percent")).toString();
        ShootPlan after = plan(closer, percent, colour);
        assertEquals(Weight.GOOD, room(after).weight(), room(after).toString());
        assertEquals(0, Words.log2(lux(after) / lux(before)), 1 / 3.0);
        for (String look : List.of("safe", "colour")) {
            double was = subject(before, look);
            assertEquals(0, Words.log2(subject(after, look) / was), 0.02, look);
        }
    }

    private static double subject(ShootPlan plan, String look) {
        return LookLevels.of(plan, plan.look(look))
                .lights()
                .get(0)
                .given()
                .orElseThrow()
                .amount()
                .lux();
    }

    @Test
    void aLightThatTheLookMovesHasAMendInWordsAlone() {
        ShootPlan plan =
                Plans.with(
                        "surface: black cloth",
                        "surface: " + SURFACE,
                        "      fill: {stops: -0.7}\n      rim: {stops: +0.5}\n"
                                + "      top: {stops: -1}\n",
                        "    moved: {key: {position: [-2, -4, 2.8], aim: [0, 0.2, 1.5]}}\n");
        Finding f = room(plan);
        assertTrue(f.says().contains("‘key’"), f.says());
        assertTrue(f.numbers().containsKey("lightMetresForDark"), f.toString());
        assertEquals(List.of(), f.mend().orElseThrow().changes());
    }
}

package lookstep.server.checks;

import static lookstep.server.checks.Plans.DEMO;
import static lookstep.server.checks.Plans.number;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.server.plan.file.DemoShoot;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@SuppressWarnings("StringConcatToTextBlock") // pieces of a file, with their indents
class WholePlanChecksTest {
    private static final String PLACE = "  walls: brick\n";

    @Test
    void theSameShotTwiceIsSaid() {
        List<Shot> shots = new ArrayList<>(DEMO.shots());
        Shot s = Plans.shot(DEMO, "two-off");
        shots.add(
                new Shot(
                        "again",
                        "Once more",
                        false,
                        s.look(),
                        s.people(),
                        s.arrangement(),
                        s.lensMillimetres(),
                        s.distanceMetres(),
                        s.cameraHeightMetres(),
                        s.framing(),
                        s.say(),
                        5));
        ShootPlan twice = DEMO.withShots(shots);
        Likeness likeness = Likeness.of(twice);
        assertEquals(1, likeness.of("two-off", "again"), 1e-9);
        assertEquals(likeness.of("safe", "two-off"), likeness.of("two-off", "safe"), 1e-12);
        assertTrue(likeness.of("safe", "rim-only") < 0.5);
        assertEquals(0, likeness.of("solo-ines", "solo-petra"), 0);
        Finding f = VarietyCheck.of(twice, likeness).get(0);
        assertEquals("again", f.subject().shot());
        assertEquals("two-off", f.numbers().get("otherShot"));
    }

    @Test
    void whoHasNoSoloAndWhoIsInNoGroup() {
        List<Shot> shots =
                DEMO.shots().stream()
                        .filter(s -> !s.id().equals("solo-petra"))
                        .map(
                                s ->
                                        s.solo()
                                                ? s
                                                : Plans.changed(
                                                        s,
                                                        s.people().stream()
                                                                .filter(p -> !p.equals("Tovah"))
                                                                .toList(),
                                                        Plans.shot(DEMO, "spread").arrangement(),
                                                        35,
                                                        4.2))
                        .toList();
        ShootPlan plan = DEMO.withShots(shots);
        List<Finding> all = VarietyCheck.of(plan, Likeness.of(plan));
        assertTrue(
                all.stream().anyMatch(f -> f.says().equals("Petra has no solo, and others have")));
        Finding out =
                all.stream()
                        .filter(f -> f.says().equals("Tovah is in no group picture"))
                        .findFirst()
                        .orElseThrow();
        assertEquals(Weight.WRONG, out.weight());
    }

    /** 16 A x 230 V = 3680 W, four fifths are 2944 W (common practice). */
    @Test
    void circuitsAreAddedUp() {
        ShootPlan plan =
                Plans.with(
                        "    - {name: wall left, amps: 16, lights: [key, rim]}\n"
                                + "    - {name: wall right, amps: 16, lights: [fill, top]}\n",
                        "    - {name: left, amps: 1, volts: 230, lights: [key, rim]}\n"
                                + "    - {name: right, amps: 16, volts: 230, lights: [fill], watts:"
                                + " 2000}\n");
        List<Finding> all = PowerCheck.of(plan);
        double key = plan.light("key").fixture().watts();
        double rim = plan.light("rim").fixture().watts();
        assertEquals(key + rim, number(all.get(0), "watts"), 1e-9);
        assertEquals((key + rim) / 230, number(all.get(0), "amps"), 1e-9);
        assertEquals(
                key + rim > 230 ? Weight.WRONG : key + rim > 184 ? Weight.LOOK : Weight.GOOD,
                all.get(0).weight());
        assertEquals(2944, number(all.get(1), "usableWatts"), 1e-9);
        assertEquals(Weight.GOOD, all.get(1).weight());
        assertTrue(all.get(2).says().contains("‘top’ is on no circuit"), all.get(2).says());
        assertEquals("plug ‘top’ into circuit ‘right’", all.get(2).mend().orElseThrow().says());
    }

    @Test
    void aWindowThatDoesNotFitThePlace() {
        ShootPlan plan = Plans.with(PLACE, PLACE + "  from: \"18:55\"\n  until: \"19:00\"\n");
        Finding f = PlaceCheck.of(plan).get(0);
        assertEquals(Weight.WRONG, f.weight());
        assertEquals(300, number(f, "placeSeconds"), 0);
        assertEquals(480, number(f, "windowSeconds"), 0);
        ShootPlan night = Plans.with(PLACE, PLACE + "  from: \"23:55\"\n  until: \"00:10\"\n");
        assertEquals(900, number(PlaceCheck.of(night).get(0), "placeSeconds"), 0);
        assertEquals(Weight.GOOD, PlaceCheck.of(night).get(0).weight());
    }

    @Test
    void aLightNearAFaceOrOverPeople() {
        ShootPlan near = Plans.with("position: [-1.9, -1.7, 2.3]", "position: [-0.3, -0.3, 1.7]");
        Finding f =
                HeatCheck.of(near).stream()
                        .filter(x -> x.subject().light().equals("key"))
                        .findFirst()
                        .orElseThrow();
        assertEquals(Weight.WRONG, f.weight());
        assertTrue(
                HeatCheck.of(DEMO).stream()
                        .anyMatch(x -> x.says().contains("‘top’ hangs 4.3 m high")));
    }

    private static Finding heat(ShootPlan plan, String light) {
        return HeatCheck.of(plan).stream()
                .filter(x -> x.subject().light().equals(light))
                .filter(x -> x.numbers().containsKey("nearestHeadMetres"))
                .findFirst()
                .orElseThrow();
    }

    /** Back along its aim is nearer to the heads for one that looks away from them. */
    @ParameterizedTest
    @ValueSource(strings = {"[-0.3, -3, 1.7]", "[0.4, 0.2, 1.5]"})
    void theMendOfALightNearAHeadStandsFarther(String aim) {
        String from = "position: [-0.3, -0.6, 1.7]\n    aim: " + aim;
        ShootPlan near = Plans.with("position: [-1.9, -1.7, 2.3]\n    aim: [0.4, 0.2, 1.5]", from);
        Change change = heat(near, "key").mend().orElseThrow().changes().get(0);
        assertEquals(Paths.light("key", "position"), change.path());
        ShootPlan mended =
                Plans.with(
                        "position: [-1.9, -1.7, 2.3]\n    aim: [0.4, 0.2, 1.5]",
                        "position: " + change.value() + "\n    aim: " + aim);
        assertTrue(
                HeatCheck.of(mended).stream().noneMatch(x -> x.subject().light().equals("key")),
                change.value().toString());
    }

    @Test
    void aLightThatOnlyALookMovesNearHasAMendInWordsAlone() {
        ShootPlan plan =
                Plans.with(
                        "      key: {percent: 100}\n      rim: {stops: +1}\n",
                        "      key: {percent: 100}\n      rim: {stops: +1}\n"
                                + "    moved: {key: {position: [-0.3, -0.6, 1.7]}}\n");
        assertEquals(List.of(), heat(plan, "key").mend().orElseThrow().changes());
    }

    @Test
    void aLightThatPlacesHaveAtPointsOfTheirOwnHasAMendInWordsAlone() {
        String text = DemoShoot.text();
        int at = text.indexOf("place:\n");
        int end = text.indexOf("# A shoot in several places");
        String place =
                "places:\n  - {name: %s, width: 8, depth: 9, height: 4.8, background: {distance:"
                        + " 2.5, surface: black cloth}, floor: wood, walls: brick%s}\n";
        String near = ", lights: [{name: key, position: [-0.3, -0.6, 1.7]}, fill, rim, top]";
        String two =
                place.formatted("one", near) + place.replace("places:\n", "").formatted("two", "");
        ShootPlan plan = Plans.with(text.substring(at, end), two).at("one");
        assertEquals(List.of(), heat(plan, "key").mend().orElseThrow().changes());
    }

    @Test
    void flashingIsALookOnlyWhereThePlanLiftsTheLimit() {
        assertEquals(List.of(), FlashingCheck.of(DEMO));
        ShootPlan flashing = Plans.with("window: 8 min", "window: 8 min\nflashing: allowed");
        assertEquals(Weight.LOOK, FlashingCheck.of(flashing).get(0).weight());
    }

    @Test
    void whatWasWorkedOutIsKeptAndSaysTheSame() {
        PlanChecks checks = new PlanChecks();
        Report first = checks.check(DEMO);
        assertEquals(first, checks.check(DEMO));
        assertEquals(first, PlanChecks.of(DEMO));
        ShootPlan darker = Plans.with("iso: 6400", "iso: 1600");
        assertEquals(PlanChecks.of(darker), checks.check(darker));
        assertFalse(first.equals(checks.check(darker)));
    }

    @Test
    void everyFindingHasWordsAndIsOfAKnownSubject() {
        Report report = PlanChecks.of(DEMO);
        assertTrue(report.findings().size() > 50, "" + report.findings().size());
        for (Finding f : report.findings()) {
            assertFalse(f.says().isBlank());
            assertFalse(f.says().contains("this check failed"), f.says());
            assertTrue(f.subject().shot().isEmpty() || DEMO.shot(f.subject().shot()).isPresent());
            f.numbers()
                    .forEach(
                            (name, v) ->
                                    assertTrue(
                                            v instanceof String
                                                    || (v instanceof Double d
                                                            && Double.isFinite(d)),
                                            name + " is " + v));
        }
    }

    @Test
    void jsonHasStableKeys() throws IOException {
        JsonNode json =
                new ObjectMapper().readTree(ReportJson.of(DEMO, PlanChecks.of(DEMO)).text());
        assertEquals(1, json.get("version").asInt());
        assertEquals(DEMO.title(), json.get("title").asText());
        assertEquals("the Brine Loft", json.get("place").asText());
        assertEquals("look", json.get("worst").asText());
        JsonNode first = json.get("findings").get(0);
        assertEquals("depth-of-field", first.get("kind").asText());
        assertEquals("good", first.get("weight").asText());
        assertEquals("safe", first.get("shot").asText());
        assertEquals(0.02, first.get("numbers").get("circleMillimetres").asDouble(), 1e-12);
        assertFalse(first.has("person"));
        boolean changes = false;
        for (JsonNode f : json.get("findings")) {
            changes |= f.has("mend") && f.get("mend").has("changes");
        }
        assertTrue(changes);
    }

    @Test
    void textSaysTheWeightInWords() {
        String text = ReportText.of(DEMO, PlanChecks.of(DEMO));
        assertTrue(text.contains("  look at  "), text);
        assertTrue(text.contains("  good     "), text);
        assertTrue(text.contains("           mend: "), text);
        assertTrue(text.lines().allMatch(l -> l.length() <= 101), text);
    }
}

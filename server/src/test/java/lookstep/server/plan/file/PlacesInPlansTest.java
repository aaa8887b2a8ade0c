package lookstep.server.plan.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import lookstep.protocols.fixture.GenericFixtures;
import lookstep.server.look.LookLevels;
import lookstep.server.plan.Light;
import lookstep.server.plan.Location;
import lookstep.server.plan.Look;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;
import lookstep.simulator.model.space.Vec3;
import org.junit.jupiter.api.Test;

/** Several places, jobs, moves and lights that are moved for a look. */
class PlacesInPlansTest {
    private static final String TWO =
            """
            title: Two places
            places:
              - name: the stage
                width: 8
                depth: 9
                height: 4.8
                background: {distance: 2.5, surface: black cloth}
                house: {lux: 2, kelvin: 2700}
                from: "17:30"
                until: "19:00"
                ask: the house technician
                circuits:
                  - {name: left, amps: 16, lights: [key]}
                  - {name: right, amps: 10, volts: 120, lights: [rim], watts: 300}
              - name: the stairs
                width: 3
                depth: 6
                height: 3
                background: {distance: 1, surface: brick}
                access: through the yard
                notes: [watch the step, no tape]
                lights: [{name: key, position: [-1, -1, 2]}]
            house: {lux: 9, kelvin: 3000}
            window: 5 min
            camera: {f: 5.6, time: 1/100, iso: 3200, kelvin: 4300, sensor: [23.5, 15.6]}
            times: {light: 90, words: 10}
            jobs:
              - {client: the band, promised: a cover}
              - {client: the Harbour Weekly, promised: [two spreads, a square], contact: picture desk}
            band: {notes: they hate chairs, pictures: [last-tour.jpg]}
            people:
              - {name: Ada, height: 1.7, note: no hats}
              - {name: Bo, height: 1.8}
            rig:
              - {name: key, fixture: bi-colour, slot: 1, position: [-2, -2, 2.2]}
              - {name: rim, fixture: dimmer, slot: 11, position: [2, 2, 2.4]}
            looks:
              - name: safe
                lights: {key: {percent: 100}, rim: {stops: 0}}
              - name: side
                moved: {key: {position: [-3, 0, 2]}}
                lights: {key: {percent: 100}}
              - name: rim only
                lights: {rim: {percent: 100}}
            shots:
              - {name: Both, safe: true, look: safe, lens: 35, distance: 3, text: top}
              - {name: Side, look: side, lens: 35, distance: 3, together: the pair, seconds: 40,
                 job: the Harbour Weekly}
              - {name: Rim, look: rim only, lens: 35, distance: 3}
              - {solos: true, look: safe, lens: 85, distance: 2}
            """;

    private static ShootPlan plan(String text) {
        PlanReading reading =
                new PlanReader(GenericFixtures.all()).read(text.getBytes(StandardCharsets.UTF_8));
        return assertInstanceOf(PlanReading.Good.class, reading, reading.toString()).plan();
    }

    private static List<String> errors(String text) {
        PlanReading reading =
                new PlanReader(GenericFixtures.all()).read(text.getBytes(StandardCharsets.UTF_8));
        return assertInstanceOf(PlanReading.Bad.class, reading).errors().stream()
                .map(e -> e.text("f"))
                .toList();
    }

    @Test
    void thePlanIsAtTheFirstPlaceAndKnowsTheOthers() {
        ShootPlan plan = plan(TWO);
        assertEquals("the stage", plan.place().name());
        assertEquals(2, plan.house().lux());
        Location stage = plan.locations().get(0);
        assertEquals(Optional.of(LocalTime.of(17, 30)), stage.from());
        assertEquals(Optional.of(LocalTime.of(19, 0)), stage.until());
        assertEquals(230, stage.circuits().get(0).volts());
        assertEquals(300, stage.circuits().get(1).otherWatts());
        assertEquals(List.of("watch the step", "no tape"), plan.locations().get(1).notes());
        assertEquals(23.5, plan.around().sensor().longMillimetres());
        assertEquals(90, plan.around().times().light());
        assertEquals(2, plan.around().times().key(), "the rest is as usual");
        assertEquals(List.of("a cover"), plan.around().jobs().get(0).promised());
        assertEquals(List.of("they hate chairs"), plan.around().band().notes());
        assertEquals("no hats", plan.person("Ada").note());
        assertEquals("top", plan.shots().get(0).use().text());
        assertEquals(
                new Shot.Use("the Harbour Weekly", "the pair", false, 40, ""),
                plan.shots().get(1).use());
    }

    @Test
    void elsewhereTheLightsStandOtherwiseAndWhatNeedsTheOthersFallsOut() {
        ShootPlan stairs = plan(TWO).at("the stairs");
        assertEquals("the stairs", stairs.place().name());
        assertEquals(9, stairs.house().lux(), "the house light of all, where a place has none");
        assertEquals(List.of("key"), stairs.rig().stream().map(Light::name).toList());
        assertEquals(new Vec3(-1, -1, 2), stairs.light("key").position());
        assertEquals(List.of("safe", "side"), stairs.looks().stream().map(Look::name).toList());
        assertEquals(List.of("key"), List.copyOf(stairs.look("safe").lights().keySet()));
        assertEquals(
                List.of("both", "side", "solo-ada", "solo-bo"),
                stairs.shots().stream().map(Shot::id).toList());
    }

    @Test
    void aLightThatIsMovedForALookStandsThereInThatLookOnly() {
        ShootPlan plan = plan(TWO);
        assertEquals(new Vec3(-3, 0, 2), plan.placed(plan.look("side")).light("key").position());
        assertEquals(new Vec3(-2, -2, 2.2), plan.placed(plan.look("safe")).light("key").position());
        double there = LookLevels.range(plan, plan.look("side"), "key").mostLux();
        double here = LookLevels.range(plan, plan.look("safe"), "key").mostLux();
        // inverse square, on the axis of the beam: from (-3, 0, 2) and from (-2, -2, 2.2) to the
        // middle face at 1.5 m
        double nearer = (9 + 0.25) / (4 + 4 + 0.49);
        assertEquals(here / nearer, there, 0.03 * here);
    }

    @Test
    void mistakesAreNamedWithTheirPlaceAndMend() {
        assertTrue(
                errors(TWO.replace("until: \"19:00\"", "until: 25:00"))
                        .toString()
                        .contains("write a time of day in quotes"));
        assertTrue(
                errors(TWO.replace("lights: [rim], watts", "lights: [key], watts"))
                        .toString()
                        .contains("plug it into one circuit only"));
        assertTrue(
                errors(
                                TWO.replace("[{name: key, position: [-1, -1, 2]}]", "[rim]")
                                        .replace(
                                                "- name: rim only\n    lights: {rim: {percent: 100}}",
                                                "")
                                        .replace(
                                                "  - {name: Rim, look: rim only, lens: 35, distance: 3}\n",
                                                ""))
                        .toString()
                        .contains("no shot can be made at 'the stairs'"));
        assertTrue(
                errors(TWO.replace("name: the stairs", "name: The Stage"))
                        .toString()
                        .contains("there is a place 'the stage'"));
        assertTrue(
                errors(TWO.replace("job: the Harbour Weekly", "job: somebody"))
                        .toString()
                        .contains("there is no client 'somebody'"));
        assertTrue(
                errors(TWO.replace("moved: {key:", "moved: {keys:"))
                        .toString()
                        .contains("there is no light 'keys'"));
    }
}
